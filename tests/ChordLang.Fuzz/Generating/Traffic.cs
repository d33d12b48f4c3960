// What a client may send that should not: real messages with wrong parameters, wrong order, wrong frames.
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using ChordLang.Testing;

namespace ChordLang.Fuzz.Generating;

/// <summary>Makes messages and frames.</summary>
internal static class Traffic
{
    private static readonly string[] Uris = ["untitled:a", "untitled:b", "file:///nowhere/a.chl", "", "%", "file:", "http://[", "file:///nowhere/../a.chl", "file:///nowhere/%00.chl", "untitled:夜"];

    private static readonly string[] Values =
    [
        "null", "true", "-1", "0", "1e999", "2147483648", "1.5", "\"\"", "\"x\"", "\"\\ud834\"", "\"\\u0000\"", "[]", "{}", "[null]", "{\"line\":-1,\"character\":-1}", "{\"line\":2147483647,\"character\":2147483647}", "{\"start\":{\"line\":5,\"character\":5},\"end\":{\"line\":0,\"character\":0}}",
        "[[[[[[]]]]]]", "{\"uri\":\"untitled:a\"}", "99999999999999999999",
    ];

    private static readonly string[] Others =
    [
        "textDocument/noSuchThing", "$/cancelRequest", "$/setTrace", "$/progress", "initialized", "workspace/didChangeConfiguration", "workspace/didChangeWatchedFiles", "workspace/didChangeWorkspaceFolders", "window/workDoneProgress/cancel", "textDocument/didSave", "textDocument/willSave", "codeAction/resolve",
        "completionItem/resolve", "codeLens/resolve", "textDocument/rename", "chordlang/sheet", "initialize", "", "rpc.discover",
    ];

    /// <summary>Tokens of messages.</summary>
    public static string[] Tokens { get; } = [.. Values, "\"id\":1,", "\"method\":\"shutdown\"", "\"params\":", "\"jsonrpc\":\"2.0\"", "\"uri\":", "\"position\":", "\"range\":", "\"textDocument\":", ",", ":", "{", "}", "\n", "\"line\":", "\\", "\""];

