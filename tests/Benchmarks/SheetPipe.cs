// How long an editor waits for the live sheet: from the keystroke that is written to the pipe of the program to the answer that is read from it.
using System.Text.Json;
using System.Text.Json.Nodes;
using ChordLang.Grammar.Text;

namespace ChordLang.Benchmarks;

internal static class SheetPipe
{
    private const int Warm = 10, Edits = 60, Pause = 250;
    private const double Aim = 16;

    /// <summary>Measures and tells.</summary>
    /// <param name="options">The program.</param>
    /// <param name="text">The piece.</param>
    /// <param name="edited">The edit of a number, of one line.</param>
    public static void Run(Options options, string text, Func<string, int, TextEdit> edited)
    {
        var folder = Directory.CreateTempSubdirectory("chordlang-bench-").FullName;
        try
        {
            // Like one who looks before he types on, and like one who types on: then the findings of the keystroke before may still be worked out.
            foreach (var pause in (int[])[Pause, 0])
                Typed(options, text, edited, folder, pause);
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    private static void Typed(Options options, string text, Func<string, int, TextEdit> edited, string folder, int pause)
    {
        using var peer = new Peer([.. options.Program, "serve"], folder);
        peer.Initialize(pull: false);
        var uri = new Uri(Path.Combine(folder, "piece.chl")).AbsoluteUri;
        peer.Write(Peer.Notification("textDocument/didOpen", $"{{\"textDocument\":{{\"uri\":\"{uri}\",\"languageId\":\"chordlang\",\"version\":1,\"text\":\"{JsonEncodedText.Encode(text)}\"}}}}"));
        var known = Known(peer.Ask("chordlang/sheet", $"{{\"textDocument\":{{\"uri\":\"{uri}\"}}}}").Message);
        peer.Settle(Pause);
        var (times, bytes) = (new List<double>(), 0);
        for (var i = 0; i < Warm + Edits; i++)
        {
            var ((at, length), letters) = (edited(text, i).Span, edited(text, i).NewText);
            var (line, from) = (text.AsSpan(0, at).Count('\n'), at - text.LastIndexOf('\n', at) - 1);
            text = text[..at] + letters + text[(at + length)..];
            var range = $"{{\"start\":{{\"line\":{line},\"character\":{from}}},\"end\":{{\"line\":{line},\"character\":{from + length}}}}}";
            var (question, id) = peer.Request("chordlang/sheet", $"{{\"textDocument\":{{\"uri\":\"{uri}\"}},\"known\":{known}}}");
            var began = peer.Write(Peer.Notification("textDocument/didChange",
                $"{{\"textDocument\":{{\"uri\":\"{uri}\",\"version\":{i + 2}}},\"contentChanges\":[{{\"range\":{range},\"text\":\"{letters}\"}}]}}"), question);
            var answer = peer.Answer(id);
            if ((int)answer.Message["result"]!["version"]! != i + 2)
                throw new IOException("the sheet is not that of the text");
            known = Known(answer.Message);
            if (i >= Warm)
            {
                times.Add((answer.At - began) * 1000.0 / System.Diagnostics.Stopwatch.Frequency);
                bytes = Math.Max(bytes, answer.Message.ToJsonString().Length);
            }
            if (pause > 0)
                peer.Settle(pause);
        }
        times.Sort();
        Console.WriteLine($"over the pipe of the program {options.Kind}, {(pause > 0 ? "with a pause after each keystroke" : "one keystroke right after the other")}: keystroke to sheet {times[times.Count / 2]:0.0} ms "
            + $"(median of {times.Count}; least {times[0]:0.0}, one in ten over {times[times.Count * 9 / 10]:0.0}; aim {Aim:0} ms){(times[times.Count / 2] > Aim ? "  not reached here" : "")}, at most {bytes / 1000.0:0} kB, {peer.PeakMegabytes:0} MB at the peak");
    }

    private static string Known(JsonNode answer) =>
        new JsonArray([(string)answer["result"]!["look"]!["id"]!, .. answer["result"]!["parts"]!.AsArray().Select(p => (JsonNode)(string)p!["id"]!)]).ToJsonString();
}
