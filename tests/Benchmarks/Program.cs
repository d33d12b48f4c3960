// Measures the language server as an editor meets it, beside servers of other languages in the same run: dotnet run --project tests/Benchmarks -- [--peers FOLDER] PROGRAM [ARGS]
using System.Globalization;

namespace ChordLang.Benchmarks;

internal static class Program
{
    private static readonly int[] Sizes = [1000, 10_000];

    // A keystroke in a text ten times as long may take so much longer, or the work has begun to grow with the file. Wide, for machines are busy.
    private const double MostGrowth = 6, Slack = 3;
    private const string Keystroke = "keystroke to findings";

    private static int Main(string[] arguments)
    {
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        if (arguments is ["place"])
            return PlacementFigures.Run();
        string? peers = null;
        var command = arguments.ToList();
        if (command is ["--peers", var folder, ..])
        {
            (peers, command) = (Path.GetFullPath(folder), command[2..]);
        }
        // The server runs in a folder of its own.
        command = [.. command.Select(a => File.Exists(a) ? Path.GetFullPath(a) : a)];
        if (command.Count == 0)
        {
            Console.Error.WriteLine("usage: place, or [--peers node_modules/.bin] PROGRAM [ARGUMENT …], for example: chordlang serve");
            return 2;
        }
        var servers = new List<(string Name, IReadOnlyList<string> Command, Language Language, bool Pull)>
        {
            ("chordlang, pushing", command, Language.Lessons, false),
            ("chordlang, asked", command, Language.Lessons, true),
        };
        if (peers is not null)
        {
            servers.Add(("json, asked", [Path.Combine(peers, "vscode-json-language-server"), "--stdio"], Language.Json, true));
            servers.Add(("typescript 7, asked", [Path.Combine(peers, "tsc"), "--lsp", "--stdio"], Language.TypeScript, true));
            servers.Add(("clangd, pushing", ["clangd", "--background-index=false", "--log=error"], Language.C, false));
        }
        var keystrokes = new List<double>();
        foreach (var size in Sizes)
        {
            var all = new List<(string Name, IReadOnlyList<Row> Rows)>();
            foreach (var server in servers)
                try
                {
                    all.Add((server.Name, new Measure(server.Command, server.Language, size, server.Pull).Run()));
                }
                catch (Exception e) when (e is IOException or TimeoutException or System.ComponentModel.Win32Exception)
                {
                    Console.WriteLine($"Not measured: {server.Name}: {e.Message}");
                }
            if (all.FirstOrDefault(a => a.Name == servers[0].Name).Rows?.FirstOrDefault(r => r.Name == Keystroke) is { } row)
                keystrokes.Add(row.Median);
            Console.WriteLine($"\n{size} lines; milliseconds, median (19 of 20 below)\n");
            Console.WriteLine($"| | {string.Join(" | ", all.Select(a => a.Name))} |\n|---|{string.Concat(all.Select(_ => "---:|"))}");
            foreach (var name in all.SelectMany(a => a.Rows).Select(r => r.Name).Distinct())
                Console.WriteLine($"| {name} | {string.Join(" | ", all.Select(a => a.Rows.FirstOrDefault(r => r.Name == name) is { } found ? found.Times.Count > 1 ? $"{found.Median:0.00} ({found.P95:0.0})" : $"{found.Median:0}" : "–"))} |");
        }
        if (keystrokes is [var small, var large] && large <= small * MostGrowth + Slack)
            return 0;
        Console.WriteLine($"\nA keystroke took {string.Join(" ms, then ", keystrokes.Select(k => $"{k:0.00}"))} ms: that grows with the file.");
        return 1;
    }
}
