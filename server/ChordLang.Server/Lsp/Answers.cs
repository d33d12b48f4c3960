// Turns what the features say into the protocol's records.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Features.Hovers;
using ChordLang.Grammar.Text;
using ChordLang.Server.Lsp.Protocol;

namespace ChordLang.Server.Lsp;

/// <summary>Answers for one client: its capabilities decide between the forms that the protocol allows.</summary>
internal sealed class Answers(Client client)
{
    private readonly bool markdown = client.Words("textDocument.hover.contentFormat").DefaultIfEmpty("markdown").First() == "markdown";
    private readonly bool versioned = client.Can("workspace.workspaceEdit.documentChanges");
    private readonly bool related = client.Can("textDocument.publishDiagnostics.relatedInformation") || client.Can("textDocument.diagnostic.relatedInformation");
    private readonly string? pages = client.Option("pages");
    private readonly bool pictures = client.Asks("pictures");

    /// <summary>The findings of a document.</summary>
    public IReadOnlyList<Diagnostic> Diagnostics(Document document) => Diagnostics(document, document.Lesson.Findings);

    /// <summary>Some findings of a document.</summary>
    public IReadOnlyList<Diagnostic> Diagnostics(Document document, IEnumerable<Finding> findings) => [.. findings.Select(f => Diagnostic(document, f))];

    /// <summary>One finding.</summary>
    public Diagnostic Diagnostic(Document document, Finding f) => new(
        document.Range(f.Span), (int)f.Severity + 1, f.Code, "chordlang", f.Message, new(f.Bar, f.Count, f.Strings),
        Page(f.Code) is { } page ? new(page) : null, f.Code == UnusedAllow.Name ? [1] : null,
        related && !f.Related.IsEmpty ? [.. f.Related.Select(r => Related(document, r))] : null);

    /// <summary>A hover in the client's format.</summary>
    public Hover Hover(Document document, HoverText hover) =>
        new(markdown ? new("markdown", hover.Markdown(pictures)) : new("plaintext", hover.Plain()), document.Range(hover.Span));

    /// <summary>An explanation in the first format that a capability lists.</summary>
    public MarkupContent Markup(HoverText text, string capability) =>
        client.Words(capability).DefaultIfEmpty("markdown").First() == "markdown" ? new("markdown", text.Markdown(pictures)) : new("plaintext", text.Plain());

    /// <summary>Where the page of a check is, or null where the client told no place for pages.</summary>
    public string? Page(string code) => pages?.Replace("{code}", code, StringComparison.Ordinal);

    /// <summary>Edits of a document.</summary>
    public static IReadOnlyList<TextEditItem> Edits(Document document, IEnumerable<TextEdit> edits) => [.. edits.Select(e => new TextEditItem(document.Range(e.Span), e.NewText))];

    /// <summary>Edits of several documents, in the form that the client takes.</summary>
    public WorkspaceEdit Edit(IEnumerable<(string Uri, int? Version, IReadOnlyList<TextEditItem> Edits)> edits) => versioned
        ? new(DocumentChanges: [.. edits.Select(e => new TextDocumentEdit(new(e.Uri, e.Version), e.Edits))])
        : new(Changes: edits.ToDictionary(e => e.Uri, e => e.Edits));

    /// <summary>Edits of one document.</summary>
    public WorkspaceEdit Edit(Document document, IEnumerable<TextEdit> edits) => Edit([(document.Uri, document.Version, Edits(document, edits))]);

    // A place in another file: its lines are not at hand here, so it is the start of that file.
    private static DiagnosticRelatedInformation Related(Document document, Related r) => r.Path is null || document.Path is null
        ? new(new(document.Uri, document.Range(r.Span)), r.Message)
        : new(new(UriOf(Path.Combine(Path.GetDirectoryName(document.Path)!, r.Path)), new(new(0, 0), new(0, 0))), r.Message);

    /// <summary>The URI of a full path.</summary>
    public static string UriOf(string path) => new Uri(Path.GetFullPath(path)).AbsoluteUri;
}
