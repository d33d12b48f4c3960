// Findings as workflow commands: GitHub shows each beside its line in a pull request.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Text;

namespace ChordLang.Server.Cli;

/// <summary>Writes findings as annotations, then the summary. The form is that of GitHub's page on workflow commands.</summary>
internal static class AnnotationReport
{
    /// <summary>All files.</summary>
    public static void Write(IReadOnlyList<CheckedFile> files, Terminal terminal)
    {
        foreach (var file in files)
            if (file.Source.Text is { } text)
                foreach (var finding in file.Findings)
                    terminal.Out.WriteLine(Line(file.Source, text, finding));
            else
                terminal.Out.WriteLine($"::error file={Property(SarifReport.RelativePath(file.Source))},title=tool-unreadable::{Message($"The file cannot be read: {file.Source.Trouble}.")}");
        TextReport.Summary(files, terminal);
    }

    private static string Line(Workspace.Source source, SourceText text, Finding finding)
    {
        var (start, end) = (text.PositionAt(finding.Span.Start), text.PositionAt(finding.Span.End));
        var level = finding.Severity switch { Severity.Error => "error", Severity.Warning => "warning", _ => "notice" };
        var place = finding.Bar is { } bar ? $"{(bar == 0 ? "Pickup" : $"Bar {bar}")}{(finding.Count is { } count ? $", count {count}" : "")}: " : "";
        return $"::{level} file={Property(SarifReport.RelativePath(source))},line={start.Line + 1},endLine={end.Line + 1},col={start.Character + 1},endColumn={end.Character + 1},"
            + $"title={Property(finding.Code)}::{Message(place + finding.Message)}";
    }

    // Data of a workflow command may hold no line end; a property, besides, no comma and no colon.
    private static string Message(string text) =>
        Terminal.Harmless(text.Replace("%", "%25", StringComparison.Ordinal).Replace("\r", "%0D", StringComparison.Ordinal).Replace("\n", "%0A", StringComparison.Ordinal));

    private static string Property(string text) => Message(text).Replace(":", "%3A", StringComparison.Ordinal).Replace(",", "%2C", StringComparison.Ordinal);
}
