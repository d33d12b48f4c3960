// `chordlang place`: strings, frets and left-hand fingers for what is left open.
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

internal sealed record PlaceJson(int Version, IReadOnlyList<PlacedFileJson> Files);
internal sealed record PlacedFileJson(string Path, IReadOnlyList<PlacedEventJson> Events, double Cost, IReadOnlyList<CostJson> Parts);
internal sealed record PlacedEventJson(int Bar, int Row, string Count, IReadOnlyList<PlacedNoteJson> Notes, bool Given);
internal sealed record PlacedNoteJson(string Pitch, int? String, int? Fret, [property: JsonConverter(typeof(FingerJson))] string? Finger);
internal sealed record CostJson(string Says, double Cost);

/// <summary>A finger as programs read it: a number, 0 for an open string, or "T" for the thumb.</summary>
internal sealed class FingerJson : JsonConverter<string?>
{
    public override string? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.TokenType == JsonTokenType.Number ? reader.GetInt32().ToString(CultureInfo.InvariantCulture) : reader.GetString();

    public override void Write(Utf8JsonWriter writer, string? value, JsonSerializerOptions options)
    {
        if (int.TryParse(value, out var number))
            writer.WriteNumberValue(number);
        else
            writer.WriteStringValue(value);
    }
}

/// <inheritdoc/>
internal sealed class PlaceCommand : Command
{
    public override string Name => "place";

    public override string Takes => "FILE, FOLDER or - …";

    public override string Summary => "Finds strings, frets and left-hand fingers for what is left open";

    public override IReadOnlyList<Option> Options { get; } =
    [
        Format,
        new("--all", null, "place everything anew but frets that are written"),
        new("--hand", "SIZE", "whose reach counts (default: chordlang.json, else medium)", ["small", "medium", "large"]),
        new("--write", null, "write the strings into the files"),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("place needs a file, a folder, or - for standard input.");
        var hand = Hand.Named(arguments["--hand"] ?? "");
        var files = Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]).ToList();
        var done = files.AsParallel().AsOrdered().Select(f =>
        {
            var source = f();
            var piece = source.Text is { } text ? Binder.Bind(SyntaxTree.Parse(text), new Library(source.FullPath)) : null;
            return (Source: source, Piece: piece, Placed: piece is null ? null : PlacedPiece.Of(piece, hand ?? piece.Settings.Hand, arguments.Has("--all")));
        }).ToList();
        var code = Clean;
        foreach (var (source, _, placed) in done)
        {
            if (placed is null)
            {
                terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(source.Path)} cannot be read: {source.Trouble}.");
                code = Trouble;
            }
            else if (arguments.Has("--write") && placed.Edits() is { IsEmpty: false } edits && source.FullPath is { } path && source.Path != "<stdin>")
                Replacement.Write(path, source.Text!.With(edits).ToBytes());
        }
        var told = done.Where(d => d.Placed is not null).Select(d => Told(d.Source.Path, d.Piece!, d.Placed!)).ToList();
        if (arguments.Json)
            terminal.Out.WriteLine(JsonSerializer.Serialize(new PlaceJson(1, told), Json.Plain.PlaceJson));
        else
            foreach (var file in told)
                Write(file, terminal);
        return code;
    }

    private static PlacedFileJson Told(string path, Piece piece, PlacedPiece placed) => new(path,
    [
        .. placed.Events.Select(e => new PlacedEventJson(piece.Bars[e.Event.Bar].Number, e.Event.Row, CountSyntax.Write(e.Event.Offset),
            [.. e.Notes.Select(n => new PlacedNoteJson(n.Note.Pitch.ToString(), n.String, n.Fret, n.Fret == 0 ? "0" : n.Finger?.Written()))], e.Given)),
    ], Math.Round(placed.Cost, 3), [.. placed.Parts.Select(p => new CostJson(p.Says, Math.Round(p.Cost, 3)))]);

    private static void Write(PlacedFileJson file, Terminal terminal)
    {
        terminal.Out.WriteLine(Terminal.Harmless(file.Path));
        foreach (var e in file.Events)
            terminal.Out.WriteLine($"  {(e.Bar == 0 ? "pickup" : $"bar {e.Bar}")}, count {e.Count}, row {e.Row}: {string.Join(", ", e.Notes.Select(Spoken))}{(e.Given ? " (as written)" : "")}");
        var dear = file.Parts.Where(p => p.Cost > 0).Take(3).Select(p => p.Says).ToList();
        if (dear.Count > 0)
            terminal.Out.WriteLine($"  What costs the hand most: {string.Join("; ", dear)}.");
        terminal.Out.WriteLine($"  {Caution.Text}\n");
    }

    private static string Spoken(PlacedNoteJson n) => n is not { String: { } s, Fret: { } fret } ? $"{n.Pitch} has no place on this neck"
        : fret == 0 ? $"{n.Pitch} open string {s}" : $"{n.Pitch} string {s} fret {fret}{(n.Finger is { } f ? $" finger {f}" : "")}";
}
