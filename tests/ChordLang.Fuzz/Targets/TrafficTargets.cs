// The real loop of the server, fed what no client should send: each question has one answer, nothing else is on the wire, and no message breaks it.
using System.Globalization;
using System.IO.Pipelines;
using System.Text;
using System.Text.Json;
using ChordLang.Fuzz.Generating;
using ChordLang.Server.Lsp;

namespace ChordLang.Fuzz.Targets;

internal static class TrafficTargets
{
    private const int InternalError = -32603;
    private const string Last = "\"the last\"";

    public static Target[] All { get; } =
    [
        new("messages", "each request has one answer, none breaks off, and the session lasts as long as what comes is JSON-RPC", 4, Traffic.Session, Messages) { Damage = (d, text, other) => Mutations.Text(d, text, other, Traffic.Tokens) },
        new("frames", "whatever the bytes, the session ends by itself, answers no request twice, and writes whole frames only", 6, Traffic.Frames, Frames) { Damage = Mutations.Bytes },
    ];

    private static string? Messages(string input) => Converse(input.Split('\n')).GetAwaiter().GetResult();

    private static async Task<string?> Converse(string[] bodies)
    {
        var (toServer, fromServer) = (new Pipe(new(pauseWriterThreshold: 0)), new Pipe(new(pauseWriterThreshold: 0)));
        var (input, output, log) = (toServer.Writer.AsStream(), fromServer.Reader.AsStream(), new List<string>());
        var server = Serve(toServer.Reader.AsStream(), fromServer.Writer.AsStream(), log);
        var (asked, answered, mayEnd, stopped) = (new Dictionary<string, int>(), new Dictionary<string, int>(), false, false);
        foreach (var body in bodies)
        {
            var bytes = Encoding.UTF8.GetBytes(body);
            await Write(input, bytes).ConfigureAwait(false);
            var (kind, id) = Kind(bytes);
            mayEnd |= kind == MessageKind.Broken;
            if (kind == MessageKind.Request && !mayEnd)
                asked[id!] = asked.GetValueOrDefault(id!) + 1;
        }
        await Write(input, Encoding.UTF8.GetBytes($"{{\"jsonrpc\":\"2.0\",\"id\":{Last},\"method\":\"shutdown\"}}")).ConfigureAwait(false);
        asked[Last] = asked.GetValueOrDefault(Last) + 1;
        var frames = new FrameReader(output);
        // Until all is answered; a session that ends before has no more frames.
        while (asked.Any(a => answered.GetValueOrDefault(a.Key) < a.Value) && await frames.Next().ConfigureAwait(false) is { } frame)
        {
            if (frames.Trouble is not null)
                return frames.Trouble;
            using var message = JsonDocument.Parse(frame);
            var root = message.RootElement;
            var id = root.TryGetProperty("id", out var given) ? given.GetRawText() : null;
            if (root.TryGetProperty("method", out var method))
            {
                if (id is not null)
                    await Write(input, Encoding.UTF8.GetBytes($"{{\"jsonrpc\":\"2.0\",\"id\":{id},\"result\":null}}")).ConfigureAwait(false);
                else if (method.GetString() == "window/logMessage" && frame.Contains("could not be worked out", StringComparison.Ordinal))
                    return $"findings broke off: {frame}";
                continue;
            }
            answered[id ?? "null"] = answered.GetValueOrDefault(id ?? "null") + 1;
            if (root.TryGetProperty("error", out var error) && error.GetProperty("code").GetInt32() == InternalError && Asked(string.Join('\n', bodies), id ?? "null") < 2)
                return $"a request broke off: {frame}";
            stopped |= id == Last && root.TryGetProperty("result", out _);
        }
        if (frames.Trouble is not null)
            return frames.Trouble;
        if (answered.FirstOrDefault(a => !mayEnd && a.Value > asked.GetValueOrDefault(a.Key)) is { Value: > 0 } twice)
            return $"request {twice.Key} was asked {asked.GetValueOrDefault(twice.Key)} times and answered {twice.Value} times";
        var over = asked.Any(a => answered.GetValueOrDefault(a.Key) < a.Value);
        if (over && !mayEnd)
            return $"the session ended before its time: {string.Join("; ", log)}";
        if (!over)
            await Write(input, "{\"jsonrpc\":\"2.0\",\"method\":\"exit\"}"u8.ToArray()).ConfigureAwait(false);
        await input.DisposeAsync().ConfigureAwait(false);
        var code = await server.ConfigureAwait(false);
        // Without initialize there is nothing to shut down.
        return code == 0 || over || !stopped || mayEnd ? null : $"the exit code is {code}: {string.Join("; ", log)}";
    }

    private static async Task<int> Serve(Stream input, Stream output, List<string> log)
    {
        try
        {
            return await Task.Run(() => Session.Run(input, output, m => { lock (log) log.Add(m); })).ConfigureAwait(false);
        }
        finally
        {
            await output.DisposeAsync().ConfigureAwait(false);
        }
    }

