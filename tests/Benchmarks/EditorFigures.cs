// The server as an editor meets it, beside servers of other languages in the same run.
namespace ChordLang.Benchmarks;

/// <summary>Measures lessons of 1,000 and 10,000 lines over a real pipe.</summary>
internal static class EditorFigures
{
    // A keystroke in a text ten times as long may take so much longer, or the work has begun to grow with the file. Wide, for machines are busy.
    private const double MostGrowth = 6, Slack = 5;
    private static readonly int[] Sizes = [1000, 10_000];

    /// <summary>Measures and tells; 1 where a keystroke grows with the text.</summary>
    public static int Run(Options options)
    {
        var (ours, report) = (Server.Pushing(options), new Report());
        List<Server> servers = options.Short ? [ours] : [ours, Server.Asked(options), .. options.Peers.Count > 0 ? Server.Others(options.Peers) : []];
        foreach (var size in Sizes)
            foreach (var server in servers)
                try
                {
                    using var measure = new Measure(server, size, options.Short);
                    report.Add(size, server.Name, measure.Run());
                    Console.Error.WriteLine($"{server.Name}, {size:N0} lines: measured.");
                }
                catch (Exception e) when (e is IOException or TimeoutException or System.ComponentModel.Win32Exception or InvalidOperationException)
                {
                    Console.WriteLine($"Not measured: {server.Name}, {size:N0} lines: {e.Message}");
                }
        var tables = $"The program is {options.Kind}.\n{report.Tables([.. servers.Where(s => s.Language == Language.Lessons).Select(s => s.Name)])}";
        Console.WriteLine(tables);
        if (options.File is { } file)
            Report.Write(file, "editor", tables);
        if (report.Median(Sizes[0], ours.Name, Measure.Keystroke) is not { } small || report.Median(Sizes[1], ours.Name, Measure.Keystroke) is not { } large)
            return 1;
        if (large <= small * MostGrowth + Slack)
            return 0;
        Console.WriteLine($"\nA keystroke took {small:0.00} ms, then {large:0.00} ms: that grows with the file.");
        return 1;
    }
}
