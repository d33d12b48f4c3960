// `chordlang practice`: the bars ranked by how hard they likely are for the hand, and why.
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Practice;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

internal sealed record PracticeJson(int Version, IReadOnlyList<PracticeFileJson> Files);
internal sealed record PracticeFileJson(string Path, IReadOnlyList<SpotJson> Spots, string Caution);
internal sealed record SpotJson(IReadOnlyList<int> Bars, double Score, IReadOnlyList<string> Reasons, string Hint, SpotNumbersJson Numbers);
internal sealed record SpotNumbersJson(
    double StretchMm, double AtEaseMm, int Fingers, double TravelMm, double? ShiftMm, double? ShiftSeconds, double? ShiftLikelySeconds,
    int FingerChanges, int RingHolds, int OpenRingHolds, int Strokes, double Seconds, double Tempo, bool TempoAssumed);

/// <inheritdoc/>
internal sealed class PracticeCommand : Command
{
    public override string Name => "practice";

    public override string Takes => "FILE, FOLDER or - …";

    public override string Summary => "Ranks the bars by how hard they likely are for the left hand, and says why and how to practise";

    public override IReadOnlyList<Option> Options { get; } =
    [
        Format,
        new("--most", "N", "how many spots are shown of each file (default: 5; 0 for all)"),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("practice needs a file, a folder, or - for standard input.");
        var most = arguments["--most"] is not { } text ? 5
            : int.TryParse(text, out var n) && n >= 0 ? n : throw new MisuseException("--most wants a whole number: --most 5.");
        var (code, told) = (Clean, new List<PracticeFileJson>());
        foreach (var read in Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]))
        {
            var source = read();
            if (source.Text is null)
            {
                terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(source.Path)} cannot be read: {source.Trouble}.");
                code = Trouble;
                continue;
            }
            var library = new Library(source.FullPath);
            var spots = PracticeSpots.Of(Binder.Bind(SyntaxTree.Parse(source.Text), library), library);
            told.Add(new(source.Path, [.. spots.Take(most == 0 ? spots.Length : most).Select(Told)], Caution.Text));
            if (!arguments.Json)
                Write(told[^1], terminal);
        }
        if (arguments.Json)
            terminal.Out.WriteLine(JsonSerializer.Serialize(new PracticeJson(1, told), Json.Plain.PracticeJson));
        return code;
    }

    private static SpotJson Told(PracticeSpot spot)
    {
        var n = spot.Numbers;
        return new([.. spot.Bars], Math.Round(spot.Score, 1), [.. spot.Reasons], spot.Hint, new(
            Math.Round(n.Span, 1), Math.Round(n.AtEase, 1), n.Fingers, Math.Round(n.Travel, 1), n.Shift is { } s ? Math.Round(s.Millimetres, 1) : null,
            n.Shift is null ? null : Math.Round(n.ShiftSeconds, 2), n.Shift is { } likely ? Math.Round(likely.Seconds, 2) : null,
            n.Changes, n.Holds, n.OpenHolds, n.Strikes, Math.Round(n.Seconds, 2), n.Tempo, n.Assumed));
    }

    private static void Write(PracticeFileJson file, Terminal terminal)
    {
        terminal.Out.WriteLine(Terminal.Harmless(file.Path));
        if (file.Spots.Count == 0)
            terminal.Out.WriteLine("  Nothing in it has to be held by the left hand.");
        for (var i = 0; i < file.Spots.Count; i++)
        {
            var spot = file.Spots[i];
            terminal.Out.WriteLine($"  {i + 1}. {Bars(spot.Bars)}, likely {(i == 0 ? "the hardest" : "next")} (score {spot.Score:0.0})");
            foreach (var reason in spot.Reasons)
                terminal.Out.WriteLine($"     {reason}");
            terminal.Out.WriteLine($"     {spot.Hint}");
        }
        terminal.Out.WriteLine($"  {file.Caution}\n");
    }

    private static string Bars(IReadOnlyList<int> bars) => bars.Count == 1 ? (bars[0] == 0 ? "Pickup" : $"Bar {bars[0]}")
        : $"Bars {string.Join(", ", bars.Take(bars.Count - 1))} and {bars[^1]}";
}
