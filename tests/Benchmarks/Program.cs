// Measures the language server as an editor meets it, beside servers of other languages in the same run: dotnet run --project tests/Benchmarks -- [--short] [--peers FOLDER] [--write FILE] PROGRAM [ARGS]
using System.Globalization;

namespace ChordLang.Benchmarks;

internal static class Program
{
    // A keystroke in a text ten times as long may take so much longer, or the work has begun to grow with the file. Wide, for machines are busy.
    private const double MostGrowth = 6, Slack = 5;
    private const string Ours = "chordlang, pushing";
    private static readonly int[] Sizes = [1000, 10_000], Long = [100, 1000, 10_000, 100_000];

    private static int Main(string[] arguments)
    {
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        if (arguments is ["sheet"])
            return SheetFigures.Run();
        if (arguments is ["place"])
            return PlacementFigures.Run();
        var (peers, file, brief) = ((string?)null, (string?)null, false);
        var command = arguments.ToList();
        for (var reading = true; reading;)
            switch (command)
            {
                case ["--peers", var folder, ..]:
                    (peers, command) = (Path.GetFullPath(folder), command[2..]);
                    break;
                case ["--write", var named, ..]:
                    (file, command) = (Path.GetFullPath(named), command[2..]);
                    break;
                case ["--short", ..]:
                    (brief, command) = (true, command[1..]);
                    break;
                default:
                    reading = false;
                    break;
            }
        // The server runs in a folder of its own.
        command = [.. command.Select(a => File.Exists(a) ? Path.GetFullPath(a) : a)];
        if (command.Count == 0)
        {
            Console.Error.WriteLine("usage: place, or [--short] [--peers node_modules/.bin] [--write DEVELOPERS.md] PROGRAM [ARGUMENT …], for example: chordlang serve");
            return 2;
        }
        var servers = new List<(string Name, IReadOnlyList<string> Command, Language Language, bool Pull)> { (Ours, command, Language.Lessons, false) };
        if (!brief)
            servers.Add(("chordlang, asked", command, Language.Lessons, true));
        if (peers is not null)
        {
            servers.Add(("json, asked", [Path.Combine(peers, "vscode-json-language-server"), "--stdio"], Language.Json, true));
            servers.Add(("typescript 7, asked", [Path.Combine(peers, "tsc"), "--lsp", "--stdio"], Language.TypeScript, true));
            servers.Add(("clangd, pushing", ["clangd", "--background-index=false", "--log=error"], Language.C, false));
        }
        var report = new Report();
        foreach (var size in Sizes)
            foreach (var server in servers)
                try
                {
                    report.Add(size, server.Name, new Measure(server.Command, server.Language, size, server.Pull, brief).Run());
                }
                catch (Exception e) when (e is IOException or TimeoutException or System.ComponentModel.Win32Exception or InvalidOperationException)
                {
                    Console.WriteLine($"Not measured: {server.Name}, {size} lines: {e.Message}");
                }
        var ours = servers.Select(s => s.Name).Where(n => n.StartsWith("chordlang", StringComparison.Ordinal)).ToList();
        var tables = report.Tables(ours);
        Console.WriteLine(tables);
        // Written at once: the longest texts take their time.
        if (file is not null)
            Report.Write(file, tables);
        if (!brief)
            foreach (var size in Long)
                report.Add(size, Ours, new Measure(command, Language.Lessons, size, false, brief).Keystrokes());
        var growth = report.Growth(Ours);
        Console.WriteLine(growth);
        if (file is not null)
            Report.Write(file, tables + "\n" + growth);
        if (report.Median(1000, Ours, Measure.Keystroke) is { } small && report.Median(10_000, Ours, Measure.Keystroke) is { } large)
        {
            if (large <= small * MostGrowth + Slack)
                return 0;
            Console.WriteLine($"\nA keystroke took {small:0.00} ms, then {large:0.00} ms: that grows with the file.");
        }
        return 1;
    }
}
