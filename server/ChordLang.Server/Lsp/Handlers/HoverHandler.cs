// Hovers.
using ChordLang.Features.Hovers;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about hovers.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface IHoverMessages
{
    [JsonRpcMethod("textDocument/hover", UseSingleObjectParameterDeserialization = true)]
    Hover? Hover(PositionParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class HoverHandler(Conversation c) : Handler, IHoverMessages
{
    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<IHoverMessages>();

    public override void Offer(ServerCapabilities offered) => offered.HoverProvider = true;

    public Hover? Hover(PositionParams p, CancellationToken cancel) =>
        c.At(p.TextDocument, p.Position, (d, offset) => HoverAt.Of(d.LessonAt(offset), offset) is { } hover ? c.Answers.Hover(d, hover) : null, cancel);
}
