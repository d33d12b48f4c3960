// What is measured: from the start of the process to what a typing user feels.
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;

namespace ChordLang.Benchmarks;

/// <summary>Times of one kind, in milliseconds.</summary>
internal sealed record Row(string Name, IReadOnlyList<double> Times)
{
    /// <summary>The time in the middle.</summary>
    public double Median => Times.Count == 0 ? double.NaN : Times.Order().ElementAt(Times.Count / 2);

    /// <summary>Nineteen of twenty are below it.</summary>
    public double P95 => Times.Count == 0 ? double.NaN : Times.Order().ElementAt(Math.Min(Times.Count - 1, (int)Math.Ceiling(Times.Count * 0.95) - 1));
}

/// <summary>Measures one server on one text.</summary>
internal sealed class Measure(IReadOnlyList<string> command, Language language, int lines, bool pull, bool brief)
{
    private const int Idle = 700, Pause = 15, Stride = 7919, Screen = 20, Fewest = 8;
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(12);
    /// <summary>Names of rows that others ask for.</summary>
    public const string Keystroke = "keystroke to findings", Cold = "start to initialize";

    private readonly (int Cold, int Edits, int Requests) rounds = brief ? (1, 8, 3) : (5, 60, 40);
    private readonly string folder = Directory.CreateTempSubdirectory("chordlang-bench-").FullName;
    private int version = 1;

