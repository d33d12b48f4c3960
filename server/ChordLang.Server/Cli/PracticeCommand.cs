// `chordlang practice`: the bars ranked by how hard they likely are for the hand, and why.
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Practice;
using ChordLang.Features.Practice;
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
                terminal.Error.WriteLine($"chordlang: {Unreadable(source)}");
                code = Trouble;
                continue;
            }
            var library = new Library(source.FullPath);
            var spots = PracticeSpots.Of(Binder.Bind(SyntaxTree.Parse(source.Text), library), library);
            var shown = spots.Take(most == 0 ? spots.Length : most).ToList();
            told.Add(new(source.Path, [.. shown.Select(Told)], Caution.Text));
            if (!arguments.Json)
                terminal.Out.WriteLine($"{Terminal.Harmless(source.Path)}\n{string.Join('\n', PracticeLines.Of(shown).Select(l => "  " + l))}\n");
        }
        if (arguments.Json)
            terminal.Json(JsonSerializer.Serialize(new PracticeJson(1, told), Json.Plain.PracticeJson));
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
}
