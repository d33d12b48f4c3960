// A client of our own server in this process, for its self-test: it writes real frames and reads real frames.
using System.Globalization;
using System.IO.Pipelines;
using System.Text;
using System.Text.Json;

namespace ChordLang.Server.Lsp.Checking;

/// <summary>A session with a server in this process.</summary>
internal sealed class Probe : IAsyncDisposable
{
    private readonly Pipe toServer = new(new(pauseWriterThreshold: 0)), fromServer = new(new(pauseWriterThreshold: 0));
    private readonly Stream input, output;
    private readonly Task<int> server;
    private readonly List<string> log = [];
    private int lastId;

    /// <summary>Starts a server.</summary>
    public Probe()
    {
        (input, output) = (toServer.Writer.AsStream(), fromServer.Reader.AsStream());
        server = Session.Run(toServer.Reader.AsStream(), fromServer.Writer.AsStream(), m => { lock (log) log.Add(m); });
    }

    /// <summary>What the server wrote of troubles.</summary>
    public IReadOnlyList<string> Log
    {
        get
        {
            lock (log)
                return [.. log];
        }
    }

    /// <summary>Sends a request; answers its id.</summary>
    public async Task<int> Send(string method, string parameters)
    {
        await Write($"{{\"jsonrpc\":\"2.0\",\"id\":{(++lastId).ToString(CultureInfo.InvariantCulture)},\"method\":\"{method}\",\"params\":{parameters}}}").ConfigureAwait(false);
        return lastId;
    }

    /// <summary>Sends a notification.</summary>
    public Task Tell(string method, string parameters) => Write($"{{\"jsonrpc\":\"2.0\",\"method\":\"{method}\",\"params\":{parameters}}}");

    /// <summary>The next answer, in the order in which the server gives them. Requests of the server are answered with nothing, what it tells is dropped.</summary>
    public async Task<JsonElement> Answer()
    {
        while (true)
        {
            var message = await Read().ConfigureAwait(false);
            if (!message.TryGetProperty("method", out _))
                return message;
            if (message.TryGetProperty("id", out var id))
                await Write($"{{\"jsonrpc\":\"2.0\",\"id\":{id.GetRawText()},\"result\":null}}").ConfigureAwait(false);
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await toServer.Writer.CompleteAsync().ConfigureAwait(false);
        await server.ConfigureAwait(false);
    }

    private async Task Write(string body)
    {
        var bytes = Encoding.UTF8.GetBytes(body);
        await input.WriteAsync(Encoding.ASCII.GetBytes($"Content-Length: {bytes.Length.ToString(CultureInfo.InvariantCulture)}\r\n\r\n")).ConfigureAwait(false);
        await input.WriteAsync(bytes).ConfigureAwait(false);
        await input.FlushAsync().ConfigureAwait(false);
    }

    private async Task<JsonElement> Read()
    {
        var (header, one) = (new StringBuilder(), new byte[1]);
        while (header.Length < 4 || header[^1] != '\n' || header[^3] != '\n')
        {
            if (await output.ReadAsync(one).ConfigureAwait(false) == 0)
                throw new IOException($"the server has ended: {string.Join("; ", Log)}");
            header.Append((char)one[0]);
        }
        var length = header.ToString().Split("\r\n").First(l => l.StartsWith("Content-Length: ", StringComparison.Ordinal))[16..];
        var body = new byte[int.Parse(length, CultureInfo.InvariantCulture)];
        await output.ReadExactlyAsync(body).ConfigureAwait(false);
        using var document = JsonDocument.Parse(body);
        return document.RootElement.Clone();
    }
}
