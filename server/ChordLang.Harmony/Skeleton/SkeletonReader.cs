// Reads how the chords of a chart hang together, and what remains when the decoration is taken away.
using System.Collections.Immutable;
using ChordLang.Harmony.Charts;
using ChordLang.Harmony.Functions;
using ChordLang.Harmony.Keys;
using ChordLang.Harmony.Weights;

namespace ChordLang.Harmony.Skeleton;

/// <summary>One level of reduction.</summary>
/// <param name="Level">0 = all chords, 1 = without passing and related-two chords, 2 = the backbone.</param>
/// <param name="Indices">The chords that remain, in order.</param>
public sealed record SkeletonLevel(int Level, ImmutableArray<int> Indices);

/// <summary>The hierarchical reading of a chart.</summary>
/// <param name="Heads">For each chord the index of the chord that it prepares or prolongs; -1 for the one that all depends on.</param>
/// <param name="Depths">For each chord the steps to that one.</param>
/// <param name="Levels">Levels of reduction, each a part of the one before.</param>
public sealed record ChordSkeleton(ImmutableArray<int> Heads, ImmutableArray<int> Depths, ImmutableArray<SkeletonLevel> Levels);

/// <summary>Reads skeletons: the bracketing with the greatest expected number of right arcs and right spans under a log-linear model.</summary>
public static class SkeletonReader
{
    // Charts up to this length are weighed whole; in longer ones a gesture holds no more chords than Reach, so that time grows in proportion.
    private const int Whole = 120, Reach = 48;

    // A turnaround after the last tonic has no more chords than this.
    private const int Tail = 4;

    private const int BackboneDepth = 2;

    private static readonly WeightTable Table = WeightTable.Load("skeleton.tsv");

    /// <summary>Reads the skeleton of a chart under its keys.</summary>
    public static ChordSkeleton Read(Chart chart, KeyPlan keys)
    {
        var keyed = KeyedChart.Of(chart, keys);
        var heads = new int[keyed.Length];
        var root = Root(keyed);
        Bracket(keyed, 0, root).CopyTo(heads, 0);
        if (root + 1 < keyed.Length)
        {
            var tail = Bracket(keyed, root + 1, keyed.Length - 1);
            for (var i = 0; i < tail.Length; i++)
                heads[root + 1 + i] = tail[i] < 0 ? root : tail[i] + root + 1;
        }
        var depths = Depths(heads);
        return new([.. heads], depths, Levels(keyed, heads, depths));
    }

    // The last chord; where the chart ends on a dominant that leads back to its beginning, the last tonic before.
    private static int Root(KeyedChart keyed)
    {
        var last = keyed.Length - 1;
        if (last < 0 || keyed.Colours[last] != "7" || keyed.Degrees[last] == 0)
            return last;
        for (var k = last - 1; k >= Math.Max(0, last - Tail); k--)
            if (keyed.Degrees[k] == 0 && keyed.Colours[k] is "M" or "m" or "m7" or "7")
                return k;
        return last;
    }

    private static int[] Bracket(KeyedChart whole, int first, int last)
    {
        if (last < first)
            return [];
        var chords = whole.Chart.Chords[first..(last + 1)];
        var keyed = new KeyedChart(whole.Chart with { Chords = chords }, whole.Degrees[first..(last + 1)], whole.Minor[first..(last + 1)], whole.Colours[first..(last + 1)], whole.InMode?[first..(last + 1)]);
        var features = new SkeletonFeatures(keyed);
        var n = keyed.Length;
        var weights = SpanChart.Of(n, n <= Whole ? n : Reach);
        for (var j = 1; j < n; j++)
            for (var i = j - 1; i >= 0 && weights.Allows(i, j); i--)
            {
                weights.Arc[i, j] = Table.Sum(features.Arc(i, j));
                weights.Span[i, j] = Table.Sum(features.Span(i, j));
            }
        return weights.Marginals(out _).Best();
    }

    private static ImmutableArray<int> Depths(int[] heads)
    {
        var depths = new int[heads.Length];
        for (var i = 0; i < heads.Length; i++)
            for (var (k, steps) = (i, 0); heads[k] >= 0 && steps < heads.Length; steps++)
            {
                k = heads[k];
                depths[i]++;
            }
        return [.. depths];
    }

    private static ImmutableArray<SkeletonLevel> Levels(KeyedChart keyed, int[] heads, ImmutableArray<int> depths)
    {
        if (heads.Length == 0)
            return [];
        var roles = ChordRoles.Of(keyed);
        var functions = FunctionTagger.Tag(keyed);
        bool Decorates(int k) => functions[k].Function is HarmonicFunction.Passing or HarmonicFunction.Colour
            || roles[k].Any(r => r.Name is "related-two" or "passing-diminished" or "common-tone-diminished");
        var all = Enumerable.Range(0, heads.Length).ToImmutableArray();
        var plain = all.Where(k => heads[k] < 0 || !Decorates(k)).ToImmutableArray();
        // What a piece sets out from belongs to its backbone, however many steps lead from there to its end.
        var opening = plain.FirstOrDefault(k => functions[k].Function == HarmonicFunction.Tonic && keyed.Degrees[k] == 0, -1);
        return [new(0, all), new(1, plain), new(2, [.. plain.Where(k => depths[k] <= BackboneDepth || k == opening)])];
    }
}
