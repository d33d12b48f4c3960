// Semantic tokens: of a document, of a stretch, and what changed since the last time.
using System.Collections.Concurrent;
using ChordLang.Features.Colours;
using ChordLang.Grammar.Syntax;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about colours.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface IColoursMessages
{
    [JsonRpcMethod("textDocument/semanticTokens/full", UseSingleObjectParameterDeserialization = true)]
    SemanticTokens? Full(DocumentParams p, CancellationToken cancel);

    [JsonRpcMethod("textDocument/semanticTokens/full/delta", UseSingleObjectParameterDeserialization = true)]
    object? Delta(SemanticTokensDeltaParams p, CancellationToken cancel);

    [JsonRpcMethod("textDocument/semanticTokens/range", UseSingleObjectParameterDeserialization = true)]
    SemanticTokens? Range(RangeParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class ColoursHandler(Conversation c) : Handler, IColoursMessages
{
    private const int Numbers = 5, Declaration = 1;

    // The last answer of each open document, to tell what changed since.
    private readonly ConcurrentDictionary<string, SemanticTokens> last = new(StringComparer.Ordinal);

    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<IColoursMessages>();

    public override void Offer(ServerCapabilities offered)
    {
        if (c.Client.Has("textDocument.semanticTokens"))
            offered.SemanticTokensProvider = new(SemanticTokensLegend.Ours, new(true), true);
    }

    public override void Closed(string uri) => last.TryRemove(uri, out _);

    public SemanticTokens? Full(DocumentParams p, CancellationToken cancel) => c.On(p.TextDocument, d => last[d.Uri] = Coloured(d, 0, d.Text.Lines.Length - 1) with { ResultId = $"{d.Stamp}" }, cancel);

    // Where the result that the client holds is not known any more, it gets the whole.
    public object? Delta(SemanticTokensDeltaParams p, CancellationToken cancel) => c.On<object>(p.TextDocument, d =>
    {
        var before = last.TryGetValue(d.Uri, out var old) && old.ResultId == p.PreviousResultId ? old : null;
        var now = last[d.Uri] = Coloured(d, 0, d.Text.Lines.Length - 1) with { ResultId = $"{d.Stamp}" };
        return before is null ? now : new SemanticTokensDelta(now.ResultId!, Changes(before.Data, now.Data));
    }, cancel);

    public SemanticTokens? Range(RangeParams p, CancellationToken cancel) => c.On(p.TextDocument, d =>
    {
        var span = d.Positions.Span(p.Range);
        return Coloured(d, d.Text.LineAt(span.Start), d.Text.LineAt(span.End));
    }, cancel);

    private static SemanticTokens Coloured(Document d, int firstLine, int lastLine)
    {
        var data = new List<int>((lastLine - firstLine + 1) * 4 * Numbers);
        var (line, before) = (0, 0);
        foreach (var word in ColoursOf.Lines(d.Lesson.Tree, firstLine, lastLine))
        {
            if (word.Line != line)
                before = d.Text.Lines[word.Line].Start;
            data.AddRange([word.Line - line, d.Positions.Units(before, word.Span.Start), d.Positions.Units(word.Span.Start, word.Span.End), Type(word), word.Defines ? Declaration : 0]);
            (line, before) = (word.Line, word.Span.Start);
        }
        return new([.. data]);
    }

    // The one stretch between what is the same at the beginning and at the end.
    private static IReadOnlyList<SemanticTokensEdit> Changes(int[] old, int[] now)
    {
        var (head, tail) = (0, 0);
        while (head < old.Length && head < now.Length && old[head] == now[head])
            head++;
        while (tail < old.Length - head && tail < now.Length - head && old[^(tail + 1)] == now[^(tail + 1)])
            tail++;
        return head == old.Length && head == now.Length ? [] : [new(head, old.Length - head - tail, now[head..^tail])];
    }

    // Indices of SemanticTokensLegend.Ours.
    private static int Type(ColouredWord word) => word.Comment ? 9 : word.Kind switch
    {
        TokenKind.Keyword or TokenKind.SoundWord => 0,
        TokenKind.Label => 1,
        TokenKind.Count or TokenKind.Operand => 2,
        TokenKind.Bar or TokenKind.ChartSign or TokenKind.EqualSign or TokenKind.Opener => 3,
        TokenKind.Symbol => 4,
        TokenKind.Pitch => 5,
        // What stands for places on the strings has one colour: frets, and the names of shapes.
        TokenKind.Frets or TokenKind.Name => 6,
        TokenKind.Mark => 7,
        _ => 8,
    };
}
