// The measures as tables, and the part of DEVELOPERS.md that a run writes.
using System.Globalization;
using System.Text;

namespace ChordLang.Benchmarks;

/// <summary>What was measured, by length of the text and by server.</summary>
internal sealed class Report
{
    private const string Begin = "<!-- written by tests/Benchmarks -->", End = "<!-- up to here -->";
    private readonly List<(int Size, string Server, IReadOnlyList<Row> Rows)> measured = [];

    /// <summary>Adds the rows of a server on a text.</summary>
    public void Add(int size, string server, IReadOnlyList<Row> rows) => measured.Add((size, server, rows));

    /// <summary>The median of a row, or null where it was not measured.</summary>
    public double? Median(int size, string server, string row) =>
        measured.Where(m => m.Size == size && m.Server == server).SelectMany(m => m.Rows).FirstOrDefault(r => r.Name == row)?.Median is { } median && !double.IsNaN(median) ? median : null;

    /// <summary>A table for each length that more than keystrokes were measured on; where others were measured too, with the ratio of ours to the fastest of them.</summary>
    public string Tables(IReadOnlyCollection<string> ours)
    {
        var text = new StringBuilder();
        foreach (var size in measured.GroupBy(m => m.Size).Where(g => g.Any(m => m.Rows.Any(r => r.Name == Measure.Cold))).OrderBy(g => g.Key))
        {
            var all = size.Where(m => m.Rows.Any(r => r.Name == Measure.Cold)).ToList();
            var others = all.Where(m => !ours.Contains(m.Server)).ToList();
            text.Append(CultureInfo.InvariantCulture, $"\n{size.Key} lines; milliseconds, median (19 of 20 below)\n\n| | {string.Join(" | ", all.Select(a => a.Server))} |{(others.Count > 0 ? " ours to the fastest other |" : "")}\n|---|{string.Concat(all.Select(_ => "---:|"))}{(others.Count > 0 ? "---:|" : "")}\n");
            foreach (var name in all.SelectMany(a => a.Rows).Select(r => r.Name).Distinct())
            {
                text.Append(CultureInfo.InvariantCulture, $"| {name} | {string.Join(" | ", all.Select(a => a.Rows.FirstOrDefault(r => r.Name == name) is { Times.Count: > 0 } found ? found.Times.Count > 1 ? $"{found.Median:0.00} ({found.P95:0.0})" : $"{found.Median:0}" : "–"))} |");
                if (others.Count > 0)
                {
                    var best = others.Select(o => Median(size.Key, o.Server, name)).OfType<double>().DefaultIfEmpty(double.NaN).Min();
                    var mine = ours.Select(o => Median(size.Key, o, name)).OfType<double>().DefaultIfEmpty(double.NaN).Min();
                    text.Append(double.IsNaN(best) || double.IsNaN(mine) ? " – |" : string.Create(CultureInfo.InvariantCulture, $" {mine / best:0.00} |"));
                }
                text.Append('\n');
            }
        }
        return text.ToString();
    }

    /// <summary>How keystrokes grow with the text: the exponents of a power law from the shortest to the longest.</summary>
    public string Growth(string server)
    {
        var text = new StringBuilder();
        foreach (var name in measured.Where(m => m.Server == server).SelectMany(m => m.Rows).Select(r => r.Name).Where(n => n.StartsWith(Measure.Keystroke, StringComparison.Ordinal)).Distinct())
        {
            var points = measured.Where(m => m.Server == server).Select(m => m.Size).Distinct().Select(s => (Size: s, Time: Median(s, server, name))).Where(p => p.Time is not null).OrderBy(p => p.Size).ToList();
            if (points.Count < 2)
                continue;
            var exponent = Math.Log(points[^1].Time!.Value / points[0].Time!.Value) / Math.Log((double)points[^1].Size / points[0].Size);
            text.Append(CultureInfo.InvariantCulture, $"{name}: {string.Join(", ", points.Select(p => $"{p.Time:0.00} ms at {p.Size:N0}"))} lines; growth exponent {exponent:0.00}.\n");
        }
        return text.ToString();
    }

    /// <summary>Puts a text where a file has the marks for it.</summary>
    public static void Write(string file, string text)
    {
        var old = File.ReadAllText(file);
        var (from, to) = (old.IndexOf(Begin, StringComparison.Ordinal), old.IndexOf(End, StringComparison.Ordinal));
        if (from < 0 || to < from)
            throw new InvalidOperationException($"{Path.GetFileName(file)} has no lines {Begin} and {End}.");
        File.WriteAllText(file, $"{old[..(from + Begin.Length)]}\nMeasured on {DateTime.UtcNow.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)} on {Environment.ProcessorCount} cores, load {File.ReadAllText("/proc/loadavg").Split(' ')[0]} at the end.\n{text}\n{old[to..]}");
    }
}
