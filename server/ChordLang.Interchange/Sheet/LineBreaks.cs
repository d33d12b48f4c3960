// Where the lines of a sheet end: the breaks that leave all lines about equally full, four bars a line where that is no worse.
namespace ChordLang.Interchange.Sheet;

/// <summary>Bars of one line.</summary>
/// <param name="First">Index of its first bar.</param>
/// <param name="Count">How many.</param>
/// <param name="Stretch">By how much the gaps between its columns grow.</param>
internal readonly record struct Line(int First, int Count, double Stretch);

/// <summary>Breaks bars into lines: least raggedness over all ways of breaking.</summary>
internal static class LineBreaks
{
    /// <summary>Gaps may shrink to this part of their natural width.</summary>
    public const double Tightest = 0.86;

    /// <summary>The last line of a stretch grows at most this much; it may end early.</summary>
    public const double Loosest = 1.5;

    // A line that has to grow by more than this to reach the margin ends before it, where it may.
    private const double Apart = 1.65;

    // A bar alone behind full lines looks forgotten: two lines about equally full are better.
    private const double Alone = 4.4;

    /// <summary>Breaks a stretch of bars that stands by itself.</summary>
    /// <param name="widths">All bars.</param>
    /// <param name="from">Its first bar.</param>
    /// <param name="to">Behind its last bar.</param>
    /// <param name="width">Width of a line.</param>
    /// <param name="prefix">Width of clef and signature where a bar opens a line.</param>
    public static IEnumerable<Line> Of(IReadOnlyList<BarWidth> widths, int from, int to, double width, Func<int, double> prefix)
    {
        var n = to - from;
        var (cost, back, stretch) = (new double[n + 1], new int[n + 1], new double[n + 1]);
        for (var j = 1; j <= n; j++)
        {
            cost[j] = double.MaxValue;
            var (natural, rigid) = (0.0, 0.0);
            for (var i = j - 1; i >= 0; i--)
            {
                var bar = widths[from + i];
                natural += bar.Natural;
                rigid += bar.Lead + (i < j - 1 ? widths[from + i + 1].Change : 0);
                var r = (width - prefix(from + i) - rigid) / natural;
                if (r < Tightest && i < j - 1)
                    break;
                var last = j == n;
                var c = cost[i] + Badness(r, last) + (j - i == 4 ? 0 : 0.12) + (last && i == j - 1 && i > 0 ? Alone : 0) + 0.02;
                if (c < cost[j])
                    (cost[j], back[j], stretch[j]) = (c, i, last && r > Loosest ? Fitting(r, i > 0 ? stretch[i] : 1) : Math.Max(r, Tightest));
            }
        }
        var lines = new Stack<Line>();
        // Two lines that hold all of a short section are alike: neither is pulled apart to the margin, but where little is missing there.
        var pair = back[n] > 0 && back[back[n]] == 0 && stretch[back[n]] > Apart;
        for (var j = n; j > 0; j = back[j])
            lines.Push(new(from + back[j], j - back[j], pair ? Math.Min(stretch[j], Loosest) : stretch[j]));
        return lines;
    }

    private static double Badness(double r, bool last) => last && r > 1 ? Math.Log(r) * 1.2 - (r > Loosest ? 0 : 0.3 * Math.Log(r)) : Math.Pow(Math.Log(Math.Max(r, 0.05)), 2) * (r > Loosest ? 12 : r > 1 ? 4 : 8);

    // A short last line keeps the pace of the line before it, or an easy one, and ends early.
    private static double Fitting(double r, double before) => Math.Min(r, Math.Clamp(before, 1.12, Loosest));
}