    private static async Task Write(Stream stream, byte[] body)
    {
        try
        {
            await stream.WriteAsync(Encoding.ASCII.GetBytes($"Content-Length: {body.Length.ToString(CultureInfo.InvariantCulture)}\r\n\r\n")).ConfigureAwait(false);
            await stream.WriteAsync(body).ConfigureAwait(false);
            await stream.FlushAsync().ConfigureAwait(false);
        }
        catch (InvalidOperationException)
        {
            // The server has ended; what is left on the wire is still looked at.
        }
    }

    private static string? Frames(string input)
    {
        var log = new List<string>();
        using var output = new MemoryStream();
        var code = Session.Run(new MemoryStream(Encoding.Latin1.GetBytes(input)), output, m => { lock (log) log.Add(m); }).GetAwaiter().GetResult();
        var frames = new FrameReader(new MemoryStream(output.ToArray()));
        var answered = new HashSet<string>();
        while (frames.Next().GetAwaiter().GetResult() is { } frame)
        {
            using var message = JsonDocument.Parse(frame);
            var root = message.RootElement;
            if (!root.TryGetProperty("method", out _) && root.TryGetProperty("id", out var id) && !answered.Add(id.GetRawText()) && Asked(input, id.GetRawText()) < 2)
                return $"request {id} is answered twice";
            if (root.TryGetProperty("error", out var error) && error.GetProperty("code").GetInt32() == InternalError && Asked(input, root.GetProperty("id").GetRawText()) < 2)
                return $"a request broke off: {frame}";
        }
        return frames.Trouble ?? (code is 0 or 1 ? null : $"the exit code is {code}");
    }

    // How often an id may have been asked; two questions of one id at a time are the client's fault.
    private static int Asked(string input, string id) => System.Text.RegularExpressions.Regex.Count(input, $"\"id\"\\s*:\\s*{System.Text.RegularExpressions.Regex.Escape(id)}");

    private enum MessageKind { Request, Other, Broken }

    // What a body is by the rules of JSON-RPC 2.0 (id a text, a whole number or null; parameters an object or an array). What ends a session by the protocol is broken too.
    private static (MessageKind Kind, string? Id) Kind(byte[] body)
    {
        try
        {
            using var document = JsonDocument.Parse(body);
            var root = document.RootElement;
            if (root.ValueKind != JsonValueKind.Object || !root.TryGetProperty("jsonrpc", out var rpc) || rpc.ValueKind != JsonValueKind.String || rpc.GetString() != "2.0" || root.EnumerateObject().GroupBy(p => p.Name).Any(g => g.Count() > 1))
                return (MessageKind.Broken, null);
            if (!root.TryGetProperty("method", out var method) || method.ValueKind != JsonValueKind.String || root.TryGetProperty("result", out _) || root.TryGetProperty("error", out _))
                return (MessageKind.Broken, null);
            if (method.GetString() is "exit" or "shutdown" || method.GetString() == "initialize" && root.TryGetProperty("params", out var given) && given.ValueKind == JsonValueKind.Object && given.TryGetProperty("processId", out var process) && process.ValueKind == JsonValueKind.Number)
                return (MessageKind.Broken, null);
            if (root.TryGetProperty("params", out var parameters) && parameters.ValueKind is not (JsonValueKind.Object or JsonValueKind.Array))
                return (MessageKind.Broken, null);
            if (!root.TryGetProperty("id", out var id))
                return (MessageKind.Other, null);
            return id.ValueKind == JsonValueKind.String && id.GetString() is not null || id.ValueKind == JsonValueKind.Number && id.TryGetInt64(out var n) && id.GetRawText() == n.ToString(CultureInfo.InvariantCulture) ? (MessageKind.Request, id.GetRawText()) : (MessageKind.Broken, null);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return (MessageKind.Broken, null);
        }
    }
}

/// <summary>Reads frames as the protocol has them and no other way.</summary>
internal sealed class FrameReader(Stream stream)
{
    private readonly byte[] one = new byte[1];

    /// <summary>What stood on the wire that is no frame, or null.</summary>
    public string? Trouble { get; private set; }

    /// <summary>The next body, or null at the end or at the first thing that is no frame.</summary>
    public async Task<string?> Next()
    {
        var header = new StringBuilder();
        while (!header.ToString().EndsWith("\r\n\r\n", StringComparison.Ordinal))
        {
            if (header.Length > 200 || await stream.ReadAsync(one).ConfigureAwait(false) == 0)
            {
                Trouble = header.Length > 0 ? $"on the wire stands what is no frame: {header}" : null;
                return null;
            }
            header.Append((char)one[0]);
        }
        if (!header.ToString().StartsWith("Content-Length: ", StringComparison.Ordinal) || !int.TryParse(header.ToString()[16..].Split("\r\n")[0], NumberStyles.None, CultureInfo.InvariantCulture, out var length))
        {
            Trouble = $"on the wire stands what is no frame: {header}";
            return null;
        }
        var body = new byte[length];
        var read = await stream.ReadAtLeastAsync(body, length, throwOnEndOfStream: false).ConfigureAwait(false);
        if (read < length)
        {
            Trouble = $"a frame of {length} bytes ends after {read}";
            return null;
        }
        return Encoding.UTF8.GetString(body);
    }
}
