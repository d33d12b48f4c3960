// What `analyse` prints and answers.
using System.Text.Json;
using ChordLang.Server.Cli;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Cli;

public sealed class AnalyseCommandTests
{
    // Common practice: two, five and one of C major, with the dominant of the two before them.
    private const string Chart = "meter 4/4\n\n| Cmaj7 3 A7 | Dm7 3 G7 | % | Cmaj7 | |\n";

    [Fact]
    public void Every_symbol_written_is_an_entry_and_a_repeated_bar_writes_its_chords_again()
    {
        using var document = JsonDocument.Parse(Call.With(Chart, "analyse", "-", "--format", "json").Out);
        var file = document.RootElement.GetProperty("files")[0];
        Assert.Equal(["path", "key", "keys", "chords", "skeleton"], file.EnumerateObject().Select(p => p.Name));
        Assert.Equal(("C", "major"), (file.GetProperty("key").GetProperty("tonic").GetString(), file.GetProperty("key").GetProperty("mode").GetString()));
        var chords = file.GetProperty("chords").EnumerateArray().ToList();
        Assert.Equal(["1:1 Cmaj7", "1:3 A7", "2:1 Dm7", "2:3 G7", "3:1 Dm7", "3:3 G7", "4:1 Cmaj7"],
            chords.Select(c => $"{c.GetProperty("bar")}:{c.GetProperty("count")} {c.GetProperty("symbol")}"));
        Assert.Equal([0, 9, 2, 7, 2, 7, 0], chords.Select(c => c.GetProperty("degree").GetInt32()));
        Assert.Equal("V7/ii", chords[1].GetProperty("numeral").GetString());
        Assert.Contains(chords[1].GetProperty("roles").EnumerateArray(), r => r.GetString() == "applied-dominant");
        Assert.Equal(2, chords[1].GetProperty("target").GetInt32());
        Assert.Single(chords, c => c.GetProperty("head").GetInt32() == -1);
    }

    // The chart of a player: bars in rows of four, a row for each section and the pickup, numerals under the chords; then the reductions.
    [Fact]
    public void People_read_the_chart_and_what_remains_of_it()
    {
        var text = Call.With("key C major\n\npickup from 4\n| G7\n\nsection A\n| Cmaj7 3 A7 | Dm7 3 G7 | Cmaj7 | | C6\nsection B\n| Fmaj7 | C6\n", "analyse", "-").Out;
        var lines = text.Split('\n').Select(l => l.Trim()).ToList();
        Assert.Contains(lines, l => l.StartsWith("pickup | 4 G7", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.StartsWith("1 | Cmaj7  3 A7", StringComparison.Ordinal) && l.Count(c => c == '|') == 5);
        Assert.Contains(lines, l => l.StartsWith("5 | C6", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.StartsWith("6 | Fmaj7", StringComparison.Ordinal));
        Assert.True(lines.IndexOf("What each chord does:") < lines.IndexOf("Without passing and related-two chords:"));
        Assert.True(lines.IndexOf("Without passing and related-two chords:") < lines.IndexOf("The backbone:"));
        Assert.DoesNotContain(lines.SkipWhile(l => l != "Without passing and related-two chords:"), l => l.Contains("Dm7", StringComparison.Ordinal));
        Assert.Contains(lines, l => l == "applied-dominant, to Dm7 in bar 2: A7 is the dominant of Dm7: it raises a tone to the leading tone of Dm7.");
    }

    // A reduction keeps the pace of the chart: the dominant stands where its related two stood (common practice of reducing), but never in an earlier
    // bar than its own.
    [Theory]
    [InlineData("| Cmaj7 | Dm7 3 G7 | Cmaj7 |", @"1 \| Cmaj7 \| G7 +\| Cmaj7 \|")]
    [InlineData("| Cmaj7 | Dm7 | G7 | Cmaj7 |", @"1 \| Cmaj7 \| +\| G7 +\| Cmaj7 \|")]
    public void What_remains_takes_the_time_of_what_prepared_it(string chart, string expected)
    {
        var lines = Call.With($"key C major\n\n{chart}\n", "analyse", "-").Out.Split('\n');
        var reduced = lines.SkipWhile(l => !l.Contains("Without passing", StringComparison.Ordinal)).Skip(1).First();
        Assert.Matches(expected, reduced);
    }

    [Fact]
    public void Each_bar_is_told_in_whole_sentences()
    {
        var text = Call.With(Chart, "analyse", "-", "--bar-by-bar").Out;
        Assert.Contains("Bar 2. On 1, Dm7 is ii7, pulling onward. Dm7 prepares G7: it is the related two, a fifth above.", text, StringComparison.Ordinal);
        Assert.Contains("Bar 5. Cmaj7 lasts on.", text, StringComparison.Ordinal);
    }

    // A long chart of 500 chords is read whole, each chord with a head; how long it takes is measured by hand, see DEVELOPERS.md.
    [Fact]
    public void A_long_chart_is_read_whole()
    {
        var chart = "meter 4/4\n\n" + string.Concat(Enumerable.Range(0, 125).Select(i => i % 3 == 0 ? "| Dm7 3 G7 | Cmaj7 3 A7\n" : i % 3 == 1 ? "| Fmaj7 3 Bb9 | Em7 3 A7b9\n" : "| Ebdim7 3 Dm7 | Db7 3 Cmaj7\n"));
        using var document = JsonDocument.Parse(Call.With(chart, "analyse", "-", "--format", "json").Out);
        var chords = document.RootElement.GetProperty("files")[0].GetProperty("chords").EnumerateArray().ToList();
        Assert.Equal(500, chords.Count);
        Assert.Single(chords, c => c.GetProperty("head").GetInt32() == -1);
    }

    [Fact]
    public void A_key_that_is_written_is_given()
    {
        using var document = JsonDocument.Parse(Call.With("key F major\n" + Chart, "analyse", "-", "--format", "json").Out);
        var key = document.RootElement.GetProperty("files")[0].GetProperty("keys")[0];
        Assert.Equal(("F", true), (key.GetProperty("tonic").GetString(), key.GetProperty("given").GetBoolean()));
    }

    [Fact]
    public void No_chords_are_no_trouble()
    {
        Assert.Equal(Command.Clean, Call.With("title Empty\n", "analyse", "-", "--format", "json").Code);
        Assert.Contains("no chords are written", Call.With("title Empty\n", "analyse", "-").Out, StringComparison.Ordinal);
        Assert.Contains("no chords are written", Call.With("| N.C. | Xyz |\n", "analyse", "-").Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Samples_are_analysed_in_one_call()
    {
        var call = Call.Of("analyse", "samples", "--format", "json");
        Assert.Equal((Command.Clean, ""), (call.Code, call.Error));
        using var document = JsonDocument.Parse(call.Out);
        Assert.Equal(Repository.Samples().Count, document.RootElement.GetProperty("files").GetArrayLength());
    }
}
