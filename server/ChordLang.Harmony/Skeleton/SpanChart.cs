// Sums over, and picks from, all ways to bracket a row of chords so that each bracket ends on its head.
namespace ChordLang.Harmony.Skeleton;

/// <summary>Weights of arcs and spans over a row of chords: a bracket [i..j] parts into [i..k] and [k+1..j], and k depends on j.</summary>
/// <param name="Length">Number of chords.</param>
/// <param name="Reach">The longest bracket in chords, but for those that end on the last chord.</param>
/// <param name="Arc">Weight of chord k depending on chord j, k before j.</param>
/// <param name="Span">Weight of bracket [i..j], i before j.</param>
public sealed record SpanChart(int Length, int Reach, Brackets<double> Arc, Brackets<double> Span)
{
    /// <summary>True where the bracket is allowed.</summary>
    public bool Allows(int first, int last) => last - first < Reach || last == Length - 1;

    /// <summary>A chart of so many chords that weighs nothing yet.</summary>
    public static SpanChart Of(int length, int reach) => new(length, reach, new(length, reach), new(length, reach));

    private IEnumerable<(int First, int Last)> Allowed()
    {
        for (var last = 1; last < Length; last++)
            for (var first = last - 1; first >= 0 && Allows(first, last); first--)
                yield return (first, last);
    }

    private int LeastSplitEnd(int first) => Math.Min(first + Reach, Length);

    /// <summary>Marginal probabilities of arcs and spans under the log-linear model (inside-outside).</summary>
    public SpanChart Marginals(out double logSum)
    {
        var inside = new Brackets<double>(Length, Reach);
        foreach (var (i, j) in Allowed())
        {
            var most = double.NegativeInfinity;
            var end = Math.Min(j, LeastSplitEnd(i));
            for (var k = i; k < end; k++)
                most = Math.Max(most, inside[i, k] + inside[k + 1, j] + Arc[k, j]);
            var sum = 0.0;
            for (var k = i; k < end; k++)
                sum += Math.Exp(inside[i, k] + inside[k + 1, j] + Arc[k, j] - most);
            inside[i, j] = most + Math.Log(sum) + Span[i, j];
        }
        var (arcs, spans) = (new Brackets<double>(Length, Reach), new Brackets<double>(Length, Reach));
        logSum = Length > 0 ? inside[0, Length - 1] : 0;
        if (Length > 1)
            spans[0, Length - 1] = 1;
        // Downwards: a bracket hands its probability to its parts. The order is the reverse of the way up.
        for (var j = Length - 1; j > 0; j--)
            for (var i = j == Length - 1 ? 0 : Math.Max(0, j - Reach + 1); i < j; i++)
                if (spans[i, j] > 1e-12)
                    for (var (k, end) = (i, Math.Min(j, LeastSplitEnd(i))); k < end; k++)
                    {
                        var share = spans[i, j] * Math.Exp(inside[i, k] + inside[k + 1, j] + Arc[k, j] + Span[i, j] - inside[i, j]);
                        arcs[k, j] += share;
                        if (k > i)
                            spans[i, k] += share;
                        if (k + 1 < j)
                            spans[k + 1, j] += share;
                    }
        return this with { Arc = arcs, Span = spans };
    }

    /// <summary>The bracketing of greatest total weight; gives the head of every chord, -1 for the last.</summary>
    public int[] Best()
    {
        var best = new Brackets<double>(Length, Reach);
        var split = new Brackets<int>(Length, Reach);
        foreach (var (i, j) in Allowed())
        {
            best[i, j] = double.NegativeInfinity;
            for (var k = i; k < Math.Min(j, LeastSplitEnd(i)); k++)
                if (best[i, k] + best[k + 1, j] + Arc[k, j] is var weight && weight > best[i, j])
                    (best[i, j], split[i, j]) = (weight, k);
            best[i, j] += Span[i, j];
        }
        var heads = new int[Length];
        Array.Fill(heads, -1);
        var open = new Stack<(int, int)>();
        if (Length > 1)
            open.Push((0, Length - 1));
        while (open.TryPop(out var bracket))
        {
            var (i, j) = bracket;
            if (i == j)
                continue;
            heads[split[i, j]] = j;
            open.Push((i, split[i, j]));
            open.Push((split[i, j] + 1, j));
        }
        return heads;
    }
}
