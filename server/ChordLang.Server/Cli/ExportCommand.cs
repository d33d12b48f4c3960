// `chordlang export`: an arrangement for other programs and for people who have none of ours.
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Midi;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.TabText;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class ExportCommand : Command
{
    public override string Name => "export";

    public override string Takes => "FILE or -";

    public override string Summary => "Writes an arrangement as a sheet to hand out (page, drawing, PDF), as MusicXML, MIDI or sound, or as tablature in plain text";

    public override IReadOnlyList<Option> Options { get; } =
    [
        new("--to", "FORMAT", "sheet, svg, pdf, musicxml, midi, tab, or wav through an installed synthesiser", ["sheet", "svg", "pdf", "musicxml", "midi", "wav", "tab"]),
        new("--width", "N", "most characters a line of tablature (default: 78)"),
        new("--sound-font", "FILE", "the sound font for wav (default: the first that is installed)"),
        .. SheetExport.Options,
        new("--out", "FILE", "where it is written (default: standard output); a score named .mxl is compressed"),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count != 1 || Directory.Exists(arguments.Words[0]))
            throw new MisuseException("export takes one file, or - for standard input.");
        if (!arguments.Has("--to"))
            throw new MisuseException("export needs the format: --to sheet, svg, pdf, musicxml, midi, wav or tab.");
        if (arguments.Has("--sound") && arguments["--to"] != "sheet")
            throw new MisuseException($"--sound is for a page: --to sheet. {(arguments["--to"] is "midi" or "wav" ? "A file of sound needs no such option" : "A drawing, a print or a text does not sound")}.");
        if (arguments["--to"] == "pdf" && !arguments.Has("--out"))
            throw new MisuseException("--to pdf needs a file to write: --out FILE.");
        if (arguments["--to"] is "midi" or "wav" && !arguments.Has("--out"))
            throw new MisuseException($"{(arguments["--to"] == "midi" ? "a MIDI file" : "sound")} is no text: say where it is written, with --out FILE.{(arguments["--to"] == "midi" ? "mid" : "wav")}.");
        var source = Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]).First()();
        if (source.Text is not { } text)
            throw new MisuseException(Unreadable(source));
        var library = new Library(source.FullPath);
        var piece = Binder.Bind(SyntaxTree.Parse(text), library);
        var placed = PlacedPiece.Of(piece, piece.Settings.Hand);
        var width = TabWriter.UsualWidth;
        if (arguments["--width"] is { } asked && !(int.TryParse(asked, out width) && width is >= 20 and <= 1000))
            throw new MisuseException("--width is a number from 20 to 1000.");
        if (arguments["--to"] is "midi" or "wav")
            return Played(piece, arguments);
        if (arguments["--to"] == "musicxml")
            foreach (var loss in ScoreWriter.Losses(piece))
                terminal.Error.WriteLine($"{Terminal.Harmless(source.Path)}: {Terminal.Harmless(loss.ToString())}");
        var score = arguments["--to"] switch
        {
            "tab" => string.Join('\n', TabWriter.Write(piece, placed, width).Split('\n').Select(Terminal.Harmless)),
            "musicxml" => ScoreWriter.Write(piece, placed),
            _ => SheetExport.Write(piece, placed, arguments, library),
        };
        if (arguments["--to"] == "pdf")
            SheetExport.Print(score, Path.GetFullPath(arguments["--out"]!));
        else if (arguments["--out"] is { } path)
            Replacement.Write(Path.GetFullPath(path), arguments["--to"] == "musicxml" && path.EndsWith(".mxl", StringComparison.OrdinalIgnoreCase)
                ? CompressedScore.Pack(score) : new UTF8Encoding(false).GetBytes(score));
        else
            terminal.Out.Write(score);
        return Clean;
    }

    private static int Played(Piece piece, Arguments arguments)
    {
        var (path, midi) = (Path.GetFullPath(arguments["--out"]!), MidiWriter.Write(piece));
        if (arguments["--to"] == "midi")
            Replacement.Write(path, midi);
        else if (Synthesiser.Write(midi, arguments["--sound-font"], path, Environment.GetEnvironmentVariable("PATH")) is { } trouble)
            throw new MisuseException($"no sound is written: {Terminal.Harmless(trouble)}.");
        return Clean;
    }
}
