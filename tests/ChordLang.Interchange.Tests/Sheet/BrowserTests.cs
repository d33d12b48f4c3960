// Every sample's sheet in a real browser: measured by its boxes, read by an accessibility checker, printed, and photographed for whoever wants to look.
using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Sheet;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.Sheet;

/// <summary>Pictures, PDFs and measures are left in <c>.artifacts/sheets</c>.</summary>
[Trait("Needs", "browser")]
public sealed class BrowserTests(BrowserTests.Seen seen) : IClassFixture<BrowserTests.Seen>
{
    private const string Folder = ".artifacts/sheets";

    // Technique, two voices, compound meter, repeats and a wide tuning: what tablature alone has to show.
    private static readonly string[] Large = ["small-tools", "two-sparrows", "millwheel", "porch-step", "cellar-lamp"];

    /// <summary>Opens all sheets once.</summary>
    public sealed class Seen
    {
        public Seen()
        {
            var folder = Repository.At(Folder);
            if (Directory.Exists(folder))
                Directory.Delete(folder, true);
            Directory.CreateDirectory(folder);
            foreach (var sample in Drawn.Samples)
            {
                var (piece, placed) = Drawn.Sample(sample);
                var name = Path.GetFileNameWithoutExtension(sample);
                Write(folder, name, SheetPage.Html(piece, placed, new()));
                if (Large.Contains(name))
                    Write(folder, name + "-tab-large", SheetPage.Html(piece, placed, new() { Staves = Staves.Tab, Large = true }));
            }
            var start = new ProcessStartInfo("node") { UseShellExecute = false, RedirectStandardError = true };
            foreach (var argument in (string[])[Repository.At("tests/External/sheets.mjs"), folder, Browser()])
                start.ArgumentList.Add(argument);
            using var node = Process.Start(start)!;
            var error = node.StandardError.ReadToEnd();
            node.WaitForExit();
            Assert.True(node.ExitCode == 0, error);
            Sheets = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(folder, "seen.json"))).RootElement;
        }

        public JsonElement Sheets { get; }

        private static void Write(string folder, string name, string page) => File.WriteAllText(Path.Combine(folder, name + ".html"), page, new UTF8Encoding(false));

        public static string Browser() => Environment.GetEnvironmentVariable("CHORDLANG_BROWSER") is { Length: > 0 } named ? named
            : (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).SelectMany(f => (string[])[Path.Combine(f, "chromium"), Path.Combine(f, "google-chrome")]).First(File.Exists);
    }

    private sealed record Box(string Words, string Kind, int System, string? Group, double Scale, double Left, double Right, double Top, double Bottom, Dictionary<string, string> Data)
    {
        public double Overlap(Box other) => Math.Min(Math.Min(Right, other.Right) - Math.Max(Left, other.Left), Math.Min(Bottom, other.Bottom) - Math.Max(Top, other.Top));
    }

    [Fact]
    public void No_text_lies_on_another()
    {
        var trouble = new List<string>();
        foreach (var (name, boxes) in Sheets())
            foreach (var system in boxes.GroupBy(b => b.System))
            {
                var texts = system.OrderBy(b => b.Left).ToList();
                for (var i = 0; i < texts.Count; i++)
                    for (var j = i + 1; j < texts.Count && texts[j].Left < texts[i].Right; j++)
                        if (texts[i].Overlap(texts[j]) > 0.4 && (texts[i].Group is null || texts[i].Group != texts[j].Group))
                            trouble.Add(string.Create(CultureInfo.InvariantCulture, $"{name}, line {system.Key + 1}: {texts[i].Words} on {texts[j].Words}, by {texts[i].Overlap(texts[j]):0.0} px"));
            }
        Assert.Empty(trouble);
    }

    [Fact]
    public void Equal_times_of_a_bar_have_equal_room_within_15_percent()
    {
        var trouble = new List<string>();
        foreach (var sample in Drawn.Samples)
        {
            var (piece, _) = Drawn.Sample(sample);
            foreach (var name in (string[])[Path.GetFileNameWithoutExtension(sample), Path.GetFileNameWithoutExtension(sample) + "-tab-large"])
            {
                if (!seen.Sheets.TryGetProperty(name, out _))
                    continue;
                var numbers = Boxes(name).Where(b => b.Kind.StartsWith("d ", StringComparison.Ordinal) && b.Data.ContainsKey("fret") && !b.Data.ContainsKey("grace")).ToLookup(b => b.Data["bar"]);
                foreach (var bar in piece.Bars)
                {
                    // Only neighbours between which nothing stands: what begins off the beat and outlasts it is cut and tied.
                    var count = bar.Settings.Meter.Count;
                    bool Whole((Rational First, Rational Second) p) => p.Second - p.First <= count || !bar.Settings.Meter.Compound && ((p.First - bar.Start) / count).IsWhole;
                    var times = bar.Rows.SelectMany(r => r.Events).Select(e => e.Onset).Distinct().Order().ToList();
                    var x = numbers[bar.Number.ToString(CultureInfo.InvariantCulture)].GroupBy(b => b.Data["count"]).ToDictionary(g => g.Key, g => g.Average(b => (b.Left + b.Right) / 2));
                    foreach (var gaps in times.Zip(times.Skip(1)).Where(p => Whole(p) && x.ContainsKey(bar.CountOf(p.First)) && x.ContainsKey(bar.CountOf(p.Second)))
                        .GroupBy(p => p.Second - p.First, p => x[bar.CountOf(p.Second)] - x[bar.CountOf(p.First)]))
                        if (gaps.Max() > gaps.Min() * 1.15)
                            trouble.Add(string.Create(CultureInfo.InvariantCulture, $"{name}, bar {bar.Number}: {gaps.Key} of a whole has {gaps.Min():0.0} to {gaps.Max():0.0} px"));
                }
            }
        }
        Assert.Empty(trouble);
    }

    [Fact]
    public void Chord_names_stand_within_4_px_of_their_count()
    {
        var trouble = new List<string>();
        foreach (var (name, boxes) in Sheets())
        {
            var numbers = boxes.Where(b => b.Data.ContainsKey("fret") && !b.Data.ContainsKey("grace")).GroupBy(b => (b.Data["bar"], b.Data["count"])).ToDictionary(g => g.Key, g => g.Min(b => b.Left));
            foreach (var chord in boxes.Where(b => b.Data.ContainsKey("symbol")).GroupBy(b => (b.System, b.Group)))
                if (numbers.TryGetValue((chord.First().Data["bar"], chord.First().Data["count"]), out var x) && Math.Abs(chord.Min(b => b.Left) - x) / chord.First().Scale > 4)
                    trouble.Add(string.Create(CultureInfo.InvariantCulture, $"{name}, bar {chord.First().Data["bar"]}: {chord.First().Data["symbol"]} is {(chord.Min(b => b.Left) - x) / chord.First().Scale:0.0} px off"));
        }
        Assert.Empty(trouble);
    }

    [Fact]
    public void Nothing_runs_nothing_is_fetched_and_nothing_is_complained_of() => Assert.All(seen.Sheets.EnumerateObject(), sheet =>
    {
        Assert.Equal(0, sheet.Value.GetProperty("scripts").GetInt32());
        Assert.Equal(1, sheet.Value.GetProperty("asked").GetInt32());
        Assert.Empty(sheet.Value.GetProperty("trouble").EnumerateArray());
    });

    [Fact]
    public void An_accessibility_checker_finds_nothing_serious_by_day_and_by_night() => Assert.All(seen.Sheets.EnumerateObject(), sheet =>
        Assert.DoesNotContain(sheet.Value.GetProperty("light").EnumerateArray().Concat(sheet.Value.GetProperty("dark").EnumerateArray()).Select(v => v.GetString()!),
            v => v.StartsWith("serious", StringComparison.Ordinal) || v.StartsWith("critical", StringComparison.Ordinal)));

    [Fact]
    public void A_printed_line_is_never_cut_and_the_print_holds_no_picture() => Assert.All(seen.Sheets.EnumerateObject(), sheet =>
    {
        Assert.True(sheet.Value.GetProperty("unbroken").GetBoolean());
        // A4 less its margins is 267 mm high: about 1009 px of CSS.
        Assert.All(sheet.Value.GetProperty("heights").EnumerateArray(), h => Assert.InRange(h.GetDouble(), 40, 1000));
        var pdf = Encoding.Latin1.GetString(File.ReadAllBytes(Path.Combine(Repository.At(Folder), sheet.Name + ".pdf")));
        Assert.StartsWith("%PDF-", pdf, StringComparison.Ordinal);
        Assert.DoesNotContain("/Subtype /Image", pdf, StringComparison.Ordinal);
    });

    private IEnumerable<(string Name, List<Box> Boxes)> Sheets() => seen.Sheets.EnumerateObject().Select(s => (s.Name, Boxes(s.Name)));

    private List<Box> Boxes(string name) => [.. seen.Sheets.GetProperty(name).GetProperty("texts").EnumerateArray().Select(t => new Box(
        t.GetProperty("words").GetString()!, t.GetProperty("kind").GetString() + " ", t.GetProperty("system").GetInt32(), t.GetProperty("group").GetString(), t.GetProperty("scale").GetDouble(),
        t.GetProperty("left").GetDouble(), t.GetProperty("right").GetDouble(), t.GetProperty("top").GetDouble(), t.GetProperty("bottom").GetDouble(),
        t.GetProperty("data").EnumerateObject().ToDictionary(d => d.Name, d => d.Value.GetString()!)))];
}
