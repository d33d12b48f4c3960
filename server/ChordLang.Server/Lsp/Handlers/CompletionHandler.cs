// Completion, its explanations, and the form of what is being typed.
using System.Text.Json;
using ChordLang.Features.Completions;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about typing on.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface ICompletionMessages
{
    [JsonRpcMethod("textDocument/completion", UseSingleObjectParameterDeserialization = true)]
    CompletionList? Completion(PositionParams p, CancellationToken cancel);

    [JsonRpcMethod("completionItem/resolve", UseSingleObjectParameterDeserialization = true)]
    CompletionItem Resolve(CompletionItem item, CancellationToken cancel);

    [JsonRpcMethod("textDocument/signatureHelp", UseSingleObjectParameterDeserialization = true)]
    SignatureHelp? Signature(PositionParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class CompletionHandler(Conversation c) : Handler, ICompletionMessages
{
    private const int Plain = 1, Snippet = 2;

    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<ICompletionMessages>();

    public override void Offer(ServerCapabilities offered)
    {
        offered.CompletionProvider = new(["|", " ", "(", ",", "/", "\"", "@"], true);
        offered.SignatureHelpProvider = new(["(", ",", " "]);
    }

    // Incomplete, for typing on opens other proposals: modifiers behind a quality, finer counts behind a number.
    public CompletionList? Completion(PositionParams p, CancellationToken cancel) => c.At(p.TextDocument, p.Position, (d, offset) =>
    {
        var snippets = c.Client.Can("textDocument.completion.completionItem.snippetSupport");
        var proposals = CompletionsAt.Of(d.LessonAt(offset), offset, c.Choices, new LibraryNames(c, d));
        return new CompletionList(true, [.. proposals.Select((proposal, i) => Item(d, proposal, i, snippets))]);
    }, cancel);

    public CompletionItem Resolve(CompletionItem item, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        return c.Documents.Find(item.Data.Uri) is { } d && Math.Clamp(item.Data.Offset, 0, d.Text.Length) is var at
            && ProposalText.Of(d.LessonAt(at), (ProposalKind)item.Data.Kind, item.Data.Text, at) is { } text
            ? item with { Documentation = c.Answers.Markup(text, "textDocument.completion.completionItem.documentationFormat") } : item;
    }

    public SignatureHelp? Signature(PositionParams p, CancellationToken cancel) => c.At(p.TextDocument, p.Position, (d, offset) => SignatureAt.Of(d.LessonAt(offset), offset) is not { } s ? null
        : new SignatureHelp([new(s.Form, new("plaintext", s.Says), [.. s.Parts.Select(part => new ParameterInformation(Label(s.Form, part.Start, part.End), new("plaintext", part.Says)))])], 0, s.Active), cancel);

    private JsonElement Label(string form, int start, int end) => c.Client.Can("textDocument.signatureHelp.signatureInformation.parameterInformation.labelOffsetSupport")
        ? JsonSerializer.SerializeToElement([start, end], TypingJson.Default.Int32Array) : JsonSerializer.SerializeToElement(form[start..end], LspJson.Default.String);

    private static CompletionItem Item(Document d, Proposal p, int place, bool snippets)
    {
        var snippet = snippets && p.Snippet is not null;
        return new(p.Text, new(d.Uri, (int)p.Kind, p.Text, p.Replaces.Start), Kind(p.Kind), $"{place:D5}", p.Text, snippet ? Snippet : Plain, new(d.Range(p.Replaces), snippet ? p.Snippet! : p.Text), p.Detail);
    }

    // The protocol's kinds are those of programs; these are the ones whose pictures mislead least.
    private static int Kind(ProposalKind kind) => kind switch
    {
        ProposalKind.Chord => 7, ProposalKind.Part => 24, ProposalKind.Voicing => 21, ProposalKind.Shape => 22, ProposalKind.Pitch => 6, ProposalKind.Count => 12, ProposalKind.Mark => 14,
        ProposalKind.Word or ProposalKind.Opener => 14, ProposalKind.Voice => 5, ProposalKind.Section => 9, ProposalKind.File => 17, ProposalKind.Check => 18, _ => 12,
    };

    // Worked out only where a line asks for it.
    private sealed class LibraryNames(Conversation c, Document d) : ILibraryNames
    {
        public IEnumerable<string> Files => d.Path is null ? [] : c.Index.Lessons.Where(l => l.Path != d.Path && l.Names.Any(n => n.Kind == Features.Outlines.PartKind.Shape) && Same(l.Path))
            .Select(l => Path.GetRelativePath(Path.GetDirectoryName(d.Path)!, l.Path).Replace('\\', '/'));

        public IEnumerable<string> Tags => c.Index.Lessons.SelectMany(l => l.Tags).GroupBy(t => t).OrderByDescending(g => g.Count()).Select(g => g.Key);

        private bool Same(string path) => LessonIndex.Holds(Workspace.Library.RootOf(d.Path!), path);
    }
}