    /// <summary>A session: one message a line, beginning with initialize as a rule.</summary>
    public static string Session(Dice dice)
    {
        var lines = new List<string>();
        if (!dice.One(20))
            lines.Add(Request(1, "initialize", Initialize(dice)));
        var (id, version) = (1, 1);
        for (var n = 3 + dice.Next(20); n > 0; n--)
        {
            var uri = Text(dice.One(4) ? dice.Of(Uris) : "untitled:a");
            switch (dice.Next(9))
            {
                case 0:
                    lines.Add(Tell("textDocument/didOpen", $"{{\"textDocument\":{{\"uri\":{uri},\"languageId\":\"chordlang\",\"version\":{version++},\"text\":{Text(Texts.Any(dice))}}}}}"));
                    break;
                case 1:
                case 2:
                    lines.Add(Tell("textDocument/didChange", $"{{\"textDocument\":{{\"uri\":{uri},\"version\":{version++}}},\"contentChanges\":[{string.Join(',', Enumerable.Range(0, dice.Next(3)).Select(_ => Change(dice)))}]}}"));
                    break;
                case 3:
                    lines.Add(dice.One(3) ? Tell("textDocument/didClose", $"{{\"textDocument\":{{\"uri\":{uri}}}}}") : Tell("$/cancelRequest", $"{{\"id\":{1 + dice.Next(id + 2)}}}"));
                    break;
                case 4:
                    lines.Add(Request(++id, "workspace/executeCommand", $"{{\"command\":\"chordlang.{dice.Of("transpose", "export", "describe", "explain", "practice", "x")}\",\"arguments\":[{{\"uri\":{uri},{dice.Of("\"by\":3", "\"to\":\"Eb major\"", "\"to\":\"tab\"", "\"to\":\"musicxml\"", "\"code\":\"name-fret-slip\"", "\"brief\":true", "\"to\":\"| C\\nkey\"", "\"by\":-99")}}}]}}"));
                    break;
                case 5:
                    lines.Add(dice.One(3) ? Tell(dice.Of(Others), $"{{\"textDocument\":{{\"uri\":{uri}}},\"settings\":{dice.Of(Values)},\"changes\":{dice.Of(Values)},\"id\":{dice.Of(Values)}}}")
                        : Request(++id, dice.Of(Others), $"{{\"textDocument\":{{\"uri\":{uri}}},\"position\":{Position(dice)},\"newName\":{Text(dice.Of("b", "", "low-drop", "x-1", "C", " "))},\"label\":\"x\",\"title\":\"x\",\"data\":{dice.Of(Values)},\"known\":[\"\"]}}"));
                    break;
                default:
                    var request = dice.Of([.. ChordLang.Server.Lsp.Checking.Request.All]);
                    var asked = Request(dice.One(30) ? id : ++id, request.Method, request.Parameters(uri, dice.Next(20), dice.Next(30), dice.Next(30), dice.Next(30)));
                    lines.Add(dice.One(3) ? Spoiled(dice, asked) : asked);
                    break;
            }
        }
        return string.Join('\n', lines);
    }

    /// <summary>A session as bytes in frames, one a character; some frames are wrong.</summary>
    public static string Frames(Dice dice)
    {
        var text = new StringBuilder();
        var lines = Session(dice).Split('\n').ToList();
        lines = [.. lines.Take(2 + dice.Next(5)), Request(90, "shutdown", ""), Tell("exit", "")];
        foreach (var line in lines)
        {
            var body = Encoding.Latin1.GetString(Encoding.UTF8.GetBytes(line));
            text.Append(dice.Next(24) switch
            {
                0 => $"content-length: {body.Length}\r\n\r\n{body}",
                1 => $"Content-Type: application/vscode-jsonrpc; charset={dice.Of("utf-8", "utf8", "utf-16", "latin-1", "x")}\r\nContent-Length: {body.Length}\r\n\r\n{body}",
                2 => $"Content-Length: {body.Length + dice.Of(-1, 1, 2, 100)}\r\n\r\n{body}",
                3 => $"Content-Length: {dice.Of(Odds.Numbers)}\r\n\r\n{body}",
                4 => $"Content-Length: {body.Length}\n\n{body}",
                5 => $"X: {new string('y', dice.Next(3000))}\r\nContent-Length: {body.Length}\r\n\r\n{body}",
                6 => $"{dice.Of("\r\n", "\n", "\0", "\u00EF\u00BB\u00BF", "x", "GET / HTTP/1.1\r\n")}Content-Length: {body.Length}\r\n\r\n{body}",
                7 => $"Content-Length: {body.Length}\r\nContent-Length: {dice.Next(20)}\r\n\r\n{body}",
                8 => $"Content-Length: 0\r\n\r\nContent-Length: {body.Length}\r\n\r\n{body}",
                _ => $"Content-Length: {body.Length}\r\n\r\n{body}",
            });
        }
        return dice.One(3) ? Mutations.Bytes(dice, text.ToString(), text.ToString()) : text.ToString();
    }

    /// <summary>A text in JSON, whatever it holds.</summary>
    public static string Text(string text) => "\"" + JsonEncodedText.Encode(Sound(text)) + "\"";

    // The writer refuses lone surrogates; they come in as escapes of their own, in Values.
    private static string Sound(string text) => Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text));

    private static string Initialize(Dice dice) =>
        $"{{\"processId\":null,\"rootUri\":{dice.Of("null", "null", "null", Text("file:///nowhere"), "\"x\"")},\"capabilities\":{{\"general\":{{\"positionEncodings\":[\"{dice.Of("utf-8", "utf-16", "utf-32", "x")}\"]}},\"textDocument\":{{{(dice.One(2) ? "\"diagnostic\":{}," : "")}\"codeAction\":{{\"codeActionLiteralSupport\":{{}}}},\"hover\":{{\"contentFormat\":[\"{dice.Of("markdown", "plaintext")}\"]}},\"completion\":{{\"completionItem\":{{\"snippetSupport\":{dice.Of("true", "false", "3")}}}}},\"documentSymbol\":{{\"hierarchicalDocumentSymbolSupport\":{dice.Of("true", "false")}}},\"semanticTokens\":{{\"requests\":{{\"full\":{{\"delta\":true}},\"range\":true}},\"tokenTypes\":[],\"tokenModifiers\":[],\"formats\":[\"relative\"]}},\"foldingRange\":{{}},\"rename\":{{\"prepareSupport\":true}}}},\"workspace\":{{\"applyEdit\":true,\"workspaceEdit\":{{\"documentChanges\":{dice.Of("true", "false")}}},\"diagnostics\":{{\"refreshSupport\":true}},\"configuration\":{dice.Of("true", "false")},\"didChangeWatchedFiles\":{{\"dynamicRegistration\":true}}}},\"window\":{{\"workDoneProgress\":true}}}},\"initializationOptions\":{dice.Of("{\"holdBack\":0}", "{\"holdBack\":0}", "null", "{\"naming\":\"strict\",\"hover\":{\"pictures\":true}}", "[]")}}}";

    private static string Change(Dice dice)
    {
        var text = Text(dice.One(3) ? dice.Of(Odds.Characters) : dice.One(2) ? Pieces.Line(dice) + "\n" : dice.Of(Odds.Tokens));
        return dice.One(6) ? $"{{\"text\":{Text(Texts.Any(dice))}}}" : $"{{\"range\":{{\"start\":{Position(dice)},\"end\":{Position(dice)}}},\"text\":{text}}}";
    }

    private static string Position(Dice dice) => string.Create(CultureInfo.InvariantCulture, $"{{\"line\":{(dice.One(20) ? dice.Next(int.MaxValue) : dice.Next(12))},\"character\":{(dice.One(20) ? -dice.Next(9) : dice.Next(30))}}}");

    // One value of a message, wherever it stands below params, becomes another.
    private static string Spoiled(Dice dice, string message)
    {
        var root = JsonNode.Parse(message)!;
        var places = new List<(JsonObject Holder, string Key)>();
        Collect(root["params"], places);
        if (places.Count == 0)
            return message;
        var (holder, key) = places[dice.Next(places.Count)];
        if (dice.One(4))
            holder.Remove(key);
        else
            holder[key] = "@spoiled@";
        return root.ToJsonString().Replace("\"@spoiled@\"", dice.Of(Values), StringComparison.Ordinal);
    }

    private static void Collect(JsonNode? node, List<(JsonObject, string)> places)
    {
        if (node is JsonObject holder)
            foreach (var (key, value) in holder)
            {
                places.Add((holder, key));
                Collect(value, places);
            }
        else if (node is JsonArray list)
            foreach (var item in list)
                Collect(item, places);
    }

    private static string Request(int id, string method, string parameters) =>
        $"{{\"jsonrpc\":\"2.0\",\"id\":{id.ToString(CultureInfo.InvariantCulture)},\"method\":\"{method}\"{(parameters.Length == 0 ? "" : ",\"params\":" + parameters)}}}";

    private static string Tell(string method, string parameters) => $"{{\"jsonrpc\":\"2.0\",\"method\":\"{method}\"{(parameters.Length == 0 ? "" : ",\"params\":" + parameters)}}}";
}