    /// <summary>All rows, and the peak of memory as the last, in megabytes.</summary>
    public IReadOnlyList<Row> Run()
    {
        try
        {
            var text = language.Write(lines);
            var path = Path.Combine(folder, "bench" + language.Extension);
            File.WriteAllText(path, text);
            var uri = new Uri(path).AbsoluteUri;
            var (initialized, first) = (new List<double>(), new List<double>());
            for (var i = 0; i < rounds.Cold; i++)
            {
                using var cold = new Peer(command, folder);
                initialized.Add(Ms(cold.Started, cold.Initialize(pull)));
                first.Add(Ms(cold.Started, Open(cold, uri, text)));
            }
            using var peer = new Peer(command, folder);
            peer.Initialize(pull);
            Open(peer, uri, text);
            peer.Settle(Idle);
            var places = Places(text);
            var rows = new List<Row> { new(Cold, initialized), new("start to first findings", first) };
            var (blank, slip, mended) = (new List<double>(), new List<double>(), new List<double>());
            // A server that waits before it answers is not waited for sixty times.
            var watch = Stopwatch.StartNew();
            foreach (var (line, end) in places.Take(rounds.Edits).TakeWhile(_ => slip.Count < Fewest || watch.Elapsed < Longest))
            {
                blank.Add(Typed(peer, uri, line, end, 0, " "));
                blank.Add(Typed(peer, uri, line, end, 1, ""));
                slip.Add(Typed(peer, uri, line, end, 0, $"{language.Slip}"));
                mended.Add(Typed(peer, uri, line, end, 1, ""));
            }
            rows.AddRange([new(Keystroke, blank), new("… that makes an error", slip), new("… that mends it", mended)]);
            foreach (var (name, capability, method, more) in Asked)
                if (peer.Offers(capability))
                    rows.Add(new(name + " after an edit", Times(places, p => Asking(peer, uri, p.Line, p.End, method, more))));
            rows.Add(new("peak memory, MB", [peer.PeakMegabytes]));
            return rows;
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    /// <summary>Keystrokes alone: all over the text, and at its beginning, in its middle and at its end.</summary>
    public IReadOnlyList<Row> Keystrokes()
    {
        try
        {
            var text = language.Write(lines);
            var uri = new Uri(Path.Combine(folder, "bench" + language.Extension)).AbsoluteUri;
            using var peer = new Peer(command, folder);
            peer.Initialize(pull);
            Open(peer, uri, text);
            peer.Settle(Idle + lines / 20);
            var places = Places(text);
            var ordered = places.OrderBy(p => p.Line).ToList();
            Row Of(string where, IEnumerable<(int Line, int End)> chosen) =>
                new(Keystroke + where, [.. chosen.Take(rounds.Edits).SelectMany(p => new[] { Typed(peer, uri, p.Line, p.End, 0, " "), Typed(peer, uri, p.Line, p.End, 1, "") })]);
            return [Of("", places), Of(" at the beginning", ordered), Of(" in the middle", ordered.Skip(ordered.Count / 2)), Of(" at the end", Enumerable.Reverse(ordered))];
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    private static readonly (string Name, string Capability, string Method, string More)[] Asked =
    [
        ("hover", "hoverProvider", "textDocument/hover", "position"),
        ("completion", "completionProvider", "textDocument/completion", "position"),
        ("tokens", "semanticTokensProvider", "textDocument/semanticTokens/full", ""),
        ("symbols", "documentSymbolProvider", "textDocument/documentSymbol", ""),
        ("folding", "foldingRangeProvider", "textDocument/foldingRange", ""),
        ("hints", "inlayHintProvider", "textDocument/inlayHint", "lines"),
        ("actions", "codeActionProvider", "textDocument/codeAction", "range"),
        ("formatting", "documentFormattingProvider", "textDocument/formatting", "options"),
    ];

    private List<double> Times(IReadOnlyList<(int Line, int End)> places, Func<(int Line, int End), double> asking)
    {
        var (times, watch) = (new List<double>(), Stopwatch.StartNew());
        foreach (var place in places.Take(rounds.Requests))
            if (times.Count < Fewest || watch.Elapsed < Longest)
                times.Add(asking(place));
        return times;
    }

    private long Open(Peer peer, string uri, string text)
    {
        version = 1;
        peer.Write(Peer.Notification("textDocument/didOpen", $"{{\"textDocument\":{{\"uri\":\"{uri}\",\"languageId\":\"{language.Id}\",\"version\":1,\"text\":\"{JsonEncodedText.Encode(text)}\"}}}}"));
        return pull && peer.Offers("diagnosticProvider") ? peer.Ask("textDocument/diagnostic", Document(uri)).At : peer.Findings(1).At;
    }

    private List<(int Line, int End)> Places(string text)
    {
        var all = text.Split('\n').Select((l, i) => (Text: l, Line: i)).Where(l => language.Editable(l.Text)).Select(l => (l.Line, l.Text.Length)).ToArray();
        // All over the text, and the same on every run.
        return [.. Enumerable.Range(0, all.Length).Select(i => all[(int)((long)i * Stride % all.Length)]).Distinct()];
    }

    private double Typed(Peer peer, string uri, int line, int end, int take, string text)
    {
        peer.Settle(Pause);
        var change = Change(uri, line, end, take, text);
        if (pull && peer.Offers("diagnosticProvider"))
        {
            var (ask, id) = peer.Request("textDocument/diagnostic", Document(uri));
            return Ms(peer.Write(change, ask), peer.Answer(id).At);
        }
        return Ms(peer.Write(change), peer.Findings(version).At);
    }

    // A blank more, and the question in the same write; the blank goes again unmeasured.
    private double Asking(Peer peer, string uri, int line, int end, string method, string more)
    {
        peer.Settle(Pause);
        var at = string.Create(CultureInfo.InvariantCulture, $"{{\"line\":{line},\"character\":{Math.Max(0, end - 2)}}}");
        var (ask, id) = peer.Request(method, $"{{\"textDocument\":{{\"uri\":\"{uri}\"}}" + more switch
        {
            "position" => $",\"position\":{at}}}",
            "range" => $",\"range\":{{\"start\":{at},\"end\":{at}}},\"context\":{{\"diagnostics\":[]}}}}",
            "lines" => string.Create(CultureInfo.InvariantCulture, $",\"range\":{{\"start\":{{\"line\":{Math.Max(0, line - Screen)},\"character\":0}},\"end\":{{\"line\":{line + Screen},\"character\":0}}}}}}"),
            "options" => ",\"options\":{\"tabSize\":4,\"insertSpaces\":true}}",
            _ => "}",
        });
        var time = Ms(peer.Write(Change(uri, line, end, 0, " "), ask), peer.Answer(id).At);
        peer.Write(Change(uri, line, end, 1, ""));
        return time;
    }

    private byte[] Change(string uri, int line, int end, int take, string text) => Peer.Notification("textDocument/didChange", string.Create(CultureInfo.InvariantCulture,
        $"{{\"textDocument\":{{\"uri\":\"{uri}\",\"version\":{++version}}},\"contentChanges\":[{{\"range\":{{\"start\":{{\"line\":{line},\"character\":{end}}},\"end\":{{\"line\":{line},\"character\":{end + take}}}}},\"text\":\"{text}\"}}]}}"));

    private static string Document(string uri) => $"{{\"textDocument\":{{\"uri\":\"{uri}\"}}}}";

    private static double Ms(long from, long to) => (to - from) * 1000.0 / Stopwatch.Frequency;
}
