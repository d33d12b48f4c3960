// What is measured of a server: from the start of the process to what a typing user feels.
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ChordLang.Benchmarks;

/// <summary>Measures one server on one text.</summary>
internal sealed class Measure(Server server, int lines, bool brief) : IDisposable
{
    private const int Idle = 700, Pause = 15, Stride = 7919, Screen = 20, Fewest = 4, LinesAMillisecond = 20;
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(8), Patience = TimeSpan.FromSeconds(60), EditPatience = TimeSpan.FromSeconds(6);
    /// <summary>Names of rows that others ask for.</summary>
    public const string Keystroke = "keystroke to findings", Initialize = "start to initialize", First = "start to first findings", Memory = "peak memory, MB", After = " after an edit";

    private readonly (int Cold, int Edits, int Requests) rounds = brief ? (1, 8, 3) : (5, 60, 40);
    private readonly string folder = Directory.CreateTempSubdirectory("chordlang-bench-").FullName;
    private int version = 1, silent;

    /// <summary>All rows, and the peak of memory as the last.</summary>
    public IReadOnlyList<Row> Run()
    {
        var (uri, text) = Written();
        var (initialized, first) = (new List<double>(), new List<double>());
        for (var i = 0; i < rounds.Cold; i++)
        {
            using var cold = Start();
            initialized.Add(Ms(cold.Started, cold.Initialize(server.Pull)));
            first.Add(Ms(cold.Started, Open(cold, uri, text)));
        }
        using var peer = Ready(uri, text);
        var places = Places(text);
        var (blank, slip, mended) = (new List<double>(), new List<double>(), new List<double>());
        // A server that waits before it answers is not waited for sixty times.
        var watch = Stopwatch.StartNew();
        foreach (var (line, end) in places.Take(rounds.Edits).TakeWhile(_ => slip.Count < Fewest || watch.Elapsed < Longest))
        {
            Typed(peer, uri, line, end, 0, " ", blank);
            Typed(peer, uri, line, end, 1, "", blank);
            Typed(peer, uri, line, end, 0, JsonEncodedText.Encode($"{server.Language.Slip}").ToString(), slip);
            Typed(peer, uri, line, end, 1, "", mended);
        }
        return [new(Initialize, initialized), new(First, first), new(Keystroke, blank), new("… that makes an error", slip), new("… that mends it", mended),
            .. Asked.Select(a => Requests(peer, uri, places, a)).OfType<Row>(), new(Memory, [peer.PeakMegabytes])];
    }

    /// <summary>What may grow with the text: keystrokes all over it, at its beginning, in its middle and at its end, requests after an edit, memory.</summary>
    public IReadOnlyList<Row> Grown()
    {
        var (uri, text) = Written();
        using var peer = Ready(uri, text);
        var places = Places(text);
        var ordered = places.OrderBy(p => p.Line).ToList();
        Row Of(string where, IEnumerable<(int Line, int End)> chosen)
        {
            var (times, watch) = (new List<double>(), Stopwatch.StartNew());
            foreach (var (line, end) in chosen.Take(rounds.Edits).TakeWhile(_ => times.Count < 2 * Fewest || watch.Elapsed < Longest))
            {
                Typed(peer, uri, line, end, 0, " ", times);
                Typed(peer, uri, line, end, 1, "", times);
            }
            return new(Keystroke + where, times);
        }
        return [Of("", places), Of(", at the beginning", ordered), Of(", in the middle", ordered.Skip(ordered.Count / 2)), Of(", at the end", Enumerable.Reverse(ordered)),
            .. Asked.Select(a => Requests(peer, uri, places, a)).OfType<Row>(), new(Memory, [peer.PeakMegabytes])];
    }

    /// <inheritdoc/>
    public void Dispose() => Directory.Delete(folder, true);

    private static readonly (string Name, string Capability, string Method, string More)[] Asked =
    [
        ("hover", "hoverProvider", "textDocument/hover", "position"),
        ("completion", "completionProvider", "textDocument/completion", "position"),
        ("tokens", "semanticTokensProvider", "textDocument/semanticTokens/full", ""),
        ("changed tokens", "semanticTokensProvider", "textDocument/semanticTokens/full/delta", "previous"),
        ("symbols", "documentSymbolProvider", "textDocument/documentSymbol", ""),
        ("folding", "foldingRangeProvider", "textDocument/foldingRange", ""),
        ("hints", "inlayHintProvider", "textDocument/inlayHint", "lines"),
        ("actions", "codeActionProvider", "textDocument/codeAction", "range"),
        ("formatting", "documentFormattingProvider", "textDocument/formatting", "options"),
    ];

    private (string Uri, string Text) Written()
    {
        var text = server.Language.Write(lines);
        var path = Path.Combine(folder, "bench" + server.Language.Extension);
        File.WriteAllText(path, text);
        return (new Uri(path).AbsoluteUri, text);
    }

    private Peer Start() => new(server.Command, folder, server.Language.Settings);

    // Opened, and at rest: the whole text has been looked through.
    private Peer Ready(string uri, string text)
    {
        var peer = Start();
        peer.Initialize(server.Pull);
        Open(peer, uri, text);
        peer.Settle(Idle + lines / LinesAMillisecond);
        return peer;
    }

