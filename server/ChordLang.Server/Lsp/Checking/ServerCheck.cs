// The server tried on a file: every request at every position, over the real protocol.
using System.Text.Json;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Server.Lsp.Checking;

/// <summary>Something that went wrong.</summary>
/// <param name="Line">Line, from 0.</param>
/// <param name="Character">Character, from 0.</param>
/// <param name="Method">The request.</param>
/// <param name="Message">What went wrong.</param>
internal sealed record ServerFault(int Line, int Character, string Method, string Message);

/// <summary>What came of a file.</summary>
/// <param name="Requests">How many requests were answered.</param>
/// <param name="Faults">What went wrong.</param>
internal sealed record ServerVerdict(int Requests, IReadOnlyList<ServerFault> Faults);

/// <summary>Tries the server.</summary>
internal static class ServerCheck
{
    private const string Capabilities = """
        {"textDocument":{"hover":{"contentFormat":["markdown"]},"diagnostic":{},"documentSymbol":{"hierarchicalDocumentSymbolSupport":true},
        "completion":{"completionItem":{"snippetSupport":true}},"signatureHelp":{},"definition":{},"references":{},"documentHighlight":{},"rename":{"prepareSupport":true},
        "selectionRange":{},"codeAction":{"codeActionLiteralSupport":{"codeActionKind":{"valueSet":[]}}},"onTypeFormatting":{},"foldingRange":{},"documentLink":{},"codeLens":{},
        "inlayHint":{},"semanticTokens":{"requests":{"full":{"delta":true},"range":true},"tokenTypes":[],"tokenModifiers":[],"formats":["relative"]},
        "formatting":{},"rangeFormatting":{}},"workspace":{"workspaceEdit":{"documentChanges":true},"symbol":{},"applyEdit":true}}
        """;

    /// <summary>Tries it on one text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="fullPath">Where it is, or null.</param>
    public static async Task<ServerVerdict> Of(SourceText text, string? fullPath)
    {
        await using var probe = new Probe();
        await probe.Send("initialize", $"{{\"processId\":null,\"rootUri\":null,\"capabilities\":{Capabilities}}}").ConfigureAwait(false);
        var offered = (await probe.Answer().ConfigureAwait(false)).GetProperty("result").GetProperty("capabilities");
        await probe.Tell("initialized", "{}").ConfigureAwait(false);
        var uri = Json(fullPath is null ? "untitled:lesson.chl" : Answers.UriOf(fullPath));
        await probe.Tell("textDocument/didOpen", $"{{\"textDocument\":{{\"uri\":{uri},\"languageId\":\"chordlang\",\"version\":1,\"text\":{Json(text.Text)}}}}}").ConfigureAwait(false);
        var requests = Request.All.Where(r => r.IsOffered(offered)).ToList();
        var (faults, count, tree) = (new List<ServerFault>(), 0, SyntaxTree.Parse(text));
        var (lastLine, lastCharacter) = (text.Lines.Length - 1, text.Lines[^1].Length);
        count += await Ask(probe, requests.Where(r => r.Scope == Scope.Document).Select(r => (r, 0, 0)), faults).ConfigureAwait(false);
        for (var line = 0; line < text.Lines.Length; line++)
            count += await Ask(probe, Enumerable.Range(0, text.Lines[line].Length + 1).SelectMany(c => requests.Where(r => r.Scope == Scope.Position).Select(r => (r, line, c))), faults).ConfigureAwait(false);
        faults.AddRange(probe.Log.Select(l => new ServerFault(0, 0, "log", l)));
        return new(count, faults);

        async Task<int> Ask(Probe p, IEnumerable<(Request Request, int Line, int Character)> asked, List<ServerFault> wrong)
        {
            var waiting = new Dictionary<int, (Request Request, int Line, int Character)>();
            foreach (var (request, line, character) in asked)
                waiting[await p.Send(request.Method, request.Parameters(uri, line, character, lastLine, lastCharacter)).ConfigureAwait(false)] = (request, line, character);
            for (var left = waiting.Count; left > 0; left--)
            {
                var answer = await p.Answer().ConfigureAwait(false);
                if (!waiting.Remove(answer.GetProperty("id").GetInt32(), out var about))
                    wrong.Add(new(0, 0, "?", $"an answer that nobody asked for: {answer}"));
                else if (Fault(answer, about.Request, tree, about.Line, about.Character) is { } message)
                    wrong.Add(new(about.Line, about.Character, about.Request.Method, message));
            }
            return waiting.Count == 0 ? asked.Count() : 0;
        }
    }

    /// <summary>What is wrong with an answer, or null.</summary>
    internal static string? Fault(JsonElement answer, Request request, SyntaxTree tree, int line, int character)
    {
        if (answer.TryGetProperty("error", out var error))
            return error.GetProperty("message").GetString();
        if (request.Method != "textDocument/hover" || !MustExplain(tree.Lines[line], character))
            return null;
        var result = answer.GetProperty("result");
        return result.ValueKind == JsonValueKind.Object && !string.IsNullOrWhiteSpace(result.GetProperty("contents").GetProperty("value").GetString())
            ? null : $"nothing is said of '{tree.Lines[line][tree.Lines[line].Tokens.First(t => t.Span.Start <= character && character < t.Span.End).Span]}'";
    }

    // A chord, a fret, a bar line, a label and a setting.
    private static bool MustExplain(LineSyntax line, int character)
    {
        foreach (var token in line.Tokens)
            if (token.Span.Start <= character && character < token.Span.End)
                return token.Kind is TokenKind.Symbol or TokenKind.Frets or TokenKind.Bar or TokenKind.Label || line is SettingLine;
        return false;
    }

    private static string Json(string text) => $"\"{JsonEncodedText.Encode(text)}\"";
}
