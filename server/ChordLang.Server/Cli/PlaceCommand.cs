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
internal sealed record PlacedFileJson(string Path, IReadOnlyList<PlacedEventJson> Events, double Cost, IReadOnlyList<CostJson> Parts)
{
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<OtherPlacementJson>? Others { get; init; }

    /// <summary>How many further placements were left out, because they cost out of proportion.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public int? OthersLeftOut { get; init; }
}
internal sealed record OtherPlacementJson(IReadOnlyList<PlacedEventJson> Events, double CostsMore);
internal sealed record PlacedEventJson(int Bar, int Row, string Count, IReadOnlyList<PlacedNoteJson> Notes, bool Given)
{
    /// <summary>Why no hand holds what is struck there: the places are the nearest, and are not written into the file.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Unheld { get; init; }
}
internal sealed record PlacedNoteJson(string Pitch, int? String, int? Fret, [property: JsonConverter(typeof(FingerJson))] string? Finger);
internal sealed record CostJson(string Says, double Cost, int Bar);

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
        new("--bars", "A-B", "only these bars: 3, or 3-6"),
        new("--others", null, "also the next placements in other positions, three at most"),
        new("--write", null, "write the strings into the files"),
        new("--take", "N", "with --write: the Nth of the others instead of the best"),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("place needs a file, a folder, or - for standard input.");
        var hand = Hand.Named(arguments["--hand"] ?? "");
        var bars = Bars(arguments["--bars"]);
        var take = arguments["--take"] is not { } text ? 0 : int.TryParse(text, out var n) && n is >= 1 and <= Others ? n
            : throw new MisuseException($"--take wants a number from 1 to {Others}: --take 1.");
        var files = Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]).ToList();
        var done = files.AsParallel().AsOrdered().Select(f => f()).Select(source => source.Text is null ? new Done(source, null, null, None)
            : Place(source, hand, arguments.Has("--all"), bars, arguments.Has("--others") || take > 0)).ToList();
        var code = Clean;
        foreach (var (source, _, placed, others) in done)
        {
            if (placed is null)
            {
                terminal.Error.WriteLine($"chordlang: {Unreadable(source)}");
                code = Trouble;
            }
            else if (take > others.Near.Length)
            {
                terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(source.Path)} has {others.Near.Length} other placements worth a try there, so nothing is written.");
                code = Trouble;
            }
            else if (arguments.Has("--write") && (take > 0 ? others.Near[take - 1] : placed).Edits() is { IsEmpty: false } edits && source.FullPath is { } path && source.Path != "<stdin>")
                Replacement.Write(path, source.Text!.With(edits).ToBytes());
        }
        var told = done.Where(d => d.Placed is not null).Select(d => Told(d, arguments.Has("--others"))).ToList();
        if (arguments.Json)
            terminal.Json(JsonSerializer.Serialize(new PlaceJson(1, told), Json.Plain.PlaceJson));
        else
            foreach (var file in told)
                Write(file, terminal);
        return code;
    }

    private const int Others = 3;

    private sealed record Done(Source Source, Piece? Piece, PlacedPiece? Placed, OtherPieces Others);

    private static readonly OtherPieces None = new([], 0);

    private static Done Place(Source source, Hand? hand, bool anew, (int First, int Last)? bars, bool others)
    {
        var piece = Binder.Bind(SyntaxTree.Parse(source.Text!), new Library(source.FullPath));
        var placed = PlacedPiece.Of(piece, hand ?? piece.Settings.Hand, anew);
        int first = 0, last = piece.Bars.Length - 1;
        if (bars is (var from, var to))
        {
            var meant = piece.Bars.Where(b => b.Number >= from && b.Number <= to).Select(b => b.Index).ToList();
            (first, last) = meant.Count == 0 ? (0, -1) : (meant[0], meant[^1]);
        }
        return new(source, piece, placed with { Events = [.. placed.Events.Where(e => e.Event.Bar >= first && e.Event.Bar <= last)] },
            others ? placed.Others(first, last, Others) : None);
    }

    private static (int First, int Last)? Bars(string? text)
    {
        if (text is null)
            return null;
        var ends = text.Split('-');
        return ends.Length <= 2 && int.TryParse(ends[0], out var first) && int.TryParse(ends[^1], out var last) && first <= last ? (first, last)
            : throw new MisuseException("--bars wants a bar, or the first and the last: --bars 3-6.");
    }

    private static PlacedFileJson Told(Done done, bool others) => new(done.Source.Path, Told(done.Piece!, done.Placed!), Math.Round(done.Placed!.Cost, 3),
        [.. done.Placed.Parts.Select(p => new CostJson(p.Says, Math.Round(p.Cost, 3), done.Piece!.Bars[p.Bar].Number))])
    {
        Others = others ? [.. done.Others.Near.Select(o => new OtherPlacementJson(Told(done.Piece!, o), Math.Round(o.Cost, 3)))] : null,
        OthersLeftOut = others ? done.Others.LeftOut : null,
    };

    private static IReadOnlyList<PlacedEventJson> Told(Piece piece, PlacedPiece placed) =>
    [
        .. placed.Events.Select(e => new PlacedEventJson(piece.Bars[e.Event.Bar].Number, e.Event.Row, CountSyntax.Write(e.Event.Offset),
            [.. e.Notes.Select(n => new PlacedNoteJson(n.Note.Pitch.ToString(), n.String, n.Fret, n.Fret == 0 ? "0" : n.Finger?.Written()))], e.Given) { Unheld = e.Unheld?.Why() }),
    ];

    private static void Write(PlacedFileJson file, Terminal terminal)
    {
        terminal.Out.WriteLine(Terminal.Harmless(file.Path));
        Write(file.Events, terminal);
        var dear = file.Parts.Where(p => p.Cost > 0).Take(3).Select(p => $"{p.Says} (most in {(p.Bar == 0 ? "the pickup" : $"bar {p.Bar}")})").ToList();
        if (dear.Count > 0)
            terminal.Out.WriteLine($"  What costs the hand most: {string.Join("; ", dear)}.");
        foreach (var (e, why) in file.Events.Where(e => e.Unheld is not null).DistinctBy(e => (e.Bar, e.Count, e.Unheld)).Select(e => (e, e.Unheld)))
            terminal.Out.WriteLine($"  Not a placement: {(e.Bar == 0 ? "pickup" : $"bar {e.Bar}")}, count {e.Count}. {why} {(e.Given ? "Change the grip." : "It is not written into the file: leave a note out, move one by an octave, or strike them one after the other.")}");
        var open = file.Events.Where(e => e.Unheld is null && e.Notes.Any(n => n is { Fret: > 0, Finger: null })).Select(e => (e.Bar, e.Count)).Distinct()
            .Select(e => $"{(e.Bar == 0 ? "pickup" : $"bar {e.Bar}")}, count {e.Count}").ToList();
        if (open.Count > 0)
            terminal.Out.WriteLine($"  No fingering was found for {string.Join("; ", open)}: choose another grip there, let a note end sooner, or leave one out.");
        for (var i = 0; i < file.Others?.Count; i++)
        {
            var frets = file.Others[i].Events.SelectMany(e => e.Notes).Where(n => n.Fret > 0).Select(n => n.Fret!.Value).ToList();
            terminal.Out.WriteLine($"  Other placement {i + 1}: {(frets.Count == 0 ? "open strings" : $"frets {frets.Min()} to {frets.Max()}")}, costs {file.Others[i].CostsMore:0.0} more");
            Write(file.Others[i].Events, terminal);
        }
        if (file.Others is { Count: < Others } few)
            terminal.Out.WriteLine(few.Count == 0 ? $"  No other placement is worth a try here{(file.OthersLeftOut > 0 ? ": all cost the hand out of proportion" : "")}."
                : $"  No more placements are offered{(file.OthersLeftOut > 0 ? ": the others cost the hand out of proportion" : "; there are no others")}.");
        terminal.Out.WriteLine($"  {Caution.Text}\n");
    }

    private static void Write(IReadOnlyList<PlacedEventJson> events, Terminal terminal)
    {
        foreach (var e in events)
            terminal.Out.WriteLine($"  {(e.Bar == 0 ? "pickup" : $"bar {e.Bar}")}, count {e.Count}, row {e.Row}: {string.Join(", ", e.Notes.Select(Spoken))}{(e.Given ? " (as written)" : "")}{(e.Unheld is null ? "" : " (no hand holds this)")}");
    }

    private static string Spoken(PlacedNoteJson n) => n is not { String: { } s, Fret: { } fret } ? $"no place was found for {n.Pitch}"
        : fret == 0 ? $"{n.Pitch} open string {s}" : $"{n.Pitch} string {s} fret {fret}{(n.Finger is { } f ? $" finger {f}" : "")}";
}