    private Row? Requests(Peer peer, string uri, IReadOnlyList<(int Line, int End)> places, (string Name, string Capability, string Method, string More) asked)
    {
        var delta = asked.More == "previous";
        if (!peer.Offers(asked.Capability) || delta && peer.Capabilities[asked.Capability]!["full"] is not JsonObject)
            return null;
        var (times, empty, watch) = (new List<double>(), 0, Stopwatch.StartNew());
        var previous = delta ? Id(peer.Ask("textDocument/semanticTokens/full", Document(uri)).Message) : null;
        foreach (var (line, end) in places.Take(rounds.Requests).TakeWhile(_ => times.Count < Fewest || watch.Elapsed < Longest))
        {
            var (time, answer) = Asking(peer, uri, line, end, asked.Method, asked.More, previous);
            if (answer["error"] is not null)
                return null;
            times.Add(time);
            empty += answer["result"] is null or JsonArray { Count: 0 } || answer["result"] is JsonObject { } o && (o["items"] is JsonArray { Count: 0 } || o["data"] is JsonArray { Count: 0 }) ? 1 : 0;
            previous = Id(answer) ?? previous;
        }
        return new(asked.Name + After, times, empty);
    }

    private static string? Id(JsonNode answer) => (answer["result"] as JsonObject)?["resultId"]?.ToJsonString();

    private long Open(Peer peer, string uri, string text)
    {
        version = 1;
        peer.Write(Peer.Notification("textDocument/didOpen", $"{{\"textDocument\":{{\"uri\":\"{uri}\",\"languageId\":\"{server.Language.Id}\",\"version\":1,\"text\":\"{JsonEncodedText.Encode(text)}\"}}}}"));
        return server.Pull && peer.Offers("diagnosticProvider") ? peer.Ask("textDocument/diagnostic", Document(uri)).At
            : (peer.Findings(1, Patience) ?? throw new TimeoutException("no findings of the opened text")).At;
    }

    private List<(int Line, int End)> Places(string text)
    {
        var all = text.Split('\n').Select((l, i) => (Text: l, Line: i)).Where(l => server.Language.Editable(l.Text)).Select(l => (l.Line, l.Text.Length)).ToArray();
        // All over the text, and the same on every run.
        return [.. Enumerable.Range(0, all.Length).Select(i => all[(int)((long)i * Stride % all.Length)]).Distinct()];
    }

    private void Typed(Peer peer, string uri, int line, int end, int take, string text, List<double> times)
    {
        peer.Settle(Pause);
        var change = Change(uri, line, end, take, text);
        if (server.Pull && peer.Offers("diagnosticProvider"))
        {
            var (ask, id) = peer.Request("textDocument/diagnostic", Document(uri));
            times.Add(Ms(peer.Write(change, ask), peer.Answer(id).At));
            return;
        }
        // Some tell nothing where nothing changed: those are not waited for again and again.
        var from = peer.Write(change);
        if (peer.Findings(version, silent > 2 ? TimeSpan.FromSeconds(1) : EditPatience) is { } told)
            times.Add(Ms(from, told.At));
        else
            silent++;
    }

    // A blank more, and the question in the same write; the blank goes again unmeasured.
    private (double Time, JsonNode Answer) Asking(Peer peer, string uri, int line, int end, string method, string more, string? previous)
    {
        peer.Settle(Pause);
        var at = string.Create(CultureInfo.InvariantCulture, $"{{\"line\":{line},\"character\":{Math.Max(0, end - 2)}}}");
        var (ask, id) = peer.Request(method, $"{{\"textDocument\":{{\"uri\":\"{uri}\"}}" + more switch
        {
            "position" => $",\"position\":{at}}}",
            "range" => $",\"range\":{{\"start\":{at},\"end\":{at}}},\"context\":{{\"diagnostics\":[]}}}}",
            "lines" => string.Create(CultureInfo.InvariantCulture, $",\"range\":{{\"start\":{{\"line\":{Math.Max(0, line - Screen)},\"character\":0}},\"end\":{{\"line\":{line + Screen},\"character\":0}}}}}}"),
            "options" => ",\"options\":{\"tabSize\":4,\"insertSpaces\":true}}",
            "previous" => $",\"previousResultId\":{previous ?? "\"0\""}}}",
            _ => "}",
        });
        var (from, answer) = (peer.Write(Change(uri, line, end, 0, " "), ask), peer.Answer(id));
        peer.Write(Change(uri, line, end, 1, ""));
        return (Ms(from, answer.At), answer.Message);
    }

    private byte[] Change(string uri, int line, int end, int take, string text) => Peer.Notification("textDocument/didChange", string.Create(CultureInfo.InvariantCulture,
        $"{{\"textDocument\":{{\"uri\":\"{uri}\",\"version\":{++version}}},\"contentChanges\":[{{\"range\":{{\"start\":{{\"line\":{line},\"character\":{end}}},\"end\":{{\"line\":{line},\"character\":{end + take}}}}},\"text\":\"{text}\"}}]}}"));

    private static string Document(string uri) => $"{{\"textDocument\":{{\"uri\":\"{uri}\"}}}}";

    private static double Ms(long from, long to) => (to - from) * 1000.0 / Stopwatch.Frequency;
}
