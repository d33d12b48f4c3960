// The MusicXML kind of a chord, from its kind in the table or from its tones.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>The 33 kind values of MusicXML 4.0 and how a player writes each.</summary>
public static class ChordKinds
{
    /// <summary>Every kind value with the suffix that writes it; <c>none</c> is no symbol but <c>N.C.</c>, <c>other</c> has no one form.</summary>
    public static ImmutableArray<(string Kind, string? Suffix)> All { get; } =
    [
        ("major", ""), ("minor", "m"), ("augmented", "aug"), ("diminished", "dim"), ("dominant", "7"), ("major-seventh", "maj7"),
        ("minor-seventh", "m7"), ("diminished-seventh", "dim7"), ("augmented-seventh", "aug7"), ("half-diminished", "m7b5"),
        ("major-minor", "m(maj7)"), ("major-sixth", "6"), ("minor-sixth", "m6"), ("dominant-ninth", "9"), ("major-ninth", "maj9"),
        ("minor-ninth", "m9"), ("dominant-11th", "11"), ("major-11th", "maj11"), ("minor-11th", "m11"), ("dominant-13th", "13"),
        ("major-13th", "maj13"), ("minor-13th", "m13"), ("suspended-second", "sus2"), ("suspended-fourth", "sus4"), ("Neapolitan", "N6"),
        ("Italian", "It6"), ("French", "Fr6"), ("German", "Ger6"), ("pedal", "ped"), ("power", "5"), ("Tristan", "Tristan"),
        ("other", "quartal"), ("none", null),
    ];

    internal static string Of(ChordRow row, IEnumerable<Degree> degrees, string third, string seventh)
    {
        var own = row.Degrees.Split(' ').Select(t => t.Trim('(', ')', '!')).ToHashSet();
        var have = degrees.Select(d => d.ToString()).ToHashSet();
        if (own.SetEquals(have) || row.Kind is "Neapolitan" or "Italian" or "French" or "German" or "Tristan" or "pedal")
            return row.Kind;
        var high = Highest(have);
        return (third, seventh) switch
        {
            ("b3", "bb7") => "diminished-seventh",
            ("b3", "b7") when have.Contains("b5") => "half-diminished",
            ("b3", "b7") => "minor-" + high,
            ("b3", "7") => "major-minor",
            ("b3", "6") => "minor-sixth",
            ("b3", _) => have.Contains("b5") ? "diminished" : "minor",
            ("3", "7") => "major-" + high,
            ("3", "6") => "major-sixth",
            ("3", "b7") when have.Contains("#5") && !have.Contains("5") => "augmented-seventh",
            (_, "b7") => high == "seventh" ? "dominant" : "dominant-" + high,
            ("3", _) => have.Contains("#5") ? "augmented" : "major",
            ("4", _) => "suspended-fourth",
            ("2", _) => "suspended-second",
            _ => have.IsSubsetOf(["1", "5"]) ? "power" : "other",
        };
    }

    private static string Highest(HashSet<string> have) =>
        have.Contains("13") ? "13th" : have.Contains("11") ? "11th" : have.Contains("9") ? "ninth" : "seventh";
}
