// What `import` takes, writes, tells and refuses.
using System.Text;
using System.Text.Json;
using ChordLang.Server.Cli;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Cli;

public sealed class ImportCommandTests
{
    [Fact]
    public void A_score_becomes_an_arrangement_that_checks_clean()
    {
        var call = Call.Of("import", "samples/scores/doorstep.musicxml");
        Assert.Equal((Command.Clean, ""), (call.Code, call.Error));
        Assert.Equal("""
            title   Doorstep
            key     F major
            meter   3/4

            pickup from 3
            |
                3 C4

            | 1 Fmaj7
                top:  1 A4   3 G4
                low:  1 F3+E4

            | 1 Bb6
                top:  1 tied   2& F4   3 D4 fermata
                low:  1 Bb2

            """, call.Out.Replace("| Fmaj7", "| 1 Fmaj7", StringComparison.Ordinal).Replace("| Bb6", "| 1 Bb6", StringComparison.Ordinal));
        Assert.Equal(Command.Clean, Call.With(call.Out, "check", "-").Code);
    }

    [Theory]
    [InlineData("musicxml", "out.musicxml")]
    [InlineData("musicxml", "out.mxl")]
    [InlineData("midi", "out.mid")]
    [InlineData("tab", "out.txt")]
    public void What_export_writes_import_reads(string format, string name)
    {
        using var folder = new TemporaryFolder();
        var path = Path.Combine(folder.Path, name);
        Assert.Equal((Command.Clean, "", ""), Of(Call.Of("export", "samples/valid/third-floor-blues.chl", "--to", format, "--out", path)));
        var call = Call.Of("import", path);
        Assert.Equal(Command.Clean, call.Code);
        Assert.NotEqual(Command.Trouble, Call.With(call.Out, "check", "-").Code);
        Assert.Contains("\n|", call.Out, StringComparison.Ordinal);
        var to = Path.Combine(folder.Path, "back.chl");
        Assert.Equal("", Call.Of("import", path, "--out", to).Out);
        Assert.Equal(call.Out, File.ReadAllText(to));
    }

    [Fact]
    public void Tablature_comes_back_spelled_as_its_chords_call_for()
    {
        using var folder = new TemporaryFolder();
        foreach (var sample in Repository.Samples("valid"))
        {
            var text = Call.Of("export", Repository.At(sample), "--to", "tab").Out;
            File.WriteAllText(Path.Combine(folder.Path, Path.GetFileName(sample)), Call.With(text, "import", "-").Out);
        }
        var check = Call.Of("check", folder.Path, "--format", "json");
        Assert.DoesNotContain("\"spelling-", check.Out, StringComparison.Ordinal);
        Assert.Contains("Db4@3", File.ReadAllText(Path.Combine(folder.Path, "third-floor-blues.chl")), StringComparison.Ordinal); // the seventh of Eb9
    }

    [Fact]
    public void What_is_not_carried_is_told_by_bar()
    {
        const string Score = "<score-partwise><part id=\"P1\"><measure number=\"1\"><note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration>"
            + "<notations><ornaments><trill-mark/></ornaments></notations></note></measure></part></score-partwise>";
        var call = Call.With(Score, "import", "-");
        Assert.Equal((Command.Clean, "-: bar 1: trill mark is not carried.\n"), (call.Code, call.Error));
        var json = JsonDocument.Parse(Call.With(Score, "import", "-", "--format", "json").Out).RootElement;
        Assert.Equal(1, json.GetProperty("version").GetInt32());
        Assert.Equal(1, json.GetProperty("files")[0].GetProperty("findings")[0].GetProperty("bar").GetInt32());
    }

    [Theory]
    [InlineData("takes one file", "import")]
    [InlineData("there is no such file", "import", "samples/none.mid")]
    [InlineData("no tablature", "import", "-")]
    [InlineData("--part is a number", "import", "-", "--part", "x")]
    public void Misuse_is_told_in_a_sentence(string says, params string[] arguments)
    {
        var call = Call.With("nothing of music", arguments);
        Assert.Equal((Command.Trouble, ""), (call.Code, call.Out));
        Assert.Contains(says, call.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_hundred_megabytes_are_refused_unread()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("big.musicxml", "");
        using (var file = new FileStream(path, FileMode.Open))
            file.SetLength(100L * 1024 * 1024);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var call = Call.Of("import", path);
        Assert.Equal(Command.Trouble, call.Code);
        Assert.Contains("larger than", call.Error, StringComparison.Ordinal);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 4 * 1024 * 1024);
    }

    [Fact]
    public void Standard_input_without_end_is_refused()
    {
        var call = Call.With(Encoding.ASCII.GetBytes("<" + new string(' ', 11 * 1024 * 1024)), false, "import", "-");
        Assert.Equal(Command.Trouble, call.Code);
        Assert.Contains("larger than", call.Error, StringComparison.Ordinal);
    }

    private static (int, string, string) Of(Call call) => (call.Code, call.Out, call.Error);
}
