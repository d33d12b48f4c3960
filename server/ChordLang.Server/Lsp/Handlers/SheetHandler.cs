// The sheet of a document while it is written: only parts that look otherwise than before are drawn and sent; what it sounds is sent when it is asked for.
using System.Collections.Concurrent;
using ChordLang.Arrangement.Placing;
using ChordLang.Features.Lessons;
using ChordLang.Features.Sheets;
using ChordLang.Interchange.Sheet;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about sheets; our own, so a client asks only where it knows of them.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface ISheetMessages
{
    [JsonRpcMethod("chordlang/sheet", UseSingleObjectParameterDeserialization = true)]
    SheetAnswer? Sheet(SheetParams p, CancellationToken cancel);

    [JsonRpcMethod("chordlang/heard", UseSingleObjectParameterDeserialization = true)]
    HeardAnswer? Heard(HeardParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class SheetHandler(Conversation c) : Handler, ISheetMessages
{
    private readonly ConcurrentDictionary<string, (PlacedPiece Placed, LiveSheet Sheet)> drawn = new(StringComparer.Ordinal);

    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<ISheetMessages>();

    public override void Closed(string uri) => drawn.TryRemove(uri, out _);

    public SheetAnswer? Sheet(SheetParams p, CancellationToken cancel) => c.On(p.TextDocument, d =>
    {
        var piece = d.Lesson.Piece;
        var before = drawn.GetValueOrDefault(d.Uri);
        var placed = PlacedPiece.Of(piece, piece.Settings.Hand, before: before.Placed);
        var sheet = LiveSheet.Of(piece, placed, Options(p, d.Lesson), before.Sheet);
        drawn[d.Uri] = (placed, sheet);
        var known = (p.Known ?? []).ToHashSet(StringComparer.Ordinal);
        return new SheetAnswer(d.Version, known.Contains(sheet.Look) ? new(sheet.Look) : new(sheet.Look, sheet.Style, sheet.Signs), [.. sheet.Parts.Select(part => Part(part, known.Contains(part.Id)))]);
    }, cancel);

    public HeardAnswer? Heard(HeardParams p, CancellationToken cancel) => c.On(p.TextDocument, d =>
    {
        var piece = d.Lesson.Piece;
        var practise = SheetWords.Practise(piece, d.Lesson.Library);
        return new HeardAnswer(d.Version, PlayedThrough.Of(piece).Json(), [.. piece.Bars.Where(b => practise.Contains(b.Number)).Select(b => new PractiseWords(b.Index, SheetPage.PractiseWords(b)))]);
    }, cancel);

    private static SheetOptions Options(SheetParams p, Lesson lesson) => new()
    {
        Sound = true,
        Large = p.Large == true,
        Width = p.Width ?? 0,
        UnderChords = p.Numerals == true ? SheetWords.Numerals(lesson.Harmony.Written, lesson.Harmony.Functions) : new Dictionary<int, string>(),
        Skeleton = p.Skeleton == true ? SheetWords.Remaining(lesson.Harmony.Written, lesson.Harmony.Skeleton) : new HashSet<int>(),
    };

    private static SheetPart Part(LivePart part, bool known) => part.Line is not { } line ? new(part.Id, known ? null : part.Html)
        : new(part.Id, null, known ? new(line.From, line.To, line.Name) : new(line.From, line.To, line.Name, line.Svg, line.Spoken, line.Margin));
}
