// All requests that a server may offer, and what each is asked with: one row a request.
using System.Globalization;
using System.Text.Json;

namespace ChordLang.Server.Lsp.Checking;

/// <summary>How often a request is asked.</summary>
internal enum Scope
{
    /// <summary>At every position.</summary>
    Position,
    /// <summary>Once a document.</summary>
    Document,
}

/// <summary>A request.</summary>
/// <param name="Capability">The property of the server's capabilities that offers it; with <c>.</c> a property of that.</param>
/// <param name="Method">Its method.</param>
/// <param name="Scope">How often it is asked.</param>
/// <param name="More">What it takes besides document and position: a part of a JSON object; <c>@here</c> stands for the position, <c>@all</c> for the whole range.</param>
internal sealed record Request(string Capability, string Method, Scope Scope, string More = "")
{
    /// <summary>Every request about a document that the protocol records of this server know.</summary>
    public static IReadOnlyList<Request> All { get; } =
    [
        new("hoverProvider", "textDocument/hover", Scope.Position),
        new("completionProvider", "textDocument/completion", Scope.Position),
        new("signatureHelpProvider", "textDocument/signatureHelp", Scope.Position),
        new("definitionProvider", "textDocument/definition", Scope.Position),
        new("referencesProvider", "textDocument/references", Scope.Position, "\"context\":{\"includeDeclaration\":true}"),
        new("documentHighlightProvider", "textDocument/documentHighlight", Scope.Position),
        new("renameProvider", "textDocument/prepareRename", Scope.Position),
        new("selectionRangeProvider", "textDocument/selectionRange", Scope.Position, "\"positions\":[@here]"),
        new("codeActionProvider", "textDocument/codeAction", Scope.Position, "\"range\":{\"start\":@here,\"end\":@here},\"context\":{\"diagnostics\":[]}"),
        new("documentOnTypeFormattingProvider", "textDocument/onTypeFormatting", Scope.Position, "\"ch\":\"\\n\",\"options\":{\"tabSize\":4,\"insertSpaces\":true}"),
        new("diagnosticProvider", "textDocument/diagnostic", Scope.Document),
        new("documentSymbolProvider", "textDocument/documentSymbol", Scope.Document),
        new("workspaceSymbolProvider", "workspace/symbol", Scope.Document, "\"query\":\"a\""),
        new("foldingRangeProvider", "textDocument/foldingRange", Scope.Document),
        new("documentLinkProvider", "textDocument/documentLink", Scope.Document),
        new("codeLensProvider", "textDocument/codeLens", Scope.Document),
        new("inlayHintProvider", "textDocument/inlayHint", Scope.Document, "\"range\":@all"),
        new("semanticTokensProvider", "textDocument/semanticTokens/full", Scope.Document),
        new("semanticTokensProvider.range", "textDocument/semanticTokens/range", Scope.Document, "\"range\":@all"),
        new("semanticTokensProvider.full.delta", "textDocument/semanticTokens/full/delta", Scope.Document, "\"previousResultId\":\"none\""),
        new("documentFormattingProvider", "textDocument/formatting", Scope.Document, "\"options\":{\"tabSize\":4,\"insertSpaces\":true}"),
        new("documentRangeFormattingProvider", "textDocument/rangeFormatting", Scope.Document, "\"range\":@all,\"options\":{\"tabSize\":4,\"insertSpaces\":true}"),
        new("codeActionProvider", "textDocument/codeAction", Scope.Document, "\"range\":@all,\"context\":{\"diagnostics\":[]}"),
        new("executeCommandProvider", "workspace/executeCommand", Scope.Document, "\"command\":\"chordlang.describe\",\"arguments\":[{\"uri\":@uri}]"),
    ];

    /// <summary>True where a server that answered these capabilities offers the request.</summary>
    public bool IsOffered(JsonElement capabilities)
    {
        foreach (var part in Capability.Split('.'))
            if (capabilities.ValueKind != JsonValueKind.Object || !capabilities.TryGetProperty(part, out capabilities))
                return false;
        return capabilities.ValueKind is not (JsonValueKind.False or JsonValueKind.Null);
    }

    /// <summary>Its parameters as JSON.</summary>
    /// <param name="uri">The document's name, as a JSON text.</param>
    /// <param name="line">The line.</param>
    /// <param name="character">The character.</param>
    /// <param name="lastLine">The last line of the document.</param>
    /// <param name="lastCharacter">The end of that line.</param>
    public string Parameters(string uri, int line, int character, int lastLine, int lastCharacter)
    {
        var here = string.Create(CultureInfo.InvariantCulture, $"{{\"line\":{line},\"character\":{character}}}");
        var all = string.Create(CultureInfo.InvariantCulture, $"{{\"start\":{{\"line\":0,\"character\":0}},\"end\":{{\"line\":{lastLine},\"character\":{lastCharacter}}}}}");
        var more = More.Replace("@here", here, StringComparison.Ordinal).Replace("@all", all, StringComparison.Ordinal).Replace("@uri", uri, StringComparison.Ordinal);
        return $"{{\"textDocument\":{{\"uri\":{uri}}}{(Scope == Scope.Position ? $",\"position\":{here}" : "")}{(more.Length > 0 ? "," + more : "")}}}";
    }
}
