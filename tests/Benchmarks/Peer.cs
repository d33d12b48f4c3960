// A client of any language server over a real pipe: it takes the time when it writes, and when a whole frame has come.
using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;

namespace ChordLang.Benchmarks;

/// <summary>A message with the time at which it was there, in stopwatch ticks.</summary>
internal sealed record Arrived(long At, JsonNode Message);

/// <summary>A server process and its pipe.</summary>
internal sealed class Peer : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly Process process;
    private readonly BlockingCollection<Arrived> arrived = [];
    private readonly JsonNode? settings;
    private int lastId;

    /// <summary>Starts a server in a folder.</summary>
    /// <param name="command">How.</param>
    /// <param name="folder">Where.</param>
    /// <param name="settings">What it is configured with, as JSON, or null.</param>
    public Peer(IReadOnlyList<string> command, string folder, string? settings = null)
    {
        this.settings = settings is null ? null : JsonNode.Parse(settings);
        Started = Stopwatch.GetTimestamp();
        process = Process.Start(new ProcessStartInfo(command[0], command.Skip(1)) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder })!;
        process.ErrorDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        new Thread(Listen) { IsBackground = true }.Start();
    }

    /// <summary>When it was started.</summary>
    public long Started { get; }

    /// <summary>The number of its process.</summary>
    public int Id => process.Id;

    /// <summary>The memory that it holds now, in megabytes, without its children; not a number where the system does not tell.</summary>
    public double Megabytes => Status(process.Id, "VmRSS:") is { } kilobytes ? kilobytes / 1024 : double.NaN;

    /// <summary>What it offers.</summary>
    public JsonNode Capabilities { get; private set; } = new JsonObject();

    /// <summary>The most memory it has held, in megabytes, children included where they live.</summary>
    public double PeakMegabytes
    {
        get
        {
            try
            {
                return Tree(process.Id).Sum(id => Status(id, "VmHWM:") ?? 0) / 1024;
            }
            catch (IOException)
            {
                return double.NaN;
            }
        }
    }

    /// <summary>Says initialize; answers when the answer was there.</summary>
    /// <param name="pull">True where findings are asked for, if the server lets itself be asked.</param>
    /// <param name="root">The folder that is open, or null.</param>
    public long Initialize(bool pull, string? root = null)
    {
        var diagnostic = pull ? "\"diagnostic\":{}," : "";
        var capabilities = "{\"textDocument\":{" + diagnostic + """
            "publishDiagnostics":{"versionSupport":true},"hover":{"contentFormat":["markdown"]},"completion":{"completionItem":{"snippetSupport":false}},
            "documentSymbol":{"hierarchicalDocumentSymbolSupport":true},"foldingRange":{},"inlayHint":{},
            "codeAction":{"dataSupport":true,"resolveSupport":{"properties":["edit"]},"codeActionLiteralSupport":{"codeActionKind":{"valueSet":[]}}},
            "semanticTokens":{"requests":{"full":{"delta":true},"range":true},"tokenTypes":["keyword","variable"],"tokenModifiers":[],"formats":["relative"]}},
            "window":{"workDoneProgress":true},"workspace":{"configuration":true,"diagnostics":{"refreshSupport":true}}}
            """;
        var folder = root is null ? "null" : $"\"{new Uri(root).AbsoluteUri}\"";
        var at = Introduce($"{{\"processId\":{Environment.ProcessId},\"rootUri\":{folder},\"capabilities\":{capabilities},\"initializationOptions\":{{\"provideFormatter\":true}}}}");
        Write(Body("initialized", "{}", null));
        if (settings is not null)
            Write(Notification("workspace/didChangeConfiguration", $"{{\"settings\":{settings.ToJsonString()}}}"));
        return at;
    }

    /// <summary>Says initialize in words of one's own; answers when the answer was there.</summary>
    public long Introduce(string parameters)
    {
        var answer = Ask("initialize", parameters);
        Capabilities = answer.Message["result"]!["capabilities"]!;
        return answer.At;
    }

    /// <summary>True where it offers something.</summary>
    public bool Offers(string capability) => Capabilities[capability] is { } offered && offered.GetValueKind() != System.Text.Json.JsonValueKind.False;

    /// <summary>Sends a request alone.</summary>
    public Arrived Ask(string method, string parameters)
    {
        Write(Body(method, parameters, ++lastId));
        return Answer(lastId);
    }

    /// <summary>A request as it will be written; its id is given.</summary>
    public (byte[] Body, int Id) Request(string method, string parameters) => (Body(method, parameters, ++lastId), lastId);

    /// <summary>A notification as it will be written.</summary>
    public static byte[] Notification(string method, string parameters) => Body(method, parameters, null);

    /// <summary>Writes frames at once; answers the time before it.</summary>
    public long Write(params byte[][] frames)
    {
        var all = frames.SelectMany(f => f).ToArray();
        var now = Stopwatch.GetTimestamp();
        process.StandardInput.BaseStream.Write(all);
        process.StandardInput.BaseStream.Flush();
        return now;
    }

    /// <summary>The answer to a request.</summary>
    public Arrived Answer(int id) => Until(m => m["method"] is null && m["id"]?.GetValueKind() == System.Text.Json.JsonValueKind.Number && (int)m["id"]! == id, Patience) ?? throw Silent;

    /// <summary>Findings of a version or a later one, or null where none come in time; unversioned ones count.</summary>
    public Arrived? Findings(int version, TimeSpan patience) =>
        Until(m => (string?)m["method"] == "textDocument/publishDiagnostics" && (m["params"]!["version"] is not { } v || (int)v >= version), patience);

    /// <summary>A notification that is wanted.</summary>
    public Arrived Told(string method, Func<JsonNode, bool> wanted) => Until(m => (string?)m["method"] == method && wanted(m["params"]!), Patience) ?? throw Silent;

    /// <summary>Drops what comes, until nothing has come for a while.</summary>
    public void Settle(int milliseconds)
    {
        while (arrived.TryTake(out var one, milliseconds))
            Reply(one.Message);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        try
        {
            Ask("shutdown", "null");
            Write(Body("exit", "null", null));
        }
        catch (Exception e) when (e is IOException or TimeoutException)
        {
            // It has gone already.
        }
        if (!process.WaitForExit(5000))
            process.Kill(true);
        process.Dispose();
        arrived.Dispose();
    }

    private static TimeoutException Silent => new("the server does not answer");

    private Arrived? Until(Func<JsonNode, bool> wanted, TimeSpan patience)
    {
        var watch = Stopwatch.StartNew();
        while (patience - watch.Elapsed is var left && left > TimeSpan.Zero && arrived.TryTake(out var one, left))
        {
            if (wanted(one.Message))
                return one;
            Reply(one.Message);
        }
        return arrived.IsCompleted ? throw new IOException("the server has ended") : null;
    }

    private void Reply(JsonNode message)
    {
        if (message["method"] is null || message["id"] is not { } id)
            return;
        var result = (string?)message["method"] == "workspace/configuration" ? $"[{string.Join(',', message["params"]!["items"]!.AsArray().Select(Setting))}]" : "null";
        Write(Frame($"{{\"jsonrpc\":\"2.0\",\"id\":{id.ToJsonString()},\"result\":{result}}}"));
    }

    private string Setting(JsonNode? item)
    {
        var found = settings;
        foreach (var part in ((string?)item?["section"] ?? "").Split('.', StringSplitOptions.RemoveEmptyEntries))
            found = (found as JsonObject)?[part];
        return found?.ToJsonString() ?? "null";
    }

    private static byte[] Body(string method, string parameters, int? id) =>
        Frame($"{{\"jsonrpc\":\"2.0\",{(id is null ? "" : $"\"id\":{id},")}\"method\":\"{method}\"{(parameters == "null" ? "" : $",\"params\":{parameters}")}}}");

    private static byte[] Frame(string body) => [.. Encoding.ASCII.GetBytes($"Content-Length: {Encoding.UTF8.GetByteCount(body)}\r\n\r\n"), .. Encoding.UTF8.GetBytes(body)];

    private void Listen()
    {
        using var input = new BufferedStream(process.StandardOutput.BaseStream, 1 << 16);
        while (true)
        {
            var length = 0;
            while (Line(input) is { Length: > 0 } line)
                if (line.StartsWith("Content-Length: ", StringComparison.OrdinalIgnoreCase))
                    length = int.Parse(line.AsSpan(16), CultureInfo.InvariantCulture);
            if (length == 0)
            {
                End();
                return;
            }
            var body = new byte[length];
            input.ReadExactly(body);
            var now = Stopwatch.GetTimestamp();
            try
            {
                arrived.Add(new(now, JsonNode.Parse(body)!));
            }
            catch (Exception e) when (e is ObjectDisposedException or InvalidOperationException)
            {
                return;
            }
        }
    }

    // Who waits need not wait any longer.
    private void End()
    {
        try
        {
            arrived.CompleteAdding();
        }
        catch (ObjectDisposedException)
        {
            // Nobody waits.
        }
    }

    private static string Line(Stream input)
    {
        var text = new StringBuilder();
        for (int b; (b = input.ReadByte()) >= 0 && b != '\n';)
            if (b != '\r')
                text.Append((char)b);
        return text.ToString();
    }

    // A figure in kilobytes that the system keeps of a process; null where it keeps none.
    private static double? Status(int id, string name) => File.Exists($"/proc/{id}/status") && File.ReadLines($"/proc/{id}/status").FirstOrDefault(l => l.StartsWith(name, StringComparison.Ordinal)) is { } line
        ? double.Parse(line.AsSpan(name.Length, line.Length - name.Length - 2), CultureInfo.InvariantCulture) : null;

    private static IEnumerable<int> Tree(int id) => File.ReadAllText($"/proc/{id}/task/{id}/children").Split(' ', StringSplitOptions.RemoveEmptyEntries)
        .SelectMany(c => Tree(int.Parse(c, CultureInfo.InvariantCulture))).Prepend(id);
}
