// Pages with sound in a real browser whose clock is turned by hand: what is struck when, at which pitch, and that the keyboard reaches every word.
using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;
using ChordLang.Interchange.Sheet;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.Sheet;

/// <summary>Pages and pictures are left in <c>.artifacts/heard</c>.</summary>
[Trait("Needs", "browser")]
public sealed class HeardTests(HeardTests.Heard heard) : IClassFixture<HeardTests.Heard>
{
    private const string Folder = ".artifacts/heard";

    // Seconds: onsets are printed to hundred-thousandths, and added up in the page.
    private const double Close = 0.002;

    // Repeats and endings, leaps, a pickup, free time, compound meter, two voices: what makes seconds hard.
    private static readonly string[] Played = ["umbrella-stand", "second-window", "porch-step", "five-gates", "ferry-at-dusk", "millwheel", "small-tools"];

    /// <summary>Opens all pages once.</summary>
    public sealed class Heard
    {
        public Heard()
        {
            var folder = Repository.At(Folder);
            if (Directory.Exists(folder))
                Directory.Delete(folder, true);
            Directory.CreateDirectory(folder);
            foreach (var name in Played)
            {
                var (piece, placed) = Drawn.Sample($"samples/valid/{name}.chl");
                File.WriteAllText(Path.Combine(folder, name + ".html"), SheetPage.Html(piece, placed, new() { Sound = true, Practise = new HashSet<int> { 2 } }), new UTF8Encoding(false));
            }
            var start = new ProcessStartInfo("node") { UseShellExecute = false, RedirectStandardError = true };
            foreach (var argument in (string[])[Repository.At("tests/External/hear.mjs"), folder, BrowserTests.Seen.Browser()])
                start.ArgumentList.Add(argument);
            using var node = Process.Start(start)!;
            var error = node.StandardError.ReadToEnd();
            node.WaitForExit();
            Assert.True(node.ExitCode == 0, error);
            Pages = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(folder, "heard.json"))).RootElement;
        }

        public JsonElement Pages { get; }
    }

    public static TheoryData<string> Names => [.. Played];

    // The MIDI number whose pitch was measured in the samples that the page made; 0 for a knock. A tenth of a semitone is allowed.
    private List<(double At, int Midi)> Struck(string name, string what)
    {
        var page = heard.Pages.GetProperty(name);
        var pitches = page.GetProperty("pitches").EnumerateArray().Select(p =>
        {
            var midi = p.GetDouble() == 0 ? 0 : 69 + 12 * Math.Log2(p.GetDouble() / 440);      // ISO 16: A4 is 440 Hz, MIDI 69
            Assert.True(Math.Abs(midi - Math.Round(midi)) < 0.1, string.Create(CultureInfo.InvariantCulture, $"{name}: a string sounds {midi:0.00}"));
            return (int)Math.Round(midi);
        }).ToList();
        return [.. page.GetProperty(what).GetProperty("started").EnumerateArray().Select(s => (s[0].GetDouble(), pitches[s[1].GetInt32()]))];
    }

    // What was stopped is held against the model until shortly before: the page hands notes over a moment ahead.
    private static void Same(IEnumerable<(double At, int Midi)> wanted, IReadOnlyList<(double At, int Midi)> struck, bool stopped = false)
    {
        var until = stopped ? struck.Max(n => n.At) - struck.Min(n => n.At) - 0.2 : double.PositiveInfinity;
        var (one, other) = (Sorted(wanted), Sorted(struck));
        Assert.NotEmpty(other);
        Assert.Equal(one.Select(n => n.Midi), other.Select(n => n.Midi));
        Assert.All(one.Zip(other), p => Assert.Equal(p.First.At, p.Second.At, Close));

        List<(double At, int Midi)> Sorted(IEnumerable<(double At, int Midi)> notes)
        {
            var list = notes.ToList();
            var first = list.Min(n => n.At);
            return [.. list.Select(n => (n.At - first, n.Midi)).Where(n => n.Item1 < until).OrderBy(n => n.Midi).ThenBy(n => n.Item1)];
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_whole_is_struck_as_the_exported_file_says(string name) => Same(PlayedThroughTests.Exported(Drawn.Sample($"samples/valid/{name}.chl").Piece), Struck(name, "whole"));

    [Theory]
    [MemberData(nameof(Names))]
    public void A_line_comes_again_without_a_gap_and_stops_when_told(string name)
    {
        var (piece, placed) = Drawn.Sample($"samples/valid/{name}.chl");
        var played = PlayedThrough.Of(piece);
        var line = SheetWriter.Systems(piece, placed, new())[0];
        bool On(int i) => i < played.Bars.Length && played.Bars[i].Index >= line.FirstBar && played.Bars[i].Index <= line.LastBar;
        var first = Enumerable.Range(0, played.Bars.Length).First(On);
        var last = first;
        while (On(last + 1) && played.Bars[last + 1].Index > played.Bars[last].Index)
            last++;
        var length = played.Bars[last].Start + played.Bars[last].Length - played.Bars[first].Start;
        var once = played.Notes.Where(n => n.Bar >= first && n.Bar <= last).Select(n => (n.Onset - played.Bars[first].Start, n.Midi)).ToList();
        var struck = Struck(name, "again");
        Assert.True(struck.Count > once.Count, "it is not played again");
        var rounds = Enumerable.Range(0, struck.Count / once.Count + 1).SelectMany(r => once.Select(n => (n.Item1 + r * length, n.Midi)));
        Same(rounds, struck, true);
        Assert.True(heard.Pages.GetProperty(name).GetProperty("silent").GetBoolean());
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Slower_stretches_time_and_leaves_the_pitch_and_a_count_goes_before(string name)
    {
        const double speed = 0.8;
        var played = PlayedThrough.Of(Drawn.Sample($"samples/valid/{name}.chl").Piece);
        var struck = Struck(name, "slower");
        var bar = played.Bars[0];
        var knocks = struck.Where(n => n.Midi == 0).ToList();
        Assert.Equal((int)Math.Ceiling(bar.Lead / bar.Click - 1e-6), knocks.Count);
        var wanted = Enumerable.Range(0, knocks.Count).Select(k => (k * bar.Click / speed, 0)).Concat(played.Notes.Select(n => ((bar.Lead + n.Onset) / speed, n.Midi)));
        Same(wanted, struck, true);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Nothing_begins_by_itself_and_the_words_say_what_they_do(string name)
    {
        var page = heard.Pages.GetProperty(name);
        Assert.Equal(0, page.GetProperty("untouched").GetInt32());
        Assert.Equal("Stop", page.GetProperty("stop").GetString());
        Assert.Equal("Hear from here", page.GetProperty("after").GetString());
        Assert.True(page.GetProperty("left").GetBoolean(), "a voice left out still sounds");
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_keyboard_reaches_every_word_and_an_accessibility_checker_finds_nothing_serious(string name)
    {
        var page = heard.Pages.GetProperty(name);
        Assert.Equal(page.GetProperty("words")[0].GetInt32(), page.GetProperty("words")[1].GetInt32());
        Assert.DoesNotContain(page.GetProperty("light").EnumerateArray().Concat(page.GetProperty("dark").EnumerateArray()).Select(v => v.GetString()!),
            v => v.StartsWith("serious", StringComparison.Ordinal) || v.StartsWith("critical", StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Nothing_is_fetched_nothing_is_complained_of_and_no_handler_stands_in_the_text(string name)
    {
        var page = heard.Pages.GetProperty(name);
        Assert.Equal(1, page.GetProperty("asked").GetInt32());
        Assert.Equal(0, page.GetProperty("scripts").GetInt32());
        Assert.Empty(page.GetProperty("trouble").EnumerateArray());
    }
}
