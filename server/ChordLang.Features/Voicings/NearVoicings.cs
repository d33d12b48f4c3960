// Grips of a chord ranked by how near they are to the one before, with the reason in words.
using System.Collections.Immutable;
using ChordLang.Features.Hovers;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
using ChordLang.Harmony.Voicings;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Voicings;

/// <summary>A grip and why it stands where it stands in the list.</summary>
/// <param name="Voicing">The grip.</param>
/// <param name="Cost">Less is nearer: semitones that the voices move, and frets that the hand does.</param>
/// <param name="Why">A clause: <c>drop-2, top note stays B4, two notes stay</c>.</param>
public sealed record NearVoicing(Voicing Voicing, double Cost, string Why);

/// <summary>Ranks grips.</summary>
public static class NearVoicings
{
    // Ours: a fret of the hand's way counts as half a semitone of a voice; another number of voices as three semitones; the top note is heard most.
    private const double ShiftPrice = 0.5, OtherSize = 3, TopPrice = 0.5;

    // Where nothing came before: the middle of the neck, and the root lowest (common practice of first grips).
    private const int Home = 4;
    private const double Inversion = 2;
    private const int MostTried = 60;

    /// <summary>The nearest grips that the hand can hold, best first.</summary>
    /// <param name="neck">The neck.</param>
    /// <param name="hand">The hand.</param>
    /// <param name="chord">The chord.</param>
    /// <param name="before">The grip before, or null.</param>
    /// <param name="most">How many.</param>
    public static ImmutableArray<NearVoicing> Of(Neck neck, Hand hand, Chord chord, Voicing? before, int most)
    {
        if (most <= 0)
            return [];
        if (before is not null && (before.Strings != neck.Tuning.Strings || !before.Played.Any()))
            before = null;
        var found = ImmutableArray.CreateBuilder<NearVoicing>(most);
        var ranked = ChordGrips.Of(neck, chord)
            .Select(v => (Voicing: v, Cost: before is null ? First(neck, chord, v) : Way(neck, before, v))).OrderBy(v => v.Cost).Take(MostTried);
        foreach (var (voicing, cost) in ranked)
        {
            if (voicing == before || FingeringSearch.Best(neck, hand, voicing).Best is null)
                continue;
            found.Add(new(voicing, cost, Why(neck, chord, before, voicing)));
            if (found.Count == most)
                break;
        }
        return found.ToImmutable();
    }

    private static double Way(Neck neck, Voicing from, Voicing to)
    {
        var (a, b) = (Sounding(neck, from), Sounding(neck, to));
        var moved = a.Length == b.Length ? a.Zip(b, (x, y) => Math.Abs(x - y)).Sum()
            : OtherSize * Math.Abs(a.Length - b.Length) + b.Sum(y => a.Min(x => Math.Abs(x - y)));
        return moved + TopPrice * Math.Abs(a[^1] - b[^1]) + ShiftPrice * Math.Abs(Position(from) - Position(to));
    }

    private static double First(Neck neck, Chord chord, Voicing voicing) =>
        Math.Abs(Position(voicing) - Home) + (chord.Bass is null && chord.IntervalOf(Sounding(neck, voicing)[0]) != 0 ? Inversion : 0);

    private static string Why(Neck neck, Chord chord, Voicing? before, Voicing voicing)
    {
        var sounding = Sounding(neck, voicing);
        var kind = VoicingKind.Of(sounding, chord).Kind;
        string Spelled(int midi) => $"{Pitch.Of(midi, chord.Spell(midi))}";
        if (before is null)
            return $"{kind}, {chord.DegreeOf(sounding[^1]).Spoken()} on top: {Spelled(sounding[^1])}";
        var old = Sounding(neck, before);
        var step = sounding[^1] - old[^1];
        var motion = step == 0 ? $"top note stays {Spelled(sounding[^1])}" : $"top note {(step > 0 ? "rises" : "falls")} {Step(Math.Abs(step))} to {Spelled(sounding[^1])}";
        var kept = sounding.Intersect(old).Count();
        var shift = Math.Abs(Position(voicing) - Position(before));
        return $"{kind}, {motion}{(kept == 0 ? "" : $", {Say.Number(kept, "note stays", "notes stay")}")}{(shift == 0 ? "" : $", the hand moves {Say.Number(shift, "fret")}")}";
    }

    private static string Step(int semitones) => semitones switch { 1 => "a semitone", 2 => "a whole tone", _ => $"{semitones} semitones" };

    private static int Position(Voicing voicing) => voicing.Slots.OfType<int>().Where(f => f > 0).DefaultIfEmpty(1).Min();

    private static ImmutableArray<int> Sounding(Neck neck, Voicing voicing) => [.. voicing.Played.Select(s => neck.Midi(s, voicing[s]!.Value)).Order()];
}
