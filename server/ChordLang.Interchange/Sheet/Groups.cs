// What belongs together in a strand: notes under a beam, and the notes of a tuplet.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Sheet;

/// <summary>Groups of strokes.</summary>
internal static class Groups
{
    /// <summary>Runs of flagged notes under one beam, two and more of them.</summary>
    public static List<List<Stroke>> Beamed(Bar bar, Strand strand)
    {
        var groups = new List<List<Stroke>>();
        var open = new List<Stroke>();
        long number = -1;
        foreach (var stroke in strand.Strokes)
        {
            var at = Beats.Group(bar.Settings.Meter, stroke.Value.Start);
            if (open.Count > 0 && (stroke.Rest || stroke.Flags == 0 || at != number || open[^1].End != stroke.Start))
                Close();
            if (!stroke.Rest && stroke.Flags > 0)
            {
                open.Add(stroke);
                number = at;
            }
        }
        Close();
        return Halves(bar, groups);

        void Close()
        {
            if (open.Count > 1)
                groups.Add([.. open]);
            open.Clear();
        }
    }

    // In four quarters, plain eighths go together by half bars (common practice).
    private static List<List<Stroke>> Halves(Bar bar, List<List<Stroke>> groups)
    {
        if (bar.Settings.Meter is not { Counts: 4, Unit: 4 })
            return groups;
        var joined = new List<List<Stroke>>();
        foreach (var group in groups)
        {
            var plain = group.Count == 2 && group.All(s => s.Flags == 1 && !s.Value.InTuplet);
            if (plain && joined.Count > 0 && joined[^1] is { Count: 2 } before && before.All(s => s.Flags == 1 && !s.Value.InTuplet)
                && before[^1].End == group[0].Start && Half(before[0]) == Half(group[0]))
                before.AddRange(group);
            else
                joined.Add(group);
        }
        return joined;

        static long Half(Stroke s) => (s.Value.Start * Rational.Of(2)).Floor;
    }

    /// <summary>Tuplets: strokes of one count that share a ratio.</summary>
    public static IEnumerable<List<Stroke>> Tuplets(Bar bar, Strand strand)
    {
        var count = bar.Settings.Meter.Count;
        return strand.Strokes.Where(s => s.Value.InTuplet).GroupBy(s => ((s.Value.Start / count).Floor, s.Value.Actual)).Select(g => g.OrderBy(s => s.Start).ToList());
    }
}
