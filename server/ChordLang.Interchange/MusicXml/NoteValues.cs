// Turns a length of time into note values: plain, dotted, tied together, and in tuplets where a count is cut in threes, fives or sevens.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.MusicXml;

/// <summary>One note value.</summary>
/// <param name="Start">Where it begins, in whole notes from the bar line.</param>
/// <param name="Length">How long it sounds, in whole notes.</param>
/// <param name="Type">MusicXML note-type-value, or null where no note value has that length.</param>
/// <param name="Dots">Dots behind it.</param>
/// <param name="Actual">Notes in the time of <paramref name="Normal"/>; 1 where it stands in no tuplet.</param>
/// <param name="Normal">See <paramref name="Actual"/>.</param>
public sealed record NoteValue(Rational Start, Rational Length, string? Type, int Dots, int Actual, int Normal)
{
    /// <summary>True in a tuplet.</summary>
    public bool InTuplet => Actual > 1;
}

/// <summary>Splits time into note values (common practice of notation).</summary>
public static class NoteValues
{
    private static readonly (string Type, int Denominator)[] Types =
    [
        ("whole", 1), ("half", 2), ("quarter", 4), ("eighth", 8), ("16th", 16), ("32nd", 32), ("64th", 64), ("128th", 128), ("256th", 256),
    ];

    // Largest first, dotted before plain.
    private static readonly ImmutableArray<(Rational Length, string Type, int Dots)> Values =
        [.. Types.SelectMany(t => new[] { (Rational.Of(3, 2 * t.Denominator), t.Type, 1), (Rational.Of(1, t.Denominator), t.Type, 0) })];

    /// <summary>The values that fill the time between two places of a bar, to be tied together.</summary>
    /// <param name="from">Start, in whole notes from the bar line.</param>
    /// <param name="to">End.</param>
    /// <param name="count">Length of a count: tuplets stay inside counts.</param>
    public static ImmutableArray<NoteValue> Split(Rational from, Rational to, Rational count)
    {
        var values = ImmutableArray.CreateBuilder<NoteValue>();
        for (var at = from; at < to;)
        {
            var end = to;
            if (Odd(at) > 1 || Odd(to) > 1)
            {
                var next = Rational.Of((at / count).Floor + 1) * count;
                var last = Rational.Of((to / count).Floor) * count;
                end = Odd(at) > 1 || last <= at ? Rational.Min(next, to) : last;
            }
            var actual = Common(Odd(at), Odd(end));
            var normal = actual == 1 ? 1 : Power(actual);
            Fill(at, end - at, actual, normal, values);
            at = end;
        }
        return values.ToImmutable();
    }

    private static void Fill(Rational at, Rational length, int actual, int normal, ImmutableArray<NoteValue>.Builder values)
    {
        var written = length * Rational.Of(actual, normal);
        while (written > Rational.Zero)
        {
            var fit = Values.FirstOrDefault(v => v.Length <= written);
            var (taken, type, dots) = fit.Type is null ? (written, null, 0) : fit;
            var real = taken * Rational.Of(normal, actual);
            values.Add(new(at, real, type, dots, actual, normal));
            at += real;
            written -= taken;
        }
    }

    // What is left of the denominator without its twos: 1 for a place that halving reaches.
    private static int Odd(Rational time)
    {
        var d = time.Denominator;
        while (d % 2 == 0)
            d /= 2;
        return (int)d;
    }

    private static int Common(int a, int b)
    {
        var (x, y) = (a, b);
        while (y != 0)
            (x, y) = (y, x % y);
        return a / x * b;
    }

    // 3 in the time of 2, 5 and 7 in the time of 4, 9 in the time of 8.
    private static int Power(int actual)
    {
        var power = 1;
        while (power * 2 < actual)
            power *= 2;
        return power;
    }
}
