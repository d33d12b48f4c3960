// The symbols that two players read differently: they get both readings instead of a guess.
using System.Collections.Immutable;

namespace ChordLang.Theory.Chords;

/// <summary>An ambiguous beginning of a suffix.</summary>
/// <param name="Length">How many signs are ambiguous.</param>
/// <param name="Message">What the two readings are.</param>
/// <param name="Readings">Whole symbols without the ambiguity.</param>
internal sealed record Ambiguity(int Length, string Message, ImmutableArray<string> Readings);

internal static class Ambiguities
{
    // Beginning | with an accidental in the root only | first and second way to write it plainly | what they mean. Common practice.
    private static readonly (string Begins, bool AfterAccidental, string First, string Second, string Says)[] Rows =
    [
        ("-5", false, "(b5)", "m", "as a flat fifth, or as a minor chord"),
        ("+11", false, "aug(add11)", "(#11)", "as an augmented chord with an eleventh, or as a raised eleventh"),
        ("+9", false, "9#5", "(#9)", "as an augmented ninth chord, or as a raised ninth"),
        ("b5", true, "(b5)", "", "as a flat fifth, or as a fifth on a root with two flats"),
        ("#5", true, "(#5)", "", "as a raised fifth, or as a fifth on a root with two sharps"),
    ];

    public static Ambiguity? Find(string root, string suffix)
    {
        foreach (var (begins, afterAccidental, first, second, says) in Rows)
        {
            // Only an accidental of the same kind can be the root's second one.
            if (!suffix.StartsWith(begins, StringComparison.Ordinal) || afterAccidental && !(root.Length == 2 && SymbolSigns.Of(root).Text[1] == begins[0]))
                continue;
            if (suffix.Length > begins.Length && char.IsAsciiDigit(suffix[begins.Length]))
                continue;
            var rest = suffix[begins.Length..];
            var other = afterAccidental ? root + begins[..1] + "(no3)" : root + second;
            // What follows may leave one reading, or none: then the trouble lies there.
            var readings = ((string[])[root + first + rest, other + rest]).Where(ChordReader.CanRead).ToImmutableArray();
            if (!readings.IsEmpty)
                return new(begins.Length, $"\"{root}{begins}\" can be read {says}. Write {string.Join(" or ", readings)}.", readings);
        }
        return null;
    }
}
