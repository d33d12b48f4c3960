// How the work of the server, and of a full check, grows with the length of a lesson.
using System.Globalization;
using System.Text;

namespace ChordLang.Benchmarks;

/// <summary>Measures lessons of 100 to 100,000 lines.</summary>
internal static class GrowthFigures
{
    private const int Checks = 5;
    private const string Full = "full check, without the start of the program", FullMemory = "peak memory of the full check, MB";

    /// <summary>Measures, tells, and writes the table where a file is named.</summary>
    public static int Run(Options options)
    {
        int[] sizes = options.Short ? [100, 1000, 10_000] : [100, 1000, 10_000, 100_000];
        var measured = new List<(int Size, IReadOnlyList<Row> Rows)>();
        foreach (var size in sizes)
        {
            using var measure = new Measure(Server.Pushing(options), size, options.Short);
            measured.Add((size, [.. measure.Grown(), .. Check(options, size)]));
            Console.Error.WriteLine($"{size:N0} lines: {string.Join("; ", measured[^1].Rows.Select(r => $"{r.Name} {r.Median:0.00} (fastest {r.Times.DefaultIfEmpty().Min():0.00})"))}");
        }
        var table = Table(options, measured);
        Console.WriteLine(table);
        if (options.File is { } file)
            Report.Write(file, "growth", table);
        return 0;
    }

    private static List<Row> Check(Options options, int lines)
    {
        var folder = Directory.CreateTempSubdirectory("chordlang-check-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "long.chl"), Language.Lessons.Write(lines));
            File.WriteAllText(Path.Combine(folder, "none.chl"), "| C\n");
            var runs = Enumerable.Range(0, Checks).Select(_ => (Nothing: Of("none.chl"), Whole: Of("long.chl"))).ToList();
            var start = new Row("", [.. runs.Select(r => r.Nothing.Milliseconds)]).Median;
            return [new(Full, [.. runs.Select(r => r.Whole.Milliseconds - start)]), new(FullMemory, [runs.Max(r => r.Whole.Megabytes)])];
        }
        finally
        {
            Directory.Delete(folder, true);
        }

        ProgramRun Of(string name) => ProgramRun.Of([.. options.Program, "check", name], folder) is { Code: 0 } run ? run : throw new InvalidOperationException($"{name} of {lines} lines does not check clean.");
    }

    private static string Table(Options options, List<(int Size, IReadOnlyList<Row> Rows)> measured)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"The program is {options.Kind}; milliseconds, median (19 of 20 below); the growth is the exponent that fits best from 1,000 lines on.\n\n");
        text.Append(CultureInfo.InvariantCulture, $"| lines | {string.Join(" | ", measured.Select(m => m.Size.ToString("N0", CultureInfo.InvariantCulture)))} | growth |\n|---|{string.Concat(measured.Select(_ => "---:|"))}---:|\n");
        foreach (var name in measured.SelectMany(m => m.Rows).Select(r => r.Name).Distinct())
        {
            var rows = measured.Select(m => (m.Size, Row: m.Rows.FirstOrDefault(r => r.Name == name))).ToList();
            var growth = Row.Growth(rows.Where(r => r.Row is not null).Select(r => (r.Size, r.Row!.Median)));
            text.Append(CultureInfo.InvariantCulture, $"| {name} | {string.Join(" | ", rows.Select(r => Report.Cell(r.Row)))} | {(growth is { } g ? g.ToString("0.00", CultureInfo.InvariantCulture) : "–")} |\n");
        }
        return text.ToString();
    }
}
