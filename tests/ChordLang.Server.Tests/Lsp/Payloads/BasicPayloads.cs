// Payloads of the session, of documents, findings, hovers and formatting.
using System.Text.Json;
using ChordLang.Server.Lsp.Protocol;

namespace ChordLang.Server.Tests.Lsp.Payloads;

internal static class BasicPayloads
{
    private const string Uri = "file:///lessons/a.chl";
    internal static readonly TextRange Range = new(new(1, 2), new(1, 5));
    internal static readonly TextEditItem Edit = new(Range, "B♭");
    internal static readonly Diagnostic Finding = new(Range, 2, "name-fret-slip", "chordlang", "A sentence.", new(3, "2&", [1, 2]), new("https://example.org/name-fret-slip"), [1], [new(new(Uri, Range), "There")]);
    private static readonly JsonElement Anything = JsonDocument.Parse("{}").RootElement;

    private static readonly ServerCapabilities Offered = new()
    {
        PositionEncoding = "utf-16", DiagnosticProvider = new("chordlang", true, false), HoverProvider = true, CompletionProvider = new(["("], true), SignatureHelpProvider = new(["("]),
        DefinitionProvider = true, ReferencesProvider = true, DocumentHighlightProvider = true, DocumentSymbolProvider = true, WorkspaceSymbolProvider = new(true), RenameProvider = new(true),
        FoldingRangeProvider = true, SelectionRangeProvider = true, DocumentLinkProvider = new(false), CodeLensProvider = new(true), InlayHintProvider = new(false),
        SemanticTokensProvider = new(SemanticTokensLegend.Ours, new(true), true), DocumentFormattingProvider = true, DocumentRangeFormattingProvider = true,
        DocumentOnTypeFormattingProvider = new("\n"), CodeActionProvider = new(["quickfix"], true), ExecuteCommandProvider = new(["chordlang.fix"]), Workspace = new(new(true, true)),
    };

    public static IEnumerable<Payload> All =>
    [
        Payload.Out("lsp.InitializeResult", new InitializeResult(Offered, new("chordlang", "1"))),
        Payload.Out("lsp.RegistrationParams", new RegistrationParams([new("files", "workspace/didChangeWatchedFiles", new([new("**/*.chl")]))])),
        Payload.Out("lsp.DidChangeWatchedFilesRegistrationOptions", new WatchedFilesOptions([new("**/*.chl")])),
        Payload.Out("lsp.LogMessageParams", new LogMessageParams(1, "A line.")),
        Payload.Out("lsp.PublishDiagnosticsParams", new PublishDiagnosticsParams(Uri, 4, [Finding])),
        Payload.Out("lsp.DocumentDiagnosticReport", new DiagnosticReport("full", "7", [Finding])),
        Payload.Out("lsp.DocumentDiagnosticReport", new DiagnosticReport("unchanged", "7")),
        Payload.Out("lsp.Hover", new Hover(new("markdown", "Words"), Range)),
        Payload.Out<IReadOnlyList<TextEditItem>>("lsp.TextEdit[]", [Edit]),

        Payload.In("lsp.InitializeParams", new InitializeParams(1, Anything, Anything, "file:///lessons", [new("file:///lessons", "lessons")])),
        Payload.In("lsp.DidOpenTextDocumentParams", new DidOpenParams(new(Uri, "chordlang", 1, "| C\n"))),
        Payload.In("lsp.DidChangeTextDocumentParams", new DidChangeParams(new(Uri, 2), [new("x", Range), new("| C\n")])),
        Payload.In("lsp.DidCloseTextDocumentParams", new DocumentParams(new(Uri))),
        Payload.In("lsp.DocumentFormattingParams", new DocumentParams(new(Uri))),
        Payload.In("lsp.HoverParams", new PositionParams(new(Uri), new(1, 2))),
        Payload.In("lsp.DocumentRangeFormattingParams", new RangeParams(new(Uri), Range)),
        Payload.In("lsp.DidChangeWatchedFilesParams", new WatchedFilesParams([new(Uri, 2)])),
        Payload.In("lsp.DocumentDiagnosticParams", new DiagnosticParams(new(Uri), "6")),
    ];
}
