// A client of the language server that speaks the real protocol over a pipe, and waits for messages, never for time. With CHORDLANG_SERVER it speaks with that program.
using System.Diagnostics;
using System.IO.Pipelines;
using System.Text;
using System.Text.Json.Nodes;
using ChordLang.Server.Lsp;

namespace ChordLang.Server.Tests.Lsp;

/// <summary>A session with a server in this process, or with the program that the environment names: the one compiled ahead of time passes the same tests.</summary>
internal sealed class LspClient : IAsyncDisposable
{
    // Only a server that hangs is ended by this.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    private static readonly string? Program = Environment.GetEnvironmentVariable("CHORDLANG_SERVER");

    private readonly Stream input, output;
    private readonly List<JsonNode> waiting = [];
    private int lastId;

    private LspClient()
    {
        if (Program is { } program)
        {
            var process = Process.Start(new ProcessStartInfo(program, ["serve", "--stdio"]) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true })!;
            process.ErrorDataReceived += (_, said) => Log.Enqueue(said.Data ?? "");
            process.BeginErrorReadLine();
            (input, output, Server) = (process.StandardInput.BaseStream, process.StandardOutput.BaseStream, Exit(process));
            return;
        }
        var (toServer, fromServer) = (new Pipe(new(pauseWriterThreshold: 0)), new Pipe(new(pauseWriterThreshold: 0)));
        (input, output) = (toServer.Writer.AsStream(), fromServer.Reader.AsStream());
        Server = Session.Run(toServer.Reader.AsStream(), fromServer.Writer.AsStream(), m => Log.Enqueue(m));
    }

    /// <summary>The exit code, when the server has ended.</summary>
    public Task<int> Server { get; }

    /// <summary>What the server wrote of troubles.</summary>
    public System.Collections.Concurrent.ConcurrentQueue<string> Log { get; } = [];

    /// <summary>What it answered to initialize.</summary>
    public JsonNode Capabilities { get; private set; } = null!;

    /// <summary>A client that has not said anything.</summary>
    public static LspClient Silent() => new();

    /// <summary>A client that has said initialize, with these capabilities and options as JSON. Without other options no finding is held back.</summary>
    public static async Task<LspClient> Start(string capabilities = "{}", string options = "{\"holdBack\":0}")
    {
        var client = new LspClient();
        var answer = await client.Ask("initialize", $$$"""{"processId":null,"rootUri":null,"capabilities":{{{capabilities}}},"initializationOptions":{{{options}}}}""");
        client.Capabilities = answer["result"]!["capabilities"]!;
        await client.Tell("initialized", "{}");
        return client;
    }

    /// <summary>Opens a document.</summary>
    public Task Open(string uri, string text, int version = 1) =>
        Tell("textDocument/didOpen", $$$"""{"textDocument":{"uri":{{{Json(uri)}}},"languageId":"chordlang","version":{{{version}}},"text":{{{Json(text)}}}}}""");

    /// <summary>Replaces the whole of a document.</summary>
    public Task Replace(string uri, string text, int version) =>
        Tell("textDocument/didChange", $$$"""{"textDocument":{"uri":{{{Json(uri)}}},"version":{{{version}}}},"contentChanges":[{"text":{{{Json(text)}}}}]}""");

    /// <summary>The findings that are sent for a version of a document.</summary>
    public async Task<JsonArray> Findings(string uri, int version) =>
        (await Until(m => (string?)m["method"] == "textDocument/publishDiagnostics" && (string?)m["params"]!["uri"] == uri && (int?)m["params"]!["version"] == version))["params"]!["diagnostics"]!.AsArray();

    /// <summary>Asks about a place; answers the result.</summary>
    public async Task<JsonNode?> At(string method, string uri, int line, int character, string more = "") =>
        (await Ask(method, $$$"""{"textDocument":{"uri":{{{Json(uri)}}}},"position":{"line":{{{line}}},"character":{{{character}}}}{{{more}}}}"""))["result"];

    /// <summary>Asks about a document; answers the result.</summary>
    public async Task<JsonNode?> Of(string method, string uri, string more = "") => (await Ask(method, $$$"""{"textDocument":{"uri":{{{Json(uri)}}}}{{{more}}}}"""))["result"];

    /// <summary>Sends a request and waits for its answer.</summary>
    public async Task<JsonNode> Ask(string method, string parameters) => await Answer(await Send(method, parameters));

    /// <summary>Sends a request; answers its id.</summary>
    public async Task<int> Send(string method, string parameters)
    {
        var id = ++lastId;
        await Write($$$"""{"jsonrpc":"2.0","id":{{{id}}},"method":{{{Json(method)}}}{{{(parameters.Length == 0 ? "" : $",\"params\":{parameters}")}}}}""");
        return id;
    }

    /// <summary>The answer to a request.</summary>
    public Task<JsonNode> Answer(int id) => Until(m => m["method"] is null && (int?)m["id"] == id);

    /// <summary>Sends a notification.</summary>
    public Task Tell(string method, string parameters) =>
        Write($$$"""{"jsonrpc":"2.0","method":{{{Json(method)}}}{{{(parameters.Length == 0 ? "" : $",\"params\":{parameters}")}}}}""");

    /// <summary>Writes a message of any content.</summary>
    public async Task Write(string body)
    {
        var bytes = Encoding.UTF8.GetBytes(body);
        await input.WriteAsync(Encoding.ASCII.GetBytes($"Content-Length: {bytes.Length}\r\n\r\n"));
        await input.WriteAsync(bytes);
        await input.FlushAsync();
    }

    /// <summary>Writes bytes as they are, frames or not.</summary>
    public async Task WriteBytes(byte[] bytes)
    {
        await input.WriteAsync(bytes);
        await input.FlushAsync();
    }

    /// <summary>Ends the client's stream.</summary>
    public ValueTask End() => input.DisposeAsync();

    /// <summary>The next message that is asked for; the others stay for later.</summary>
    public async Task<JsonNode> Until(Func<JsonNode, bool> wanted)
    {
        for (var i = 0; ; i++)
        {
            if (i == waiting.Count)
                waiting.Add(await Read().WaitAsync(Patience));
            if (!wanted(waiting[i]))
                continue;
            var found = waiting[i];
            waiting.RemoveAt(i);
            return found;
        }
    }

    /// <summary>A text as JSON.</summary>
    public static string Json(string text) => JsonValue.Create(text)!.ToJsonString();

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await End();
        await Server.WaitAsync(Patience);
    }

    private static async Task<int> Exit(Process process)
    {
        using (process)
        {
            await process.WaitForExitAsync();
            return process.ExitCode;
        }
    }

    private async Task<JsonNode> Read()
    {
        var (length, header) = (0, new StringBuilder());
        var one = new byte[1];
        while (!header.ToString().EndsWith("\r\n\r\n", StringComparison.Ordinal))
        {
            if (await output.ReadAsync(one) == 0)
                throw new EndOfStreamException($"The server has ended. {string.Join('\n', Log)}");
            header.Append((char)one[0]);
        }
        foreach (var line in header.ToString().Split("\r\n"))
            if (line.StartsWith("Content-Length: ", StringComparison.Ordinal))
                length = int.Parse(line.AsSpan(16), System.Globalization.CultureInfo.InvariantCulture);
        var body = new byte[length];
        await output.ReadExactlyAsync(body);
        return JsonNode.Parse(body)!;
    }
}
