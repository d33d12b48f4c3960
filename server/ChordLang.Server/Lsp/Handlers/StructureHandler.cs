// Folds, growing selections and links.
using ChordLang.Features.Structure;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about the structure of a document.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface IStructureMessages
{
    [JsonRpcMethod("textDocument/foldingRange", UseSingleObjectParameterDeserialization = true)]
    IReadOnlyList<FoldingRange>? Folds(DocumentParams p, CancellationToken cancel);

    [JsonRpcMethod("textDocument/selectionRange", UseSingleObjectParameterDeserialization = true)]
    IReadOnlyList<SelectionRange>? Selections(SelectionRangeParams p, CancellationToken cancel);

    [JsonRpcMethod("textDocument/documentLink", UseSingleObjectParameterDeserialization = true)]
    IReadOnlyList<DocumentLink>? Links(DocumentParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class StructureHandler(Conversation c) : Handler, IStructureMessages
{
    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<IStructureMessages>();

    public override void Offer(ServerCapabilities offered) => (offered.FoldingRangeProvider, offered.SelectionRangeProvider, offered.DocumentLinkProvider) = (true, true, new(false));

    public IReadOnlyList<FoldingRange>? Folds(DocumentParams p, CancellationToken cancel) => c.On<IReadOnlyList<FoldingRange>>(p.TextDocument, d =>
    {
        var shown = c.Client.Can("textDocument.foldingRange.foldingRange.collapsedText");
        var folds = FoldsOf.Lesson(shown ? d.Lesson.Chart : d.Lesson, shown);
        var most = c.Client.Number("textDocument.foldingRange.rangeLimit") is { } limit and > 0 ? limit : folds.Length;
        return [.. folds.Take(most).Select(f => new FoldingRange(f.FirstLine, f.LastLine, f.Kind == FoldKind.Comment ? "comment" : null, shown ? f.Shown : null))];
    }, cancel);

    public IReadOnlyList<SelectionRange>? Selections(SelectionRangeParams p, CancellationToken cancel) => c.On<IReadOnlyList<SelectionRange>>(p.TextDocument, d =>
        [.. p.Positions.Select(d.Positions.Offset).Select(at => SelectionsAt.Of(d.LessonAt(at), at).Reverse().Aggregate((SelectionRange?)null, (outer, span) => new(d.Range(span), outer))!)], cancel);

    public IReadOnlyList<DocumentLink>? Links(DocumentParams p, CancellationToken cancel) => c.On<IReadOnlyList<DocumentLink>>(p.TextDocument, d =>
    {
        var says = c.Client.Can("textDocument.documentLink.tooltipSupport");
        return [.. LinksOf.Lesson(d.Lesson).Select(l => (Link: l, Target: l.File is { } file ? Documents.FileOf(d, file) is { } path ? Answers.UriOf(path) : null : c.Answers.Page(l.Check!)))
            .Where(l => l.Target is not null).Select(l => new DocumentLink(d.Range(l.Link.Span), l.Target, says ? l.Link.Says : null))];
    }, cancel);
}
