// The turns of phrase that hovers share.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Chords;

namespace ChordLang.Features.Hovers;

internal static class Say
{
    /// <summary>A, B and C.</summary>
    public static string List(IEnumerable<string> parts, string last = "and")
    {
        var all = parts.ToList();
        return all.Count switch { 0 => "", 1 => all[0], _ => $"{string.Join(", ", all.Take(all.Count - 1))} {last} {all[^1]}" };
    }

    /// <summary>What the player calls a bar.</summary>
    public static string Bar(Bar bar) => Bar(bar.Number);

    /// <summary>What the player calls the bar of a number.</summary>
    public static string Bar(int number) => number == 0 ? "the pickup" : $"bar {number}";

    /// <summary>The same word at the head of a sentence.</summary>
    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>A number and what is counted.</summary>
    public static string Number(int n, string one, string? more = null) => $"{n} {(n == 1 ? one : more ?? one + "s")}";

    /// <summary>A count as it is spoken: <c>2&amp;</c> is "two and". Common practice of counting aloud.</summary>
    public static string Spoken(Rational offset)
    {
        var whole = Words(offset.Floor + 1);
        var beyond = offset - Rational.Of(offset.Floor);
        return (beyond.Numerator, beyond.Denominator) switch
        {
            (0, _) => whole, (1, 2) => $"{whole} and", (1, 4) => $"{whole} e", (3, 4) => $"{whole} a", (1, 3) => $"{whole} trip", (2, 3) => $"{whole} let",
            _ => $"{whole}, and then {beyond} of a count",
        };
    }

    /// <summary>The tones of a chord with their degrees.</summary>
    public static string Tones(Chord chord) => List(chord.Tones.Select(t => $"{t.Name}, the {Theory.Pitches.DegreeWords.Spoken(t.Degree)}"), "and");

    /// <summary>A length in counts.</summary>
    public static string Counts(Rational counts)
    {
        var (whole, part) = (counts.Floor, counts - Rational.Of(counts.Floor));
        var fraction = Fraction(part);
        return (whole, part == Rational.Zero) switch
        {
            (1, true) => "one count", (_, true) => $"{Words(whole)} counts", (0, _) => fraction.StartsWith("half", StringComparison.Ordinal) ? "half a count" : $"{fraction} of a count",
            _ => $"{Words(whole)} and {(fraction == "half" ? "a half" : fraction)} counts",
        };
    }

    /// <summary>A part of a count, said aloud.</summary>
    public static string Fraction(Rational part) => (part.Numerator, part.Denominator) switch
    {
        (1, 2) => "half", (1, 4) => "a quarter", (3, 4) => "three quarters", (1, 3) => "a third", (2, 3) => "two thirds", _ => $"{part}",
    };

    private static string Words(long n) => n switch
    {
        1 => "one", 2 => "two", 3 => "three", 4 => "four", 5 => "five", 6 => "six", 7 => "seven", 8 => "eight", 9 => "nine", 10 => "ten", 11 => "eleven", 12 => "twelve",
        _ => $"{n}",
    };
}
