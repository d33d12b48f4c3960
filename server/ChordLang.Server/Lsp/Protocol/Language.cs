// The records of the language features of the Language Server Protocol 3.17: only the branches that we send or read.
namespace ChordLang.Server.Lsp.Protocol;

/// <summary>A finding. Severity: 1 error, 2 warning, 3 information, 4 hint. Tags: 1 unnecessary.</summary>
internal sealed record Diagnostic(
    TextRange Range, int Severity, string Code, string Source, string Message, DiagnosticData Data, CodeDescription? CodeDescription = null,
    IReadOnlyList<int>? Tags = null, IReadOnlyList<DiagnosticRelatedInformation>? RelatedInformation = null);

/// <summary>What a client may show or hand back: bar as counted in the piece, count as written, strings to blame.</summary>
internal sealed record DiagnosticData(int? Bar, string? Count, IReadOnlyList<int> Strings);

/// <summary>Where the page of a check is.</summary>
internal sealed record CodeDescription(string Href);

/// <inheritdoc cref="Diagnostic"/>
internal sealed record DiagnosticRelatedInformation(Location Location, string Message);

/// <summary>All findings of a document.</summary>
internal sealed record PublishDiagnosticsParams(string Uri, int? Version, IReadOnlyList<Diagnostic> Diagnostics);

/// <summary>The client asks for findings.</summary>
internal sealed record DiagnosticParams(TextDocumentIdentifier TextDocument, string? PreviousResultId = null);

/// <summary>The answer: <c>full</c> with items, or <c>unchanged</c> without.</summary>
internal sealed record DiagnosticReport(string Kind, string ResultId, IReadOnlyList<Diagnostic>? Items = null);

/// <inheritdoc cref="PositionParams"/>
internal sealed record Hover(MarkupContent Contents, TextRange Range);

/// <summary>Proposals. Incomplete is always false: the list is whole.</summary>
internal sealed record CompletionList(bool IsIncomplete, IReadOnlyList<CompletionItem> Items);

/// <summary>A proposal. InsertTextFormat: 1 plain text.</summary>
internal sealed record CompletionItem(
    string Label, int Kind, string? Detail, MarkupContent? Documentation, string SortText, string FilterText, int InsertTextFormat, TextEditItem TextEdit);

/// <summary>The client asks for actions in a stretch. The ranges in the context are not trusted: some clients count bytes there.</summary>
internal sealed record CodeActionParams(TextDocumentIdentifier TextDocument, TextRange Range, CodeActionContext Context);

/// <inheritdoc cref="CodeActionParams"/>
internal sealed record CodeActionContext(IReadOnlyList<string>? Only = null);

/// <summary>An action.</summary>
internal sealed record CodeAction(string Title, string Kind, IReadOnlyList<Diagnostic>? Diagnostics, bool? IsPreferred, WorkspaceEdit Edit);

/// <summary>A part of a document. Kind: 3 namespace (section), 19 object (bar), 23 struct (shape).</summary>
internal sealed record DocumentSymbol(string Name, string? Detail, int Kind, TextRange Range, TextRange SelectionRange, IReadOnlyList<DocumentSymbol>? Children);

/// <summary>The same, flat, for clients that know no tree.</summary>
internal sealed record SymbolInformation(string Name, int Kind, Location Location, string? ContainerName);

/// <summary>A stretch that can be folded away, by lines.</summary>
internal sealed record FoldingRange(int StartLine, int EndLine, string? Kind, string? CollapsedText);

/// <summary>The client asks how a selection grows.</summary>
internal sealed record SelectionRangeParams(TextDocumentIdentifier TextDocument, IReadOnlyList<TextPosition> Positions);

/// <summary>A selection and what it grows to.</summary>
internal sealed record SelectionRange(TextRange Range, SelectionRange? Parent);

/// <summary>The client asks who uses a name.</summary>
internal sealed record ReferenceParams(TextDocumentIdentifier TextDocument, TextPosition Position, ReferenceContext Context);

/// <inheritdoc cref="ReferenceParams"/>
internal sealed record ReferenceContext(bool IncludeDeclaration);

/// <summary>A place to light up. Kind: 2 read, 3 write.</summary>
internal sealed record DocumentHighlight(TextRange Range, int Kind);

/// <summary>The client asks for a new name.</summary>
internal sealed record RenameParams(TextDocumentIdentifier TextDocument, TextPosition Position, string NewName);

/// <summary>What can be renamed here.</summary>
internal sealed record PrepareRenameResult(TextRange Range, string Placeholder);

/// <summary>Colours, five numbers a token.</summary>
internal sealed record SemanticTokens(IReadOnlyList<int> Data);

/// <summary>A hint between the words.</summary>
internal sealed record InlayHint(TextPosition Position, string Label, bool PaddingLeft, bool PaddingRight, MarkupContent? Tooltip);

/// <summary>The client asks for formatting; our form knows no options.</summary>
internal sealed record FormattingParams(TextDocumentIdentifier TextDocument);

