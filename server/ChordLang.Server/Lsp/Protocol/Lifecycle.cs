// How a session of the Language Server Protocol begins: who the client is, what we offer.
using System.Text.Json;

namespace ChordLang.Server.Lsp.Protocol;

/// <summary>What the client says of itself. Its capabilities are read by path, see <see cref="Client"/>.</summary>
internal sealed record InitializeParams(int? ProcessId = null, JsonElement? Capabilities = null, JsonElement? InitializationOptions = null);

/// <summary>What we answer.</summary>
internal sealed record InitializeResult(ServerCapabilities Capabilities, ServerInfo ServerInfo);

/// <inheritdoc cref="InitializeResult"/>
internal sealed record ServerInfo(string Name, string Version);

/// <summary>What we offer.</summary>
internal sealed record ServerCapabilities
{
    public required string PositionEncoding { get; init; }
    public TextDocumentSyncOptions TextDocumentSync { get; init; } = new(true, 2);
    public bool HoverProvider { get; init; } = true;
    public bool DocumentFormattingProvider { get; init; } = true;
    public bool DocumentRangeFormattingProvider { get; init; } = true;

    /// <summary>Set for a client that asks for diagnostics; all others are sent them.</summary>
    public DiagnosticOptions? DiagnosticProvider { get; init; }
}

/// <summary>Change: 2 = incremental.</summary>
internal sealed record TextDocumentSyncOptions(bool OpenClose, int Change);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record CompletionOptions(IReadOnlyList<string> TriggerCharacters);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record CodeActionOptions(IReadOnlyList<string> CodeActionKinds);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record RenameOptions(bool PrepareProvider);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record SemanticTokensOptions(SemanticTokensLegend Legend, bool Full, bool Range);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record DiagnosticOptions(string Identifier, bool InterFileDependencies, bool WorkspaceDiagnostics);

/// <summary>The words that numbers in semantic tokens stand for.</summary>
internal sealed record SemanticTokensLegend(IReadOnlyList<string> TokenTypes, IReadOnlyList<string> TokenModifiers)
{
    /// <summary>Standard token types only, so that every theme has a colour for them.</summary>
    public static SemanticTokensLegend Ours { get; } = new(["keyword", "parameter", "number", "operator", "type", "variable", "function", "decorator", "string", "comment"], []);
}

/// <summary>A document was opened.</summary>
internal sealed record DidOpenParams(TextDocumentItem TextDocument);

/// <inheritdoc cref="DidOpenParams"/>
internal sealed record TextDocumentItem(string Uri, string LanguageId, int Version, string Text);

/// <summary>A document was changed.</summary>
internal sealed record DidChangeParams(VersionedTextDocumentIdentifier TextDocument, IReadOnlyList<ContentChange> ContentChanges);

/// <summary>One change, to be applied after the ones before it; without a range, the whole text.</summary>
internal sealed record ContentChange(string Text, TextRange? Range = null);
