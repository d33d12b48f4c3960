// Inlay hints, each kind as the user chose.
using ChordLang.Features.Hints;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about hints.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface IHintsMessages
{
    [JsonRpcMethod("textDocument/inlayHint", UseSingleObjectParameterDeserialization = true)]
    IReadOnlyList<InlayHint>? Hints(RangeParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class HintsHandler(Conversation c) : Handler, IHintsMessages
{
    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<IHintsMessages>();

    public override void Offer(ServerCapabilities offered)
    {
        if (c.Client.Has("textDocument.inlayHint"))
            offered.InlayHintProvider = new(false);
    }

    public IReadOnlyList<InlayHint>? Hints(RangeParams p, CancellationToken cancel) => c.On<IReadOnlyList<InlayHint>>(p.TextDocument, d =>
        [.. HintsIn.Of(d.Near(new(p.Range.Start.Line, p.Range.End.Line)), d.Positions.Span(p.Range), c.Choices.Hints).Select(h => new InlayHint(d.Positions.At(h.Offset), h.Text, !h.Before, h.Before, new("plaintext", h.Says)))], cancel);
}
