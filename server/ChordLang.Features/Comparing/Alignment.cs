// Finds which parts of an old sequence are which of a new one, so that an inserted part is one insertion and not a change of all that follows.
using System.Collections.Immutable;

namespace ChordLang.Features.Comparing;

/// <summary>Aligns sequences.</summary>
internal static class Alignment
{
    // Beyond this many comparisons a stretch without any common anchor is paired from its start; no lesson comes near.
    private const long MostCells = 4_000_000;

    /// <summary>Pairs of indices, both rising, that make the sum of likenesses greatest.</summary>
    /// <param name="old">How many parts the old sequence has.</param>
    /// <param name="now">How many the new one has.</param>
    /// <param name="same">True where two parts are the same.</param>
    /// <param name="likeness">How alike two parts are, from 0 (never the same part) up to 1.</param>
    public static ImmutableArray<(int Old, int New)> Of(int old, int now, Func<int, int, bool> same, Func<int, int, double> likeness)
    {
        var pairs = new List<(int, int)>();
        var start = 0;
        for (; start < old && start < now && same(start, start); start++)
            pairs.Add((start, start));
        var end = 0;
        for (; end < old - start && end < now - start && same(old - 1 - end, now - 1 - end); end++)
            pairs.Add((old - 1 - end, now - 1 - end));
        Middle(start, old - end, now - end, likeness, pairs);
        pairs.Sort();
        return [.. pairs];
    }

    private static void Middle(int start, int oldEnd, int newEnd, Func<int, int, double> likeness, List<(int, int)> pairs)
    {
        var (n, m) = (oldEnd - start, newEnd - start);
        if (n == 0 || m == 0)
            return;
        if ((long)n * m > MostCells)
        {
            for (var i = 0; i < Math.Min(n, m); i++)
                pairs.Add((start + i, start + i));
            return;
        }
        var alike = new double[n, m];
        var best = new double[n + 1, m + 1];
        for (var i = n - 1; i >= 0; i--)
            for (var j = m - 1; j >= 0; j--)
            {
                alike[i, j] = likeness(start + i, start + j);
                best[i, j] = Math.Max(alike[i, j] > 0 ? best[i + 1, j + 1] + alike[i, j] : double.NegativeInfinity, Math.Max(best[i + 1, j], best[i, j + 1]));
            }
        for (int i = 0, j = 0; i < n && j < m;)
            if (alike[i, j] > 0 && best[i, j] == best[i + 1, j + 1] + alike[i, j])
                pairs.Add((start + i++, start + j++));
            else if (best[i, j] == best[i + 1, j])
                i++;
            else
                j++;
    }
}
