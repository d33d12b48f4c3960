// The chords of a chart, each weighed by its surroundings; of a chart that was edited only those whose surroundings are others now.

namespace ChordLang.Harmony.Functions;

/// <summary>A chart with what speaks for each function at each of its chords.</summary>
public sealed class WeighedChart
{
    // So many other chords ahead, and behind, can speak for a chord's function: the chain that it begins has five.
    private const int Ahead = 6, Behind = 3;

    // The places of the grid that features tell apart.
    private const int Grid = 4;

    /// <summary>Weighs a chart.</summary>
    /// <param name="keyed">The chart under its keys.</param>
    /// <param name="before">An earlier version of it: chords that stand among the same others keep their weights; or null.</param>
    public WeighedChart(KeyedChart keyed, WeighedChart? before = null)
    {
        (Keyed, Local) = (keyed, new double[keyed.Length][]);
        var (head, tail) = before is null ? (0, 0) : Alike(before.Keyed, keyed);
        for (var i = 0; i < Local.Length; i++)
            Local[i] = before is not null && i < head && Reach(i, keyed.Next, Ahead) is >= 0 and var end && end < head ? before.Local[i]
                : before is not null && i >= keyed.Length - tail && Reach(i, keyed.Previous, Behind) >= keyed.Length - tail ? before.Local[i - keyed.Length + before.Keyed.Length]
                : FunctionTagger.Weigh(keyed, i);
    }

    /// <summary>The chart under its keys.</summary>
    public KeyedChart Keyed { get; }

    /// <summary>One row a chord, one number a function.</summary>
    internal double[][] Local { get; }

    // The chord so many other chords away, or -1 where the chart ends before.
    private static int Reach(int at, Func<int, int> step, int steps)
    {
        for (var i = 0; i < steps && at >= 0; i++)
            at = step(at);
        return at;
    }

    // How many chords are the same from the beginning, and from the end.
    private static (int Head, int Tail) Alike(KeyedChart old, KeyedChart now)
    {
        var shorter = Math.Min(old.Length, now.Length);
        if (shorter == 0 || old.Chart.Counts != now.Chart.Counts)
            return (0, 0);
        var (head, tail) = (0, 0);
        while (head < shorter && Same(old, head, now, head))
            head++;
        while (tail < shorter && Same(old, old.Length - 1 - tail, now, now.Length - 1 - tail))
            tail++;
        return (head, tail);
    }

    private static bool Same(KeyedChart old, int a, KeyedChart now, int b)
    {
        var (one, other) = (old.Chart.Chords[a], now.Chart.Chords[b]);
        return old.Degrees[a] == now.Degrees[b] && old.Minor[a] == now.Minor[b] && old.Colours[a] == now.Colours[b] && one.Chord.Root.PitchClass == other.Chord.Root.PitchClass
            && one.Duration == other.Duration && one.Onset == other.Onset && (one.Bar - other.Bar) % 2 == 0
            && (one.Bar - old.Chart.Chords[0].Bar) % Grid == (other.Bar - now.Chart.Chords[0].Bar) % Grid;
    }
}
