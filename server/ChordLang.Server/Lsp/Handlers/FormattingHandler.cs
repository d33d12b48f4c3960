// The canonical text: of a document, of a stretch of it.
using ChordLang.Grammar.Formatting;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about formatting.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface IFormattingMessages
{
    [JsonRpcMethod("textDocument/formatting", UseSingleObjectParameterDeserialization = true)]
    IReadOnlyList<TextEditItem>? Formatting(DocumentParams p, CancellationToken cancel);

    [JsonRpcMethod("textDocument/rangeFormatting", UseSingleObjectParameterDeserialization = true)]
    IReadOnlyList<TextEditItem>? RangeFormatting(RangeParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class FormattingHandler(Conversation c) : Handler, IFormattingMessages
{
    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<IFormattingMessages>();

    public override void Offer(ServerCapabilities offered) => (offered.DocumentFormattingProvider, offered.DocumentRangeFormattingProvider) = (true, true);

    public IReadOnlyList<TextEditItem>? Formatting(DocumentParams p, CancellationToken cancel) =>
        c.On(p.TextDocument, d => Answers.Edits(d, Formatter.Format(d.Lesson.Tree)), cancel);

    public IReadOnlyList<TextEditItem>? RangeFormatting(RangeParams p, CancellationToken cancel) => c.On(p.TextDocument, d =>
    {
        var wanted = d.Positions.Span(p.Range);
        var (first, last) = (d.Text.Lines[d.Text.LineAt(wanted.Start)].Start, d.Text.Lines[d.Text.LineAt(wanted.End)].End);
        return Answers.Edits(d, Formatter.Format(d.Lesson.Tree).Where(e => e.Span.Start >= first && e.Span.End <= last));
    }, cancel);
}
