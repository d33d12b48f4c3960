// The canonical text: of a document, of a stretch of it.
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
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

    [JsonRpcMethod("textDocument/onTypeFormatting", UseSingleObjectParameterDeserialization = true)]
    IReadOnlyList<TextEditItem>? OnTypeFormatting(OnTypeFormattingParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class FormattingHandler(Conversation c) : Handler, IFormattingMessages
{
    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<IFormattingMessages>();

    public override void Offer(ServerCapabilities offered) =>
        (offered.DocumentFormattingProvider, offered.DocumentRangeFormattingProvider, offered.DocumentOnTypeFormattingProvider) = (true, true, new("\n"));

    public IReadOnlyList<TextEditItem>? Formatting(DocumentParams p, CancellationToken cancel) =>
        c.On(p.TextDocument, d => Answers.Edits(d, Formatter.Format(d.Lesson.Tree)), cancel);

    public IReadOnlyList<TextEditItem>? RangeFormatting(RangeParams p, CancellationToken cancel) => c.On(p.TextDocument, d =>
    {
        var wanted = d.Positions.Span(p.Range);
        return Lines(d, d.Text.LineAt(wanted.Start), d.Text.LineAt(wanted.End));
    }, cancel);

    // A line was ended: the bar that it belongs to, up to it, is tidied, for its rows stand under each other; the cursor's own line is left alone.
    public IReadOnlyList<TextEditItem>? OnTypeFormatting(OnTypeFormattingParams p, CancellationToken cancel) => c.At<IReadOnlyList<TextEditItem>>(p.TextDocument, p.Position, (d, offset) =>
    {
        var last = d.Text.LineAt(offset) - 1;
        var first = last;
        while (first > 0 && d.Lesson.Tree.Lines[first] is RowLine or CommentLine)
            first--;
        return last < 0 ? [] : Lines(d, first, last);
    }, cancel);

    private static IReadOnlyList<TextEditItem> Lines(Document d, int first, int last)
    {
        var (start, end) = (d.Text.Lines[first].Start, d.Text.Lines[last].End);
        return Answers.Edits(d, Formatter.Format(d.Lesson.Tree).Where(e => e.Span.Start >= start && e.Span.End <= end));
    }
}
