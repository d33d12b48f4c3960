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

