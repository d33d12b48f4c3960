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
