// Lenses: above each shape, how often it is played, here and in the lessons that share it; above the first bar, what to practise.
using ChordLang.Checks.Practice;
using ChordLang.Features.Names;
using ChordLang.Features.Outlines;
using ChordLang.Features.Practice;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about lenses.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface ILensMessages
{
    [JsonRpcMethod("textDocument/codeLens", UseSingleObjectParameterDeserialization = true)]
    IReadOnlyList<CodeLens>? Lenses(DocumentParams p, CancellationToken cancel);

    [JsonRpcMethod("codeLens/resolve", UseSingleObjectParameterDeserialization = true)]
    Task<CodeLens> Resolve(CodeLens lens, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class LensHandler(Conversation c) : Handler, ILensMessages
{
    private readonly SharedNames shared = new(c);

    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<ILensMessages>();

    public override void Offer(ServerCapabilities offered)
    {
        if (c.Client.Has("textDocument.codeLens"))
            offered.CodeLensProvider = new(true);
    }

    public IReadOnlyList<CodeLens>? Lenses(DocumentParams p, CancellationToken cancel) => c.On<IReadOnlyList<CodeLens>>(p.TextDocument, d => !c.Choices.Lenses ? []
        : [.. OutlineOf.Lesson(d.Lesson.Chart).Where(part => part.Kind == PartKind.Shape).Select(part => new CodeLens(d.Range(part.Selection), new(d.Uri, d.Text[part.Selection]))), .. Practised(d)], cancel);

    // Above the first bar, where there is a choice of bars to practise.
    private static IEnumerable<CodeLens> Practised(Document d) => d.Lesson.Chart.Piece.Bars is { Length: > 1 } bars && bars.Count(b => !b.Rows.IsEmpty) > 1 ? [new(d.Range(bars[0].Span), new(d.Uri, null))] : [];

    public async Task<CodeLens> Resolve(CodeLens lens, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        if (lens.Data is not { } data || c.Documents.Find(data.Uri) is not { } document)
            return lens with { Command = new("", "") };
        if (data.Shape is null)
            return lens with { Command = new(PracticeSpots.Of(document.Lesson.Piece, document.Lesson.Library) is [var hardest, ..] ? $"practise {PracticeLines.Bars(hardest).ToLowerInvariant()}: likely the hardest" : "nothing to practise for the left hand", "") };
        var name = new NamePlace(NameKind.Shape, data.Shape, default, true);
        var counts = (await shared.Sharing(document, name, cancel).ConfigureAwait(false))
            .Select(d => (d.Uri, Uses: NamePlaces.Of(d.Lesson, NameKind.Shape, data.Shape).Count(n => !n.Defines))).Where(n => n.Uses > 0).ToList();
        var (here, others) = (counts.Where(n => n.Uri == data.Uri).Sum(n => n.Uses), counts.Count(n => n.Uri != data.Uri));
        var title = here == 0 && others == 0 ? "not played yet" : $"played {(here == 1 ? "once" : here == 2 ? "twice" : $"{here} times")} here{(others == 0 ? "" : $", and in {others} other {(others == 1 ? "lesson" : "lessons")}")}";
        return lens with { Command = new(title, "") };
    }
}
