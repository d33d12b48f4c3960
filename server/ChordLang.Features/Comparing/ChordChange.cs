// What one chord is to the one that it took the place of, in the words of the trade.
using ChordLang.Arrangement.Music;
using ChordLang.Theory.Chords;

namespace ChordLang.Features.Comparing;

/// <summary>Names the relation of two chords.</summary>
internal static class ChordChange
{
    private const int Third = 4, MinorThird = 3, Fifth = 7, Seventh = 10, Tritone = 6;

    /// <summary>"G7 became Db7, its tritone substitute".</summary>
    public static string Say(ChordSpan old, ChordSpan now)
    {
        var (was, name) = (old.Symbol?.Text ?? "N.C.", now.Symbol?.Text ?? "N.C.");
        return $"{was} became {name}{(old.Chord is { } a && now.Chord is { } b && Relation(a, b) is { } relation ? $", {relation}" : "")}";
    }

    // Substitutions as jazz harmony teaches them (Levine, The Jazz Theory Book, 1995, on reharmonization; from memory).
    private static string? Relation(Chord old, Chord now)
    {
        var up = Semitones.Up(now.Root.PitchClass - old.Root.PitchClass);
        var (a, b) = (Tones(old), Tones(now));
        if (up == 0 && a.SetEquals(b))
            return old.Bass != now.Bass && (old.Bass ?? now.Bass) is not null ? Bass(now) : "the same chord written otherwise";
        if (up == 0)
            return Same(old, now, a, b);
        if (a.SetEquals(b))
            return "the same tones from another root";
        if (up == Tritone && Dominant(old) && Dominant(now))
            return "its tritone substitute";
        if (Dominant(old) && now.Kind.StartsWith("diminished", StringComparison.Ordinal) && b.IsSubsetOf(a.Append(Semitones.Up(old.Root.PitchClass + 1)).ToHashSet()))
            return "the diminished chord on its third, fifth, seventh or flat ninth";
        if (up == 9 && Major(old) && Minor(now))
            return "its relative minor";
        if (up == 3 && Minor(old) && Major(now))
            return "its relative major";
        if (up == 4 && Major(old) && Minor(now))
            return "the minor chord on its third";
        if (up == 7 && Dominant(old) && Minor(now) && Has(now, Seventh))
            return "the two of the same two-five";
        if (up == 5 && Minor(old) && Dominant(now))
            return "the five of the same two-five";
        return old.Kind == now.Kind ? $"the same kind of chord {Step(up)}" : null;
    }

    private static string Same(Chord old, Chord now, HashSet<int> a, HashSet<int> b)
    {
        if (Third3(old) is { } was && Third3(now) is { } third && was != third)
            return third == MinorThird ? "with a minor third" : "with a major third";
        return a.IsProperSubsetOf(b) ? "a fuller name" : b.IsProperSubsetOf(a) ? "a plainer name" : "another colour on the same root";
    }

    private static string Bass(Chord now) => now.Bass is { } bass ? $"over {bass}" : "over its root";

    private static string Step(int up) => up switch
    {
        1 => "a semitone higher", 2 => "a whole tone higher", 3 => "a minor third higher", 4 => "a major third higher", 5 => "a fourth higher", 6 => "a tritone away",
        7 => "a fourth lower", 8 => "a major third lower", 9 => "a minor third lower", 10 => "a whole tone lower", _ => "a semitone lower",
    };

    private static HashSet<int> Tones(Chord chord) => [.. chord.Tones.Select(t => t.Name.PitchClass)];

    private static bool Has(Chord chord, int interval) => chord.Tones.Any(t => chord.IntervalOf(t.Name.PitchClass) == interval);

    private static bool Dominant(Chord chord) => Has(chord, Third) && Has(chord, Seventh);

    private static bool Major(Chord chord) => Has(chord, Third) && !Has(chord, Seventh) && Has(chord, Fifth);

    private static bool Minor(Chord chord) => Has(chord, MinorThird) && !Has(chord, Third) && Has(chord, Fifth);

    private static int? Third3(Chord chord) => Has(chord, Third) ? Third : Has(chord, MinorThird) ? MinorThird : null;
}

/// <summary>Intervals without octaves.</summary>
internal static class Semitones
{
    /// <summary>An interval as semitones up, 0 to 11.</summary>
    public static int Up(int semitones) => (semitones % 12 + 12) % 12;
}
