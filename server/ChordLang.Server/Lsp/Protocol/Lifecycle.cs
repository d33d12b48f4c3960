// How a session of the Language Server Protocol begins: who the client is, what we offer.
using System.Text.Json;

namespace ChordLang.Server.Lsp.Protocol;

/// <summary>What the client says of itself. Its capabilities are read by path, see <see cref="Client"/>.</summary>
internal sealed record InitializeParams(int? ProcessId = null, JsonElement? Capabilities = null, JsonElement? InitializationOptions = null,
    string? RootUri = null, IReadOnlyList<WorkspaceFolder>? WorkspaceFolders = null);

/// <summary>A folder that the editor has open.</summary>
internal sealed record WorkspaceFolder(string Uri, string Name);

/// <summary>What we answer.</summary>
internal sealed record InitializeResult(ServerCapabilities Capabilities, ServerInfo ServerInfo);

/// <inheritdoc cref="InitializeResult"/>
internal sealed record ServerInfo(string Name, string Version);

/// <summary>What we offer; a handler sets what it answers, and what is null is not offered.</summary>
internal sealed record ServerCapabilities
{
    public required string PositionEncoding { get; init; }
    public TextDocumentSyncOptions TextDocumentSync { get; init; } = new(true, 2);

    /// <summary>Set for a client that asks for diagnostics; all others are sent them.</summary>
    public DiagnosticOptions? DiagnosticProvider { get; init; }

    public bool? HoverProvider { get; set; }
    public CompletionOptions? CompletionProvider { get; set; }
    public SignatureHelpOptions? SignatureHelpProvider { get; set; }
    public bool? DefinitionProvider { get; set; }
    public bool? ReferencesProvider { get; set; }
    public bool? DocumentHighlightProvider { get; set; }
    public bool? DocumentSymbolProvider { get; set; }
    public WorkOptions? WorkspaceSymbolProvider { get; set; }
    public RenameOptions? RenameProvider { get; set; }
    public bool? FoldingRangeProvider { get; set; }
    public bool? SelectionRangeProvider { get; set; }
    public ResolveOptions? DocumentLinkProvider { get; set; }
    public ResolveOptions? CodeLensProvider { get; set; }
    public ResolveOptions? InlayHintProvider { get; set; }
    public SemanticTokensOptions? SemanticTokensProvider { get; set; }
    public bool? DocumentFormattingProvider { get; set; }
    public bool? DocumentRangeFormattingProvider { get; set; }
    public OnTypeFormattingOptions? DocumentOnTypeFormattingProvider { get; set; }
    public CodeActionOptions? CodeActionProvider { get; set; }
    public ExecuteCommandOptions? ExecuteCommandProvider { get; set; }
    public WorkspaceOptions? Workspace { get; set; }
}

/// <summary>Change: 2 = incremental.</summary>
internal sealed record TextDocumentSyncOptions(bool OpenClose, int Change);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record CompletionOptions(IReadOnlyList<string> TriggerCharacters, bool ResolveProvider);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record CodeActionOptions(IReadOnlyList<string> CodeActionKinds, bool? ResolveProvider = null);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record RenameOptions(bool PrepareProvider);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record SemanticTokensOptions(SemanticTokensLegend Legend, FullTokensOptions Full, bool Range);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record DiagnosticOptions(string Identifier, bool InterFileDependencies, bool WorkspaceDiagnostics);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record FullTokensOptions(bool Delta);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record SignatureHelpOptions(IReadOnlyList<string> TriggerCharacters);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record WorkOptions(bool WorkDoneProgress);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record ResolveOptions(bool ResolveProvider);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record OnTypeFormattingOptions(string FirstTriggerCharacter);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record ExecuteCommandOptions(IReadOnlyList<string> Commands);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record WorkspaceOptions(WorkspaceFoldersOptions WorkspaceFolders);

/// <inheritdoc cref="ServerCapabilities"/>
internal sealed record WorkspaceFoldersOptions(bool Supported, bool ChangeNotifications);

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
