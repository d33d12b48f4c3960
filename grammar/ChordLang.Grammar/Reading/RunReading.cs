// Where each sound of a run stands, and whether their number fits.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Grammar.Reading;

/// <summary>Reads runs such as <c>1 to 4&amp; D4 E F G A G F E</c>.</summary>
public static class RunReading
{
    private static readonly ImmutableArray<int> Divisions = [1, 2, 3, 4, 6, 8];

    /// <summary>
    /// The offsets of an event's sounds in counts from the bar line: the first on the first count, the last on the last, the others evenly between.
    /// Null where the number of sounds does not fit: the step is then neither whole counts nor a count divided by 2, 3, 4, 6 or 8,
    /// or the last count does not lie behind the first.
    /// </summary>
    public static ImmutableArray<Rational>? Offsets(EventSyntax e)
    {
        if (e.To is null)
            return e.Sounds.IsEmpty ? [] : [e.Count.Offset];
        var (first, length, gaps) = (e.Count.Offset, e.To.Offset - e.Count.Offset, e.Sounds.Length - 1);
        if (gaps <= 0 || length <= 0)
            return null;
        var step = length / gaps;
        if (!Fits(step))
            return null;
        return [.. Enumerable.Range(0, gaps + 1).Select(i => first + step * i)];
    }

    /// <summary>The numbers of sounds that would fit a run, fewest first: what to tell the player whose run does not.</summary>
    public static ImmutableArray<int> Fitting(EventSyntax e)
    {
        if (e.To is null || e.To.Offset - e.Count.Offset is var length && length <= 0)
            return [];
        return [.. Enumerable.Range(1, (int)(length * 8).Floor).Where(gaps => Fits(length / gaps)).Select(gaps => gaps + 1)];
    }

    private static bool Fits(Rational step) => step.IsWhole || step.Numerator == 1 && Divisions.Contains((int)step.Denominator);
}
