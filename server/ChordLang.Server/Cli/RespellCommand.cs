// `chordlang respell`: the spelling that key, harmony and line call for, note by note.
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Spelling;
using ChordLang.Grammar.Syntax;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

internal sealed record RespellJson(int Version, IReadOnlyList<RespelledFileJson> Files);
internal sealed record RespelledFileJson(string Path, IReadOnlyList<RespelledNoteJson> Notes);
internal sealed record RespelledNoteJson(int Bar, int Row, string Count, string Written, string Proposed, string Why);

/// <inheritdoc/>
internal sealed class RespellCommand : Command
{
    public override string Name => "respell";

    public override string Takes => "FILE, FOLDER or - …";

    public override string Summary => "Says how key, harmony and line spell each written pitch";

    public override IReadOnlyList<Option> Options { get; } =
    [
        Format,
        new("--write", null, "write the spellings into the files; what sounds stays the same"),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("respell needs a file, a folder, or - for standard input.");
        var (code, told) = (Clean, new List<RespelledFileJson>());
        foreach (var read in Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]))
        {
            var source = read();
            if (source.Text is not { } text)
            {
                terminal.Error.WriteLine($"chordlang: {Unreadable(source)}");
                code = Trouble;
                continue;
            }
            var piece = Binder.Bind(SyntaxTree.Parse(text), new Library(source.FullPath));
            var notes = SpelledPiece.Of(piece, false).ToList();
            if (arguments.Has("--write") && source.FullPath is { } path && source.Path != "<stdin>"
                && Respelling.Edits(piece, [.. notes.Where(n => n.Proposed != n.Note.Pitch).Select(n => (n.Event, n.Note, n.Proposed))]) is { IsEmpty: false } edits)
                Replacement.Write(path, text.With(edits).ToBytes());
            told.Add(new(source.Path, [.. notes.Select(n => Told(piece, n))]));
            if (!arguments.Json)
                Write(told[^1], terminal);
        }
        if (arguments.Json)
            terminal.Json(JsonSerializer.Serialize(new RespellJson(1, told), Json.Plain.RespellJson));
        return code;
    }

    private static RespelledNoteJson Told(Piece piece, WrittenNote n) =>
        new(piece.Bars[n.Event.Bar].Number, n.Event.Row, CountSyntax.Write(n.Event.Offset), n.Note.Pitch.ToString(), n.Proposed.ToString(), n.Why);

    private static void Write(RespelledFileJson file, Terminal terminal)
    {
        var changed = file.Notes.Where(n => n.Written != n.Proposed).ToList();
        terminal.Out.WriteLine($"{Terminal.Harmless(file.Path)}: " + (file.Notes.Count == 0 ? "no pitches are written."
            : changed.Count == 0 ? "every written pitch is spelled as key, harmony and line call for."
            : $"{changed.Count} of {file.Notes.Count} written pitches {(changed.Count == 1 ? "is" : "are")} better spelled another way."));
        foreach (var n in changed)
            terminal.Out.WriteLine($"  {(n.Bar == 0 ? "pickup" : $"bar {n.Bar}")}, count {n.Count}, row {n.Row}: {n.Written} is written {n.Proposed}: {Terminal.Harmless(n.Why)}.");
        terminal.Out.WriteLine();
    }
}
