// What --watch says round after round, without a clock: the test itself is what changes the files.
using ChordLang.Server.Cli;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Tests.Cli;

public sealed class CheckWatchTests
{
    private const string Clean = "key C major\n\n| Cmaj7\n    1 x-3-5-4-5-x\n", Wrong = "key C major\n\n| Cmaj7\n    1 x-3-5-4-6-x\n";

    [Fact]
    public void Each_round_prints_what_is_new_and_nothing_else()
    {
        using var folder = new TemporaryFolder();
        using var output = new StringWriter { NewLine = "\n" };
        folder.Write("a.chl", Clean);
        folder.Write("b.chl", Wrong);
        var terminal = new Terminal(output, output, () => new MemoryStream(), false);
        var rounds = new List<string>();
        string Said()
        {
            var text = output.ToString();
            output.GetStringBuilder().Clear();
            return text;
        }
        IEnumerable<int> Changes()
        {
            rounds.Add(Said());
            yield return 0;                     // nothing changed
            rounds.Add(Said());
            folder.Write("a.chl", Wrong);
            yield return 0;
            rounds.Add(Said());
            folder.Write("chordlang.json", """{ "checks": { "name": "off" } }""");
            yield return 0;
            rounds.Add(Said());
            File.Delete(Path.Combine(folder.Path, "b.chl"));
            yield return 0;
            rounds.Add(Said());
        }
        var last = new CheckWatch(() => CheckCommand.Files(new([folder.Path], new Dictionary<string, string>()), terminal, false), terminal).Run(Changes());
        Assert.Empty(Assert.Single(last).Findings);
        Assert.Contains("b.chl, line 4, bar 1, count 1", rounds[0], StringComparison.Ordinal);
        Assert.EndsWith("2 files checked: 1 warning.\n", rounds[0], StringComparison.Ordinal);
        Assert.Equal("", rounds[1]);
        Assert.Contains("a.chl, line 4", rounds[2], StringComparison.Ordinal);
        Assert.DoesNotContain("b.chl", rounds[2], StringComparison.Ordinal);
        Assert.Equal("2 files checked: nothing to say.\n", rounds[3]);
        Assert.Equal("1 file checked: nothing to say.\n", rounds[4]);
    }

    [Fact]
    public void A_file_that_is_written_begins_a_round()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("deep/a.chl", Clean);
        using var changes = new FileChanges([folder.Path]);
        File.WriteAllText(path, Wrong);
        Assert.Equal(0, changes.Rounds().First());      // waits for the system to tell, however long that takes
    }

    [Theory]
    [InlineData("check --watch -")]
    [InlineData("check --watch samples --format json")]
    public void Watching_is_for_files_and_for_people(string line) => Assert.Equal(Command.Trouble, Call.Of(line.Split(' ')).Code);
}
