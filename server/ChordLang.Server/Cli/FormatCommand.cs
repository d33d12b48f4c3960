// `chordlang format`: canonical text.
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class FormatCommand : Command
{
    public override string Name => "format";

    public override string Takes => "FILE, FOLDER or - …";

    public override string Summary => "Writes arrangements in their canonical form; what sounds stays the same";

    public override IReadOnlyList<Option> Options { get; } =
    [
        new("--check", null, "change nothing; exit code 1 where a file is not in its canonical form"),
        new("--diff", null, "change nothing; print the lines that would change"),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("format needs a file, a folder, or - for standard input.");
        var (worst, changed) = (Clean, 0);
        foreach (var read in Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]))
        {
            var source = read();
            if (source.Text is not { } text)
            {
                terminal.Error.WriteLine($"chordlang: {Unreadable(source)}");
                worst = Trouble;
                continue;
            }
            var edits = Formatter.Format(SyntaxTree.Parse(text));
            var fromInput = source.FullPath is null || arguments.Words.Contains("-") && source.Path == (arguments["--stdin-path"] ?? "<stdin>");
            changed += edits.IsEmpty ? 0 : 1;
            if (arguments.Has("--diff"))
                Difference(source.Path, text, edits, terminal);
            else if (arguments.Has("--check"))
                terminal.Out.Write(edits.IsEmpty ? "" : $"{Terminal.Harmless(source.Path)} is not in its canonical form: chordlang format {Terminal.Harmless(source.Path)}\n");
            else if (fromInput)
                terminal.Out.Write(text.With(edits).Text);
            else if (!edits.IsEmpty && Unwritten(source.FullPath!, text.With(edits)) is { } reason)
            {
                terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(source.Path)} cannot be written: {Terminal.Harmless(reason)}.");
                worst = Trouble;
            }
        }
        return Math.Max(worst, changed > 0 && (arguments.Has("--check") || arguments.Has("--diff")) ? Found : Clean);
    }

    // Why the file could not be written, or null.
    private static string? Unwritten(string path, SourceText text)
    {
        try
        {
            Replacement.Write(path, text.ToBytes());
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Reason(e);
        }
    }

    private static void Difference(string path, SourceText text, IReadOnlyCollection<TextEdit> edits, Terminal terminal)
    {
        foreach (var edit in edits.OrderBy(e => e.Span.Start))
        {
            var (first, last) = (text.LineAt(edit.Span.Start), text.LineAt(edit.Span.End));
            terminal.Out.WriteLine($"{Terminal.Harmless(path)}, line {first + 1}");
            var old = text.Text[text.Lines[first].Start..text.Lines[last].End];
            var at = text.Lines[first].Start;
            var renewed = old[..(edit.Span.Start - at)] + edit.NewText + old[(edit.Span.End - at)..];
            terminal.Out.WriteLine($"- {Terminal.Harmless(old)}");
            terminal.Out.WriteLine($"+ {Terminal.Harmless(renewed)}");
        }
    }
}
