// How planted charts hang together, and that the sums behind the reading are right.
using ChordLang.Harmony.Skeleton;
using ChordLang.Harmony.Tests.Charts;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;

namespace ChordLang.Harmony.Tests.Skeleton;

public class SkeletonReaderTests
{
    private const string Tune = "Cmaj7 | A7 | Dm7 | G7 | Em7 A7 | Dm7 G7 | Cmaj7 | Cmaj7 | Fmaj7 | Fm7 Bb7 | Cmaj7 | A7 | D7 | D7 | Dm7 | G7 | C6 | C6";

    // Common practice: a two prepares its five, a five its one, a substitute what lies a semitone below.
    [Theory]
    [InlineData("Dm7 | G7 | Cmaj7", 0, 1)]
    [InlineData("Dm7 | G7 | Cmaj7", 1, 2)]
    [InlineData("Cmaj7 | Dm7 | Db7 | Cmaj7", 2, 3)]
    [InlineData(Tune, 2, 3)]
    [InlineData(Tune, 5, 6)]
    [InlineData(Tune, 15, 16)]
    public void A_chord_depends_on_what_it_prepares(string chart, int index, int head) => Assert.Equal(head, Read(chart).Heads[index]);

    [Fact]
    public void A_turnaround_leads_back_and_is_not_what_all_depends_on()
    {
        var skeleton = Read("Cmaj7 | Dm7 | G7 | Cmaj7 | Cmaj7 A7 | Dm7 G7");
        Assert.Equal(-1, skeleton.Heads[4]);
        Assert.Equal(4, skeleton.Heads[7]);
        Assert.Equal(7, skeleton.Heads[6]);
    }

    [Theory]
    [InlineData(Tune)]
    [InlineData("C")]
    [InlineData("C | G7")]
    [InlineData("Bdim7 | Bbdim7 | Adim7")]
    public void A_skeleton_is_a_tree_whose_levels_nest(string chart)
    {
        var skeleton = Read(chart);
        Assert.Single(skeleton.Heads, -1);
        for (var i = 0; i < skeleton.Heads.Length; i++)
            Assert.Equal(skeleton.Depths[i], skeleton.Heads[i] < 0 ? 0 : skeleton.Depths[skeleton.Heads[i]] + 1);
        Assert.Equal(Enumerable.Range(0, skeleton.Heads.Length), skeleton.Levels[0].Indices);
        Assert.Subset(skeleton.Levels[0].Indices.ToHashSet(), skeleton.Levels[1].Indices.ToHashSet());
        Assert.Subset(skeleton.Levels[1].Indices.ToHashSet(), skeleton.Levels[2].Indices.ToHashSet());
        Assert.Contains(skeleton.Heads.IndexOf(-1), skeleton.Levels[2].Indices);
    }

    [Fact]
    public void Reduction_takes_the_related_twos_away()
    {
        var levels = Read(Tune).Levels;
        Assert.DoesNotContain(2, levels[1].Indices);
        Assert.Contains(3, levels[1].Indices);
        Assert.True(levels[2].Indices.Length < levels[1].Indices.Length);
    }

    [Fact]
    public void A_long_chart_is_read_too()
    {
        var skeleton = Read(string.Join(" | ", Enumerable.Repeat(Tune, 25)));
        Assert.Equal(525, skeleton.Heads.Length);
        Assert.Single(skeleton.Heads, -1);
    }

    [Fact]
    public void An_empty_chart_has_an_empty_skeleton() => Assert.Empty(Read("").Heads);

    // The marginals against a listing of all bracketings of five chords (Catalan number: 14), and of those that a shorter reach leaves.
    [Theory]
    [InlineData(5, 14)]
    [InlineData(3, 9)]
    [InlineData(2, 5)]
    public void Marginals_are_those_of_all_bracketings(int reach, int listed)
    {
        const int N = 5;
        var chart = SpanChart.Of(N, reach);
        bool Allowed(int i, int j) => j - i < reach || j == N - 1;
        for (var i = 0; i < N; i++)
            for (var j = i + 1; j < N; j++)
                if (Allowed(i, j))
                    (chart.Arc[i, j], chart.Span[i, j]) = (Math.Sin(3 * i + j), Math.Cos(i + 5 * j));
        var trees = Trees(0, N - 1).Where(t => t.All(n => Allowed(n.I, n.J))).ToList();
        Assert.Equal(listed, trees.Count);
        double Weight(List<(int I, int K, int J)> t) => Math.Exp(t.Sum(n => chart.Arc[n.K, n.J] + chart.Span[n.I, n.J]));
        var all = trees.Sum(Weight);
        var marginals = chart.Marginals(out var logSum);
        Assert.Equal(Math.Log(all), logSum, 9);
        for (var i = 0; i < N; i++)
            for (var j = i + 1; j < N; j++)
            {
                if (!Allowed(i, j))
                    continue;
                Assert.Equal(trees.Where(t => t.Any(n => n.K == i && n.J == j)).Sum(Weight) / all, marginals.Arc[i, j], 9);
                Assert.Equal(trees.Where(t => t.Any(n => n.I == i && n.J == j)).Sum(Weight) / all, marginals.Span[i, j], 9);
            }
        var heads = chart.Best();
        Assert.All(trees.MaxBy(Weight)!, n => Assert.Equal(n.J, heads[n.K]));
    }

    private static IEnumerable<List<(int I, int K, int J)>> Trees(int i, int j) => i == j ? [[]]
        : from k in Enumerable.Range(i, j - i) from left in Trees(i, k) from right in Trees(k + 1, j) select new List<(int, int, int)>([(i, k, j), .. left, .. right]);

    private static ChordSkeleton Read(string text)
    {
        var key = Key.Of(ChordReader.Read("C").Chord!.Root, Mode.Major);
        return SkeletonReader.Read(ChartText.Read(text), new(key, [new(1, key, true, 1)]));
    }
}
