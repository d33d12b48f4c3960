// What `transpose` answers and writes.
using System.Text.Json;

namespace ChordLang.Server.Tests.Cli;

public sealed class TransposeCommandTests
{
    private const string Plain = "key     C major\n\n| Dm7   3 G7\n    1 x-5-7-5-6-x   3 3-x-3-4-3-x\n";

    [Fact]
    public void The_result_goes_to_standard_output_and_findings_beside_it()
    {
        var up = Call.With(Plain, "transpose", "-", "--to", "Eb major");
        Assert.Equal((0, "key     Eb major\n\n| Fm7   3 Bb7\n    1 x-8-10-8-9-x   3 6-x-6-7-6-x\n", ""), (up.Code, up.Out, up.Error));
        Assert.Equal(Plain, Call.With(up.Out, "transpose", "-", "--by", "-3").Out);
        // Common practice: with its open strings stopped two frets up, this grip of A minor spans eight frets.
        var lost = Call.With("key A minor\n\n| Am\n    1 x-0-7-5-5-0\n", "transpose", "-", "--by", "2");
        Assert.Equal(1, lost.Code);
        Assert.StartsWith("key B minor\n\n| Bm\n", lost.Out);
        Assert.Contains("explain hand-open-string-lost", lost.Error);
    }

    [Fact]
    public void The_json_is_the_document_of_check_for_the_result()
    {
        var call = Call.With("key A minor\n\n| Am\n    1 x-0-7-5-5-0\n", "transpose", "-", "--by", "2", "--format", "json");
        using var document = JsonDocument.Parse(call.Out);
        Assert.Equal(["version", "files", "summary"], document.RootElement.EnumerateObject().Select(p => p.Name));
        var finding = document.RootElement.GetProperty("files")[0].GetProperty("findings")[0];
        Assert.Equal(("hand-open-string-lost", 1, "1"), (finding.GetProperty("code").GetString(), finding.GetProperty("bar").GetInt32(), finding.GetProperty("count").GetString()));
        Assert.Equal(3, finding.GetProperty("range").GetProperty("start").GetProperty("line").GetInt32());
    }

    [Fact]
    public void Written_files_are_replaced_and_the_others_stay()
    {
        using var folder = new TemporaryFolder();
        var (a, b) = (folder.Write("a.chl", Plain), folder.Write("b.chl", "key A minor\n\n| Am7\n"));
        var call = Call.Of("transpose", folder.Path, "--to", "F major", "--write");
        Assert.Equal(2, call.Code);
        Assert.Contains("b.chl cannot be transposed: it is in A minor, and no interval makes that F major", call.Error);
        Assert.StartsWith("key     F major\n", File.ReadAllText(a));
        Assert.Equal("key A minor\n\n| Am7\n", File.ReadAllText(b));
    }

    // Common practice: a two-five-one tells its key.
    [Fact]
    public void Without_a_key_line_the_chords_tell_the_way() =>
        Assert.Equal("| Cm7 | F7 | Bbmaj7\n", Call.With("| Dm7 | G7 | Cmaj7\n", "transpose", "-", "--to", "Bb major").Out);

    [Theory]
    [InlineData("needs either --to KEY", "-")]
    [InlineData("needs either --to KEY", "-", "--to", "C major", "--by", "1")]
    [InlineData("--to 'H major' cannot be read", "-", "--to", "H major")]
    [InlineData("--by '25' cannot be read", "-", "--by", "25")]
    [InlineData("--by 'up' cannot be read", "-", "--by", "up")]
    [InlineData("22 files cannot go to standard output together", "samples/valid", "--by", "1")]
    [InlineData("it states no key and has no chords that tell one", "-", "--to", "C major")]
    public void What_cannot_be_done_is_said(string words, params string[] arguments)
    {
        var call = Call.With("", ["transpose", .. arguments]);
        Assert.Equal(2, call.Code);
        Assert.Contains(words, call.Error);
    }
}
