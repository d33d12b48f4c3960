// What `diff` prints and answers.
using System.Text.Json;
using ChordLang.Server.Cli;

namespace ChordLang.Server.Tests.Cli;

public sealed class DiffCommandTests
{
    private const string Old = "key C major\n\nsection Bridge\n\n| G7\n    1 B4\n", New = "key C major\n\nsection Bridge\n\n| Db7\n    1 B4\n";

    [Fact]
    public void Text_summary_and_json_say_the_same()
    {
        using var folder = new TemporaryFolder();
        var (old, now) = (folder.Write("old.chl", Old), folder.Write("new.chl", New));
        Assert.Equal(new Call(Command.Found, "Bridge, bar 1: G7 became Db7, its tritone substitute.\n", ""), Call.Of("diff", old, now));
        Assert.Equal("Bridge, bar 1: G7 became Db7, its tritone substitute\n", Call.Of("diff", old, now, "--summary").Out);
        using var document = JsonDocument.Parse(Call.Of("diff", old, now, "--format", "json").Out);
        Assert.Equal(["version", "summary", "changes"], document.RootElement.EnumerateObject().Select(p => p.Name));
        var change = document.RootElement.GetProperty("changes")[0];
        Assert.Equal(["bar", "section", "kind", "text"], change.EnumerateObject().Select(p => p.Name));
        Assert.Equal((1, "Bridge", "chord"), (change.GetProperty("bar").GetInt32(), change.GetProperty("section").GetString(), change.GetProperty("kind").GetString()));
    }

    [Fact]
    public void The_same_music_is_no_difference()
    {
        using var folder = new TemporaryFolder();
        Assert.Equal(new Call(Command.Clean, "Formatting only: the same music.\n", ""), Call.With(Old.Replace("    1", "  1", StringComparison.Ordinal), "diff", folder.Write("old.chl", Old), "-"));
    }

    [Fact]
    public void Versions_that_lie_elsewhere_take_their_shapes_from_the_lesson()
    {
        using var folder = new TemporaryFolder();
        folder.Write("lessons/shapes.chl", "shape low = x-3-2-3-3-x\n");
        const string Lesson = "use \"shapes.chl\"\n\n| C9\n    1 low\n";
        var (old, now) = (folder.Write("tmp/old.chl", Lesson), folder.Write("tmp/new.chl", Lesson.Replace("1 low", "1 low+2", StringComparison.Ordinal)));
        Assert.Equal("Bar 1: transposed up a whole tone.\n", Call.Of("diff", old, now, "--path", Path.Combine(folder.Path, "lessons", "lesson.chl")).Out);
    }

    [Theory]
    [InlineData("diff")]
    [InlineData("diff a b c")]
    [InlineData("diff - -")]
    [InlineData("diff samples/none.chl samples/valid/cellar-lamp.chl")]
    public void Trouble(string line) => Assert.Equal(Command.Trouble, Call.Of(line.Split(' ')).Code);
}
