// Names: where one is given, who uses it, and another one in its place, in all lessons that share it.
using ChordLang.Features.Names;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about names.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface INamesMessages
{
    [JsonRpcMethod("textDocument/definition", UseSingleObjectParameterDeserialization = true)]
    IReadOnlyList<Location>? Definition(PositionParams p, CancellationToken cancel);

    [JsonRpcMethod("textDocument/references", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<Location>?> References(ReferenceParams p, CancellationToken cancel);

    [JsonRpcMethod("textDocument/documentHighlight", UseSingleObjectParameterDeserialization = true)]
    IReadOnlyList<DocumentHighlight>? Highlight(PositionParams p, CancellationToken cancel);

    [JsonRpcMethod("textDocument/prepareRename", UseSingleObjectParameterDeserialization = true)]
    PrepareRenameResult? PrepareRename(PositionParams p, CancellationToken cancel);

    [JsonRpcMethod("textDocument/rename", UseSingleObjectParameterDeserialization = true)]
    Task<WorkspaceEdit?> Rename(RenameParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class NamesHandler(Conversation c) : Handler, INamesMessages
{
    private const int RequestFailed = -32803, Read = 2, Write = 3;
    private readonly SharedNames shared = new(c);

    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<INamesMessages>();

    public override void Offer(ServerCapabilities offered)
    {
        (offered.DefinitionProvider, offered.ReferencesProvider, offered.DocumentHighlightProvider) = (true, true, true);
        offered.RenameProvider = new(c.Client.Can("textDocument.rename.prepareSupport"));
    }

    public IReadOnlyList<Location>? Definition(PositionParams p, CancellationToken cancel) => c.At<IReadOnlyList<Location>>(p.TextDocument, p.Position, (d, offset) =>
        NameAt.Of(d.Lesson, offset) switch
        {
            null => null,
            { Kind: NameKind.File } file => Documents.FileOf(d, file.Name) is { } path ? [new(Answers.UriOf(path), new(new(0, 0), new(0, 0)))] : null,
            { } name => shared.Definition(d, name) is var (document, place) ? [new(document.Uri, document.Range(place.Span))] : null,
        }, cancel);

    public async Task<IReadOnlyList<Location>?> References(ReferenceParams p, CancellationToken cancel)
    {
        if (Place(p.TextDocument, p.Position, cancel) is not var (document, name))
            return null;
        await using var progress = await Progress.Begin(c.Client, p.WorkDoneToken, "Looking for uses").ConfigureAwait(false);
        return [.. (await shared.Sharing(document, name, cancel).ConfigureAwait(false)).SelectMany(d => NamePlaces.Of(d.Lesson, name.Kind, name.Name)
            .Where(n => p.Context.IncludeDeclaration || !n.Defines).Select(n => new Location(d.Uri, d.Range(n.Span))))];
    }

    public IReadOnlyList<DocumentHighlight>? Highlight(PositionParams p, CancellationToken cancel) => c.At<IReadOnlyList<DocumentHighlight>>(p.TextDocument, p.Position, (d, offset) =>
        NameAt.Of(d.Lesson, offset) is { } name ? [.. NamePlaces.Of(d.Lesson, name.Kind, name.Name).Select(n => new DocumentHighlight(d.Range(n.Span), n.Defines ? Write : Read))] : null, cancel);

    public PrepareRenameResult? PrepareRename(PositionParams p, CancellationToken cancel) => c.At(p.TextDocument, p.Position, (d, offset) =>
        Renaming.At(d.Lesson, offset) is { } name ? new PrepareRenameResult(d.Range(name.Span), name.Name) : null, cancel);

    public async Task<WorkspaceEdit?> Rename(RenameParams p, CancellationToken cancel)
    {
        if (Place(p.TextDocument, p.Position, cancel) is not var (document, name) || name.Kind == NameKind.File)
            return null;
        await using var progress = await Progress.Begin(c.Client, p.WorkDoneToken, $"Renaming {name.Name}").ConfigureAwait(false);
        var documents = await shared.Sharing(document, name, cancel).ConfigureAwait(false);
        foreach (var d in documents)
            if (Renaming.Obstacle(d.Lesson, name, p.NewName) is { } obstacle)
                throw new LocalRpcException(d.Uri == document.Uri ? obstacle : $"{Path.GetFileName(d.Path)}: {obstacle}") { ErrorCode = RequestFailed };
        return c.Answers.Edit(documents.Select(d => (d.Uri, d.Sent, Answers.Edits(d, Renaming.Edits(d.Lesson, name.Kind, name.Name, p.NewName)))).Where(e => e.Item3.Count > 0));
    }

    // Taken before anything is waited for: what the client saw when it asked.
    private (Document Document, NamePlace Name)? Place(TextDocumentIdentifier id, TextPosition position, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        return c.Documents.Find(id.Uri) is { } d && NameAt.Of(d.Lesson, d.Positions.Offset(position)) is { } name ? (d, name) : null;
    }
}
