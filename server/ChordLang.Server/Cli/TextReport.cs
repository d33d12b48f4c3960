// Findings for people: file, bar and count, the line with carets, and what to do. Reads well aloud.
using System.Globalization;
using System.Text;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Text;

namespace ChordLang.Server.Cli;

/// <summary>Writes findings as text.</summary>
internal static class TextReport
{
    private const int Margin = 4, WidestLine = 160;

    /// <summary>One file; nothing for a clean one.</summary>
    public static void Write(CheckedFile file, Terminal terminal)
    {
        if (file.Source.Text is not { } text)
            return;
        if (file.Fixed > 0)
            terminal.Out.WriteLine($"{Terminal.Harmless(file.Source.Path)}: {Count(file.Fixed, "safe fix", "safe fixes")} written.\n");
        foreach (var finding in file.Findings)
            Write(file.Source.Path, text, finding, terminal);
    }

    /// <summary>The last line of a run.</summary>
    public static void Summary(IReadOnlyList<CheckedFile> files, Terminal terminal)
    {
        var parts = Enum.GetValues<Severity>().Select(s => (s, n: files.Sum(f => f.Findings.Count(x => x.Severity == s)))).Where(x => x.n > 0)
            .Select(x => x.s switch
            {
                Severity.Error => Count(x.n, "error", "errors"), Severity.Warning => Count(x.n, "warning", "warnings"),
                Severity.Information => Count(x.n, "information", "informations"), _ => Count(x.n, "hint", "hints"),
            }).ToList();
        var read = files.Count(f => f.Source.Text is not null);
        terminal.Out.WriteLine($"{Count(read, "file", "files")} checked: {(parts.Count == 0 ? "nothing to say." : string.Join(", ", parts) + ".")}");
    }

    private static void Write(string path, SourceText text, Finding finding, Terminal terminal)
    {
        var at = text.PositionAt(finding.Span.Start);
        var place = finding.Bar is { } bar ? $", {(bar == 0 ? "pickup" : $"bar {bar}")}{(finding.Count is { } c ? $", count {c}" : "")}" : "";
        var word = finding.Severity.ToString().ToLowerInvariant();
        terminal.Out.WriteLine($"{Terminal.Harmless(path)}, line {at.Line + 1}{place}");
        terminal.Out.WriteLine($"  {Paint(terminal, finding.Severity, word)}: {Terminal.Harmless(finding.Message)}");
        Excerpt(text, finding, at, terminal);
        foreach (var related in finding.Related.Take(3))
            terminal.Out.WriteLine($"  {(related.Path is null ? $"line {text.PositionAt(related.Span.Start).Line + 1}" : Terminal.Harmless(related.Path))}: {Terminal.Harmless(related.Message)}");
        foreach (var (fix, i) in finding.Fixes.Take(3).Select((f, i) => (f, i)))
            terminal.Out.WriteLine($"  {(i == 0 ? "Try:" : "Or: ")} {Terminal.Harmless(fix.Title)}{(fix.Safe ? " (safe: --fix does it)" : "")}");
        terminal.Out.WriteLine($"  More: chordlang explain {finding.Code}\n");
    }

    private static void Excerpt(SourceText text, Finding finding, LinePosition at, Terminal terminal)
    {
        var line = text.LineText(at.Line);
        var end = Math.Min(line.Length, at.Character + Math.Max(1, Math.Min(finding.Span.Length, line.Length - at.Character)));
        var from = at.Character > WidestLine / 2 && line.Length > WidestLine ? at.Character - WidestLine / 2 : 0;
        var to = Math.Min(line.Length, from + WidestLine);
        var before = Tabs(line[from..at.Character]);
        var blamed = Tabs(line[at.Character..Math.Max(at.Character, Math.Min(end, to))]);
        var cut = (from > 0 ? "…" : "", to < line.Length ? "…" : "");
        terminal.Out.WriteLine($"{new string(' ', Margin)}{cut.Item1}{Terminal.Harmless(Tabs(line[from..to]))}{cut.Item2}");
        var carets = Paint(terminal, finding.Severity, new string('^', Math.Max(1, Width(blamed))));
        terminal.Out.WriteLine($"{new string(' ', Margin + cut.Item1.Length + Width(before))}{carets}");
    }

    private static string Tabs(string text) => text.Replace("\t", "    ", StringComparison.Ordinal);

    // Columns on a terminal: combining marks take none, wide letters two (Unicode, East Asian Width in its main blocks).
    private static int Width(string text) => text.EnumerateRunes().Sum(r => Rune.GetUnicodeCategory(r) switch
    {
        UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.Format => 0,
        _ => r.Value is >= 0x1100 and <= 0x115F or >= 0x2E80 and <= 0xA4CF or >= 0xAC00 and <= 0xD7A3 or >= 0xF900 and <= 0xFAFF or >= 0xFE30 and <= 0xFE6F
            or >= 0xFF00 and <= 0xFF60 or >= 0xFFE0 and <= 0xFFE6 or >= 0x1F300 and <= 0x1FAFF ? 2 : 1,
    });

    private static string Paint(Terminal terminal, Severity severity, string text) => !terminal.Colour ? text : severity switch
    {
        Severity.Error => $"\u001b[1;35m{text}\u001b[0m",
        Severity.Warning => $"\u001b[1;33m{text}\u001b[0m",
        _ => $"\u001b[1;36m{text}\u001b[0m",
    };

    private static string Count(int n, string one, string many) => n == 1 ? $"1 {one}" : $"{n} {many}";
}
