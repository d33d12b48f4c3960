// Asks about places in a count that no written note value reaches, for there a digit has usually slipped.
using System.Numerics;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Counts;

/// <summary>Finds counts whose fraction no note value has.</summary>
public sealed class OddFraction : Check
{
    // Common practice: a count is halved down to the sixteenth part (a 64th, where a quarter is counted), and parted into tuplets of
    // three, five, seven or nine.
    private const long FinestHalving = 16;
    private static readonly long[] Tuplets = [1, 3, 5, 7, 9];
    private static readonly Rational[] Spoken = [0, Rational.Of(1, 4), Rational.Of(1, 3), Rational.Of(1, 2), Rational.Of(2, 3), Rational.Of(3, 4), 1];

    /// <inheritdoc/>
    public override string Code => "count-odd-fraction";

    /// <inheritdoc/>
    public override string Title => "A fraction of a count that no note value has";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Hint;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        foreach (var line in piece.Tree.Numbers)
        {
            CountSyntax[] counts = [.. Counts(piece.Tree.Lines[line])];
            foreach (var count in counts)
                if (!IsNoteValue(count.Beyond))
                {
                    var nearest = Nearest(count, piece.Bars.LastOrDefault(b => b.Line <= line)?.Settings.Meter.Counts ?? int.MaxValue);
                    var (span, near) = (piece.Tree.Absolute(line, count.Span), CountSyntax.Write(nearest));
                    yield return new(Code, Severity,
                        $"No note value comes on a place such as {count.Beyond} of a count. Halves, quarters, thirds, fifths, sevenths and ninths can be written. The nearest place with a spoken name is {near}.",
                        span) { Fixes = InOrder(counts, count, nearest) ? [new($"Write {near}", false, [new(span, near)])] : [] };
                }
        }
    }

    private static IEnumerable<CountSyntax> Counts(LineSyntax line) => line switch
    {
        RowLine row => row.Events.SelectMany(e => e.To is null ? [e.Count] : new[] { e.Count, e.To }),
        ChartLine chart => chart.Bars.SelectMany(b => b.Items).Select(i => i.Count).OfType<CountSyntax>(),
        _ => [],
    };

    // Another count of the line may stand there already, or between here and there; and count 100 cannot be written.
    private static bool InOrder(CountSyntax[] counts, CountSyntax count, Rational to) =>
        CountSyntax.CanWrite(to) && counts.All(c => ReferenceEquals(c, count) || c.Offset.CompareTo(count.Offset) == c.Offset.CompareTo(to));

    private static bool IsNoteValue(Rational beyond)
    {
        var halving = 1L << BitOperations.TrailingZeroCount(beyond.Denominator);
        return halving <= FinestHalving && Tuplets.Contains(beyond.Denominator / halving);
    }

    // The last count of a bar has no next one.
    private static Rational Nearest(CountSyntax count, int most) => count.Whole - 1 + Spoken.Where(s => s < 1 || count.Whole < most).MinBy(s => Math.Abs((s - count.Beyond).Value));
}
