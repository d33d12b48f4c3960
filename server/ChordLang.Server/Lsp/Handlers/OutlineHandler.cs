// The parts of a document and of the library.
using ChordLang.Features.Outlines;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about parts.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface IOutlineMessages
{
    [JsonRpcMethod("textDocument/documentSymbol", UseSingleObjectParameterDeserialization = true)]
    object? DocumentSymbols(DocumentParams p, CancellationToken cancel);

    [JsonRpcMethod("workspace/symbol", UseSingleObjectParameterDeserialization = true)]
    Task<SymbolInformation[]> WorkspaceSymbols(WorkspaceSymbolParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class OutlineHandler(Conversation c) : Handler, IOutlineMessages
{
    private const int MostAnswers = 500, File = 1;

    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<IOutlineMessages>();

    public override void Offer(ServerCapabilities offered) => (offered.DocumentSymbolProvider, offered.WorkspaceSymbolProvider) = (true, new(true));

    // The protocol has two forms of answer: a tree for clients that know it, a flat list for others.
    public object? DocumentSymbols(DocumentParams p, CancellationToken cancel) => c.On<object>(p.TextDocument, d =>
    {
        var parts = OutlineOf.Lesson(d.Lesson.Chart);
        return c.Client.Can("textDocument.documentSymbol.hierarchicalDocumentSymbolSupport") ? parts.Select(part => Tree(d, part)).ToArray() : parts.SelectMany(part => Flat(d, part, null)).ToArray();
    }, cancel);

    public async Task<SymbolInformation[]> WorkspaceSymbols(WorkspaceSymbolParams p, CancellationToken cancel)
    {
        var open = c.Documents.All.ToList();
        await using var progress = await Progress.Begin(c.Client, p.WorkDoneToken, "Looking through the library").ConfigureAwait(false);
        await c.Index.Whole.WaitAsync(cancel).ConfigureAwait(false);
        var here = open.SelectMany(d => OutlineOf.Lesson(d.Lesson).Where(part => part.Kind != PartKind.Bar)
            .Select(part => new SymbolInformation(part.Name, Kind(part.Kind), new(d.Uri, d.Range(part.Selection)), Title(d)))
            .Prepend(new(Title(d), File, new(d.Uri, new(new(0, 0), new(0, 0))), null)));
        var there = c.Index.Lessons.Where(l => open.All(d => d.Path != l.Path)).SelectMany(Indexed);
        return [.. here.Concat(there).Where(s => Matches(s, p.Query)).Take(MostAnswers)];
    }

    private static IEnumerable<SymbolInformation> Indexed(IndexedLesson lesson)
    {
        var uri = Answers.UriOf(lesson.Path);
        return lesson.Names.Select(n => new SymbolInformation($"{(n.Kind == PartKind.Shape ? "Shape" : "Section")} {n.Name}", Kind(n.Kind), new(uri, n.Range), lesson.Title))
            .Prepend(new(lesson.Title, File, new(uri, new(new(0, 0), new(0, 0))), null));
    }

    private static string Title(Document d) => d.Lesson.Piece.Title ?? (d.Path is null ? d.Uri : Path.GetFileNameWithoutExtension(d.Path));

    // The letters of the query in their order, in the name or its title, capitals or not; as clients narrow the list themselves.
    private static bool Matches(SymbolInformation symbol, string query)
    {
        var (text, at) = ($"{symbol.Name} {symbol.ContainerName}", 0);
        foreach (var letter in query)
        {
            if (char.IsWhiteSpace(letter))
                continue;
            at = text.IndexOf($"{letter}", at, StringComparison.OrdinalIgnoreCase) + 1;
            if (at == 0)
                return false;
        }
        return true;
    }

    private static DocumentSymbol Tree(Document d, OutlinePart part) =>
        new(part.Name, part.Detail, Kind(part.Kind), d.Range(part.Span), d.Range(part.Selection), part.Parts.IsEmpty ? null : [.. part.Parts.Select(inner => Tree(d, inner))]);

    private static IEnumerable<SymbolInformation> Flat(Document d, OutlinePart part, string? container) =>
        part.Parts.SelectMany(inner => Flat(d, inner, part.Name)).Prepend(new(part.Name, Kind(part.Kind), new(d.Uri, d.Range(part.Span)), container));

    private static int Kind(PartKind kind) => kind switch { PartKind.Section => 3, PartKind.Shape => 23, _ => 19 };
}
