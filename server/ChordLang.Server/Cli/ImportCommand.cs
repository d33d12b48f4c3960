// `chordlang import`: a score of another program as an arrangement of ours, and what of it could not be carried.
using System.Text;
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Spelling;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Interchange.Midi;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.Scores;
using ChordLang.Interchange.TabText;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

internal sealed record ImportJson(int Version, IReadOnlyList<ImportedFileJson> Files);
internal sealed record ImportedFileJson(string Path, string Text, IReadOnlyList<LossJson> Findings);
internal sealed record LossJson(int? Bar, string Message);

/// <inheritdoc/>
internal sealed class ImportCommand : Command
{
    public override string Name => "import";

    public override string Takes => "FILE.musicxml, FILE.mxl, FILE.mid, FILE.txt or -";

    public override string Summary => "Makes an arrangement of a MusicXML score, a MIDI file or typed tablature, and lists what could not be carried";

    public override IReadOnlyList<Option> Options { get; } =
    [
        Format,
        new("--part", "N", "which part of a score with several (default: the first on strings)"),
        new("--out", "FILE", "where it is written (default: standard output)"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count != 1 || Directory.Exists(arguments.Words[0]))
            throw new MisuseException("import takes one file, or - for standard input.");
        int? part = null;
        if (arguments["--part"] is { } asked)
            part = int.TryParse(asked, out var n) && n is >= 1 and <= 999 ? n : throw new MisuseException("--part is a number from 1.");
        var path = arguments.Words[0].Replace('\\', '/');
        var (bytes, trouble) = Sources.Bytes(arguments.Words[0], terminal.In);
        if (bytes is null)
            throw new MisuseException($"{Terminal.Harmless(path)} cannot be read: {Terminal.Harmless(trouble!.TrimEnd('.'))}.");
        Imported imported;
        try
        {
            imported = Read(bytes, part);
        }
        catch (UnreadableScoreException e)
        {
            throw new MisuseException($"{Terminal.Harmless(path)} cannot be imported: {Terminal.Harmless(e.Message)}.");
        }
        var text = LessonWriter.Write(imported.Score);
        if (!IsSpelled(bytes))
            text = Spelled(text);
        if (arguments["--out"] is { } to)
            Replacement.Write(Path.GetFullPath(to), new UTF8Encoding(false).GetBytes(text));
        if (arguments.Json)
            terminal.Json(JsonSerializer.Serialize(new ImportJson(1, [new(path, text, [.. imported.Losses.Select(l => new LossJson(l.Bar, l.Message))])]), Json.Plain.ImportJson));
        else
        {
            if (!arguments.Has("--out"))
                terminal.Out.Write(string.Join('\n', text.Split('\n').Select(Terminal.Harmless)));
            foreach (var loss in imported.Losses)
                terminal.Error.WriteLine($"{Terminal.Harmless(path)}: {Terminal.Harmless(loss.ToString())}");
        }
        return Clean;
    }

    // Tablature says where a note lies and not what it is called; the chords over it do.
    private static string Spelled(string text)
    {
        var piece = Binder.Bind(SyntaxTree.Parse(text));
        var edits = Respelling.Edits(piece, [.. SpelledPiece.Of(piece, false).Where(n => n.Proposed != n.Note.Pitch).Select(n => (n.Event, n.Note, n.Proposed))]);
        return piece.Tree.Source.With(edits).Text;
    }

    private static bool IsSpelled(byte[] bytes) => MidiReader.Is(bytes) || CompressedScore.Is(bytes) || IsXml(bytes);

    // What a file is, it says by how it begins; names mislead.
    private static Imported Read(byte[] bytes, int? part) =>
        MidiReader.Is(bytes) ? MidiReader.Read(bytes, part) : CompressedScore.Is(bytes) || IsXml(bytes) ? ScoreReader.Read(bytes, part) : TabReader.Read(SourceText.From(bytes).Text);

    // The first sign of XML is <, in whatever encoding; a text may begin with a byte order mark or blanks too.
    private static bool IsXml(byte[] bytes) => new ReadOnlySpan<byte>(bytes, 0, Math.Min(bytes.Length, 64)).TrimStart((ReadOnlySpan<byte>)[0, 0xEF, 0xBB, 0xBF, 0xFE, 0xFF, (byte)' ', (byte)'\t', (byte)'\r', (byte)'\n']) is [(byte)'<', ..];
}
