// `chordlang describe`: an arrangement in sentences to be read aloud.
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Placing;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Spoken;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

internal sealed record DescribeJson(int Version, IReadOnlyList<DescribedFileJson> Files);
internal sealed record DescribedFileJson(string Path, IReadOnlyList<SentenceJson> Sentences);
internal sealed record SentenceJson(int? Bar, string? Count, string Text);

/// <inheritdoc/>
internal sealed class DescribeCommand : Command
{
    public override string Name => "describe";

    public override string Takes => "FILE, FOLDER or - …";

    public override string Summary => "Tells an arrangement in plain sentences to be read aloud";

    public override IReadOnlyList<Option> Options { get; } =
    [
        Format,
        new("--brief", null, "one sentence a bar"),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("describe needs a file, a folder, or - for standard input.");
        var (code, files) = (Clean, new List<DescribedFileJson>());
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
            var placed = PlacedPiece.Of(piece, piece.Settings.Hand);
            var sentences = arguments.Has("--brief") ? Describer.Brief(piece, placed) : Describer.Whole(piece, placed);
            files.Add(new(source.Path, [.. sentences.Select(s => new SentenceJson(s.Bar < 0 ? null : piece.Bars[s.Bar].Number, s.Offset is { } o ? CountSyntax.Write(o) : null, s.Text))]));
            if (!arguments.Json)
                foreach (var sentence in sentences)
                    terminal.Out.WriteLine(Terminal.Harmless(sentence.Text));
        }
        if (arguments.Json)
            terminal.Json(JsonSerializer.Serialize(new DescribeJson(1, files), Json.Plain.DescribeJson));
        return code;
    }
}
