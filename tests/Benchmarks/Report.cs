// The measures as tables, and the parts of DEVELOPERS.md that a run writes.
using System.Globalization;
using System.Text;

namespace ChordLang.Benchmarks;

/// <summary>What was measured of several servers, by length of the text.</summary>
internal sealed class Report
{
    private readonly List<(int Size, string Server, IReadOnlyList<Row> Rows)> measured = [];

    /// <summary>Adds the rows of a server on a text.</summary>
    public void Add(int size, string server, IReadOnlyList<Row> rows) => measured.Add((size, server, rows));

    /// <summary>The median of a row, or null where it was not measured.</summary>
    public double? Median(int size, string server, string row) => Find(size, server, row) is { Times.Count: > 0 } found ? found.Median : null;

    /// <summary>Two tables for each length: ours beside the fastest other in each row, and everybody.</summary>
    public string Tables(IReadOnlyCollection<string> ours)
    {
        var text = new StringBuilder();
        foreach (var size in measured.GroupBy(m => m.Size).OrderBy(g => g.Key))
        {
            var (all, names) = (size.ToList(), size.SelectMany(m => m.Rows).Select(r => r.Name).Distinct().ToList());
            var others = all.Where(m => !ours.Contains(m.Server)).Select(m => m.Server).ToList();
            var mine = all.Where(m => ours.Contains(m.Server)).Select(m => m.Server).ToList();
            text.Append(CultureInfo.InvariantCulture, $"\n{size.Key:N0} lines; milliseconds, median (19 of 20 below)\n\n| | {string.Join(" | ", mine)} |{(others.Count > 0 ? " fastest other | ours to it |" : "")}\n|---|{string.Concat(mine.Select(_ => "---:|"))}{(others.Count > 0 ? "---:|---:|" : "")}\n");
            foreach (var name in names)
            {
                text.Append(CultureInfo.InvariantCulture, $"| {name} | {string.Join(" | ", mine.Select(m => Cell(Find(size.Key, m, name))))} |");
                if (others.Count > 0)
                {
                    var best = others.Select(o => (Server: o, Row: Find(size.Key, o, name))).Where(o => o.Row is { Times.Count: > 0, SaysNothing: false }).OrderBy(o => o.Row!.Median).FirstOrDefault();
                    var least = mine.Select(m => Median(size.Key, m, name)).OfType<double>().DefaultIfEmpty(double.NaN).Min();
                    text.Append(best.Row is null || double.IsNaN(least) ? " – | – |" : string.Create(CultureInfo.InvariantCulture, $" {best.Server}: {Cell(best.Row)} | {least / best.Row.Median:0.00} |"));
                }
                text.Append('\n');
            }
            if (others.Count == 0)
                continue;
            text.Append(CultureInfo.InvariantCulture, $"\nEverybody at {size.Key:N0} lines; medians; ° most answers held nothing\n\n| | {string.Join(" | ", names.Select(Brief))} |\n|---|{string.Concat(names.Select(_ => "---:|"))}\n");
            foreach (var server in all)
                text.Append(CultureInfo.InvariantCulture, $"| {server.Server} | {string.Join(" | ", names.Select(n => Find(size.Key, server.Server, n) is { Times.Count: > 0 } r ? $"{Figure(r.Median)}{(r.SaysNothing ? "°" : "")}" : "–"))} |\n");
        }
        return text.ToString();
    }

    /// <summary>A row as a table shows it.</summary>
    public static string Cell(Row? row) => row is not { Times.Count: > 0 } ? "–" : row.Times.Count > 1 ? $"{Figure(row.Median)} ({Figure(row.P95)})" : $"{row.Median:0}";

    /// <summary>Puts a text where a file has the marks for it.</summary>
    public static void Write(string file, string section, string text)
    {
        var (begin, end) = ($"<!-- written by tests/Benchmarks: {section} -->", $"<!-- up to here: {section} -->");
        var old = File.ReadAllText(file);
        var (from, to) = (old.IndexOf(begin, StringComparison.Ordinal), old.IndexOf(end, StringComparison.Ordinal));
        if (from < 0 || to < from)
            throw new InvalidOperationException($"{Path.GetFileName(file)} has no lines {begin} and {end}.");
        File.WriteAllText(file, $"{old[..(from + begin.Length)]}\n\nMeasured on {DateTime.UtcNow.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)} on {Environment.ProcessorCount} cores, load {File.ReadAllText("/proc/loadavg").Split(' ')[0]} at the end.\n{text.TrimEnd('\n')}\n\n{old[to..]}");
    }

    private static string Figure(double value) => value.ToString(value < 10 ? "0.00" : value < 100 ? "0.0" : "0", CultureInfo.InvariantCulture);

    private static string Brief(string name) => name.Replace(Measure.After, "", StringComparison.Ordinal).Replace("start to ", "", StringComparison.Ordinal).Replace(" to findings", "", StringComparison.Ordinal);

    private Row? Find(int size, string server, string row) => measured.Where(m => m.Size == size && m.Server == server).SelectMany(m => m.Rows).FirstOrDefault(r => r.Name == row);
}
