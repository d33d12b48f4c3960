// `chordlang export`: an arrangement for other programs and for people who have none of ours.
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Placing;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.TabText;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class ExportCommand : Command
{
    public override string Name => "export";

    public override string Takes => "FILE or -";

    public override string Summary => "Writes an arrangement in an open format: MusicXML, or tablature as plain text";

    public override IReadOnlyList<Option> Options { get; } =
    [
        new("--to", "musicxml|tab", "the format", ["musicxml", "tab"]),
        new("--width", "N", "most characters a line of tablature (default: 78)"),
        new("--out", "FILE", "where it is written (default: standard output)"),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count != 1 || Directory.Exists(arguments.Words[0]))
            throw new MisuseException("export takes one file, or - for standard input.");
        if (!arguments.Has("--to"))
            throw new MisuseException("export needs the format: --to musicxml or --to tab.");
        var source = Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]).First()();
        if (source.Text is not { } text)
            throw new MisuseException($"{Terminal.Harmless(source.Path)} cannot be read: {source.Trouble}.");
        var piece = Binder.Bind(SyntaxTree.Parse(text), new Library(source.FullPath));
        var placed = PlacedPiece.Of(piece, piece.Settings.Hand);
        var width = TabWriter.UsualWidth;
        if (arguments["--width"] is { } asked && !(int.TryParse(asked, out width) && width is >= 20 and <= 1000))
            throw new MisuseException("--width is a number from 20 to 1000.");
        var score = arguments["--to"] == "tab" ? string.Join('\n', TabWriter.Write(piece, placed, width).Split('\n').Select(Terminal.Harmless)) : ScoreWriter.Write(piece, placed);
        if (arguments["--out"] is { } path)
            Replacement.Write(Path.GetFullPath(path), new UTF8Encoding(false).GetBytes(score));
        else
            terminal.Out.Write(score);
        return Clean;
    }
}
