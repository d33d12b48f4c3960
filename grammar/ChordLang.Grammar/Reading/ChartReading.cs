// Where each chord of a bar begins, also where counts were left out.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Grammar.Reading;

/// <summary>Where the items of a bar stand.</summary>
/// <param name="Offsets">For each item the counts from the bar line, or null where that cannot be said.</param>
/// <param name="Blame">The first item whose place cannot be said, or null.</param>
public sealed record ChartReading(ImmutableArray<Rational?> Offsets, ChartItem? Blame)
{
    /// <summary>
    /// Reads a bar. A written count holds. Items without counts share what lies between the counts around them (or the bar line):
    /// evenly, where all then begin on whole counts; where a lone <c>/</c> is among them, each is one count long, and they must fill it.
    /// </summary>
    /// <param name="bar">The bar.</param>
    /// <param name="counts">How many counts the bar has: the upper number of the meter.</param>
    public static ChartReading Of(BarSyntax bar, int counts) => Of(bar, Rational.Zero, Rational.Of(counts));

    /// <summary>Reads a bar that does not fill its meter, such as a pickup.</summary>
    /// <param name="bar">The bar.</param>
    /// <param name="begin">Where it begins, in counts from where the bar line would be.</param>
    /// <param name="close">Where it ends.</param>
    public static ChartReading Of(BarSyntax bar, Rational begin, Rational close)
    {
        var offsets = new Rational?[bar.Items.Length];
        ChartItem? blame = null;
        for (var i = 0; i < offsets.Length;)
        {
            var end = i + 1;
            while (end < offsets.Length && bar.Items[end].Count is null)
                end++;
            var from = bar.Items[i].Count?.Offset ?? begin;
            var to = end < offsets.Length ? bar.Items[end].Count!.Offset : close;
            Share(bar, i, end, from, to, offsets);
            for (; i < end; i++)
                blame ??= offsets[i] is null ? bar.Items[i] : null;
        }
        return new([.. offsets], blame);
    }

    private static void Share(BarSyntax bar, int first, int end, Rational from, Rational to, Rational?[] offsets)
    {
        var (number, length) = (end - first, to - from);
        if (bar.Items[first].Count is not null || number == 1)
            offsets[first] = from;
        if (number == 1)
            return;
        var slashes = false;
        for (var i = first; i < end; i++)
            slashes |= bar.Items[i].Kind == ChartItemKind.Slash;
        var step = slashes ? Rational.One : length / number;
        if (step.IsWhole && step > 0 && from.IsWhole && step * number == length)
            for (var i = 0; i < number; i++)
                offsets[first + i] = from + step * i;
    }
}
