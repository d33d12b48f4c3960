// The chord kinds of MusicXML 4.0: their values, documented degrees, how we write them, and which one comes nearest.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>A kind value of MusicXML 4.0.</summary>
/// <param name="Value">As the standard writes it.</param>
/// <param name="Degrees">Degrees that the standard documents, or that harmony textbooks give where it is silent; empty for <c>other</c> and <c>none</c>.</param>
/// <param name="Suffix">How we write it after a root; null for <c>none</c> (N.C., no root) and <c>other</c> (nothing but additions, so it has no text).</param>
public sealed record ChordKind(string Value, ImmutableArray<Degree> Degrees, string? Suffix);

/// <summary>The 33 kinds. Source: MusicXML 4.0, simple type kind-value (W3C Community Final Specification).</summary>
public static class ChordKinds
{
    // Order matters only between kinds that come equally near: the simpler first, sevenths before triads.
    private static readonly (string Value, string Degrees, string? Suffix)[] Rows =
    [
        ("dominant", "1 3 5 b7", "7"),
        ("major-seventh", "1 3 5 7", "maj7"),
        ("minor-seventh", "1 b3 5 b7", "m7"),
        ("half-diminished", "1 b3 b5 b7", "m7b5"),
        ("diminished-seventh", "1 b3 b5 bb7", "dim7"),
        ("augmented-seventh", "1 3 #5 b7", "7#5"),
        ("major-minor", "1 b3 5 7", "m(maj7)"),
        ("major-sixth", "1 3 5 6", "6"),
        ("minor-sixth", "1 b3 5 6", "m6"),
        ("major", "1 3 5", ""),
        ("minor", "1 b3 5", "m"),
        ("augmented", "1 3 #5", "aug"),
        ("diminished", "1 b3 b5", "dim"),
        ("dominant-ninth", "1 3 5 b7 9", "9"),
        ("major-ninth", "1 3 5 7 9", "maj9"),
        ("minor-ninth", "1 b3 5 b7 9", "m9"),
        ("dominant-11th", "1 3 5 b7 9 11", "11"),
        ("major-11th", "1 3 5 7 9 11", "maj11"),
        ("minor-11th", "1 b3 5 b7 9 11", "m11"),
        ("dominant-13th", "1 3 5 b7 9 11 13", "13"),
        ("major-13th", "1 3 5 7 9 11 13", "maj13"),
        ("minor-13th", "1 b3 5 b7 9 11 13", "m13"),
        ("suspended-second", "1 2 5", "sus2"),
        ("suspended-fourth", "1 4 5", "sus4"),
        ("power", "1 5", "5"),
        ("Neapolitan", "1 3 5", "Neapolitan"),
        ("Italian", "1 3 #6", "Italian"),
        ("French", "1 3 #4 #6", "French"),
        ("German", "1 3 5 #6", "German"),
        ("Tristan", "1 #4 #6 #9", "Tristan"),
        ("pedal", "1", "pedal"),
        ("other", "", null),
        ("none", "", null),
    ];

    private static readonly ImmutableArray<Degree> DiminishedMajor = ChordTable.ParseDegrees("b3 b5 7");

    /// <summary>All kinds.</summary>
    public static ImmutableArray<ChordKind> All { get; } = [.. Rows.Select(r => new ChordKind(r.Value, ChordTable.ParseDegrees(r.Degrees), r.Suffix))];

    /// <summary>The kind of a value.</summary>
    public static ChordKind? Find(string value) => All.FirstOrDefault(k => k.Value == value);

    // Where the degrees alone would say something else: altered fifths do not make a dominant an augmented seventh, and what is
    // written as a diminished triad with a major seventh is no minor chord with an altered fifth.
    internal static string Of(ChordBase first, ImmutableArray<Degree> degrees) => first.Text switch
    {
        "7alt" => "dominant",
        "dim" or "dim(maj7)" when DiminishedMajor.All(degrees.Contains) => "diminished",
        "Neapolitan" or "Italian" or "French" or "German" or "Tristan" => first.Text,
        _ => Nearest(degrees),
    };

    /// <summary>The kind that needs the fewest added, altered and subtracted degrees; <c>other</c> where nothing of a third, fifth or suspension is left.</summary>
    public static string Nearest(ImmutableArray<Degree> degrees)
    {
        var best = ("other", 8);
        foreach (var kind in All)
            if (kind.Degrees.Length > 0 && kind.Value is not "pedal" && Cost(kind, degrees) is var cost && cost < best.Item2)
                best = (kind.Value, cost);
        return degrees.Length == 1 ? "pedal" : best.Item1;
    }

    // A third or suspension that is not there weighs most, and more where another tone stands in its place: it is the kind. Another seventh
    // weighs more than an added one, for the kind names it. The eleventh of a thirteenth is written off freely.
    private static int Cost(ChordKind kind, ImmutableArray<Degree> degrees)
    {
        var cost = 0;
        foreach (var d in degrees)
            if (!kind.Degrees.Contains(d))
                cost += !kind.Degrees.Any(k => k.Number == d.Number) ? 2 : d.Number switch { 3 => 4, 7 => 3, _ => 2 };
        foreach (var k in kind.Degrees)
            if (!degrees.Contains(k) && !degrees.Any(d => d.Number == k.Number))
                cost += k.Number switch { 3 when degrees.Any(d => d.Number is 2 or 4) => 5, 2 or 3 or 4 => 4, 11 when kind.Degrees.Any(d => d.Number == 13) => 0, _ => 2 };
        return cost;
    }
}
