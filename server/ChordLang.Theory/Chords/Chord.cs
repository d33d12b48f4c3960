// What a chord symbol means: its tones, and what each of the twelve pitches is to it.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>What a pitch is to a chord.</summary>
public enum ToneRole
{
    /// <summary>Makes the chord what it is: third, seventh, sixth, suspended tone, every named alteration. Missed when absent.</summary>
    Essential,

    /// <summary>Belongs to the chord, yet players leave it out: the root, the plain fifth, the lower tensions under a higher one.</summary>
    Optional,

    /// <summary>Not in the symbol, but agrees with it: it colours, and a fuller symbol could name it.</summary>
    Tension,

    /// <summary>Fights the symbol: who reads the symbol would not play it.</summary>
    Contradiction,
}

/// <summary>A tone that the symbol asks for.</summary>
/// <param name="Degree">Degree above the root, as the symbol counts it (9, not 2, in a ninth chord).</param>
/// <param name="Name">Its spelling.</param>
/// <param name="Role">Essential or optional.</param>
public sealed record ChordTone(Degree Degree, PitchName Name, ToneRole Role);

/// <summary>A chord symbol that was understood.</summary>
/// <param name="Symbol">As written.</param>
/// <param name="Root">Spelled root.</param>
/// <param name="Kind">The MusicXML 4.0 kind value that comes nearest (<c>dominant</c>, <c>half-diminished</c>, …).</param>
/// <param name="Tones">Tones asked for, root first, rising by degree. The slash bass is not among them unless the symbol names it too.</param>
/// <param name="Bass">The slash bass, or null.</param>
/// <param name="Roles">For each interval of 0 to 11 semitones above the root, what it is to this chord.</param>
/// <param name="Degrees">For each interval of 0 to 11 semitones above the root, the degree a player would call it under this chord.</param>
public sealed record Chord(
    string Symbol, PitchName Root, string Kind, ImmutableArray<ChordTone> Tones, PitchName? Bass,
    ImmutableArray<ToneRole> Roles, ImmutableArray<Degree> Degrees)
{
    /// <summary>Interval of a pitch class above the root, 0 to 11.</summary>
    public int IntervalOf(int pitchClass) => PitchName.Modulo(pitchClass - Root.PitchClass, 12);

    /// <summary>What a pitch (MIDI number or pitch class) is to the chord; the slash bass counts as asked for.</summary>
    public ToneRole RoleOf(int pitch) =>
        Roles[IntervalOf(pitch)] is var role && Bass is { } bass && PitchName.Modulo(pitch - bass.PitchClass, 12) == 0 && role >= ToneRole.Tension
            ? ToneRole.Optional : role;

    /// <summary>True where strict naming allows a pitch (MIDI number or pitch class): the symbol asks for it, or names it as its bass.</summary>
    public bool Names(int pitch) => RoleOf(pitch) is ToneRole.Essential or ToneRole.Optional;

    /// <summary>The essential tones that are not among sounding pitches (MIDI numbers or pitch classes).</summary>
    public ImmutableArray<ChordTone> Missing(IEnumerable<int> sounding)
    {
        var heard = sounding.Aggregate(0, (bits, p) => bits | 1 << PitchName.Modulo(p, 12));
        return [.. Tones.Where(t => t.Role == ToneRole.Essential && (heard >> t.Name.PitchClass & 1) == 0)];
    }

    /// <summary>The degree that a pitch (MIDI number or pitch class) is in this chord.</summary>
    public Degree DegreeOf(int pitch) => Degrees[IntervalOf(pitch)];

    /// <summary>How this chord spells a pitch (MIDI number or pitch class); the slash bass keeps its own spelling.</summary>
    public PitchName Spell(int pitch) =>
        Bass is { } bass && PitchName.Modulo(pitch - bass.PitchClass, 12) == 0 ? bass : DegreeOf(pitch).Above(Root);
}

/// <summary>Where and why a chord symbol was not understood.</summary>
/// <param name="At">Offset in the symbol of the first character that means nothing.</param>
/// <param name="Length">How many characters from there.</param>
/// <param name="Message">A sentence that says what is wrong and what to do.</param>
/// <param name="Nearest">Whole symbols that were probably meant, best first.</param>
public sealed record ChordTrouble(int At, int Length, string Message, ImmutableArray<string> Nearest);

/// <summary>The answer of the chord reader: a chord, or what was wrong with the symbol.</summary>
public sealed record ChordReading(Chord? Chord, ChordTrouble? Trouble);
