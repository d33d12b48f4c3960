// Knows how charts write a chord root in a key, so that a chord under a strange name does not spell its tones strangely too.
using System.Collections.Immutable;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Spelling;

/// <summary>Roots of chords as charts write them.</summary>
public static class RootInKey
{
    // On the line of fifths from the middle of the signature: a leading-tone diminished chord lies up to 7 to the sharp side (C#dim7 and
    // G#dim7 in C), the substitute for the subdominant's dominant 8 to the flat side (Gb7 in C). Farther off the other name is the usual one.
    private const int SharpSide = 7, FlatSide = 8;

    /// <summary>The root as it is usually written in a key, or null where it is written so already.</summary>
    public static PitchName? Usual(PitchName root, Key key)
    {
        var away = root.Fifths - (key.Fifths + 2);
        var other = key.Spell(root.PitchClass);
        return other != root && Math.Abs(other.Alteration) <= 1 && !IsRare(other) && (away > SharpSide || away < -FlatSide) ? other : null;
    }

    /// <summary>True for the names that charts avoid as roots outside the keys that hold them (common practice).</summary>
    public static bool IsRare(PitchName name) => name.ToString() is "E#" or "B#" or "Cb" or "Fb";

    /// <summary>The chord under its usual root, with its tones spelled from there.</summary>
    public static Chord Rewritten(Chord chord, Key key) => Usual(chord.Root, key) is not { } root ? chord
        : chord with
        {
            Root = root,
            Tones = chord.Tones.Select(t => t with { Name = t.Degree.Above(root) }).ToImmutableArray(),
            Bass = chord.Bass is { } bass ? chord.Tones.FirstOrDefault(t => t.Name == bass)?.Degree.Above(root) ?? Usual(bass, key) ?? bass : null,
        };
}
