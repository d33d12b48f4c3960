// What `check` prints and answers: text for people, JSON for programs, exit codes, fixes.
using System.Text;
using System.Text.Json;
using ChordLang.Server.Cli;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Cli;

public sealed class CheckCommandTests
{
    private const string Slip = "key     C major\nmeter   4/4\n\n| Dm7                3 G13\n    1 x-5-7-5-6-x    3 3-x-3-4-4-x\n";
    private const string Clean = "key     C major\nmeter   4/4\n\n| Cmaj7\n    1 x-3-5-4-5-x\n";

    [Fact]
    public void Text_for_people() => Snapshots.Match(Call.With(Slip, "check", "-", "--stdin-path", "lesson.chl").Out, "check-text");

    [Fact]
    public void Json_for_programs() => Snapshots.Match(Call.With(Slip, "check", "-", "--stdin-path", "lesson.chl", "--format", "json").Out, "check-json");

    [Theory]
    [InlineData(Slip, null, 1)]
    [InlineData(Slip, "error", 0)]
    [InlineData(Slip, "hint", 1)]
    [InlineData(Clean, "hint", 0)]
    public void The_level_decides_the_exit_code(string text, string? level, int code) =>
        Assert.Equal(code, (level is null ? Call.With(text, "check", "-") : Call.With(text, "check", "-", "--fail-on", level)).Code);

    [Fact]
    public void Json_has_the_shape_of_version_1()
    {
        using var document = JsonDocument.Parse(Call.With(Slip, "check", "-", "--format=json").Out);
        var root = document.RootElement;
        Assert.Equal(["version", "files", "summary"], root.EnumerateObject().Select(p => p.Name));
        Assert.Equal(1, root.GetProperty("version").GetInt32());
        Assert.Equal(["errors", "warnings", "informations", "hints"], root.GetProperty("summary").EnumerateObject().Select(p => p.Name));
        var finding = root.GetProperty("files")[0].GetProperty("findings")[0];
        Assert.Equal(["code", "severity", "message", "bar", "count", "range", "related", "fixes", "strings"], finding.EnumerateObject().Select(p => p.Name));
        Assert.Equal(1, finding.GetProperty("bar").GetInt32());
        Assert.Equal("3", finding.GetProperty("count").GetString());
        Assert.Equal(2, finding.GetProperty("strings")[0].GetInt32());
        Assert.Equal("4", Text(Slip, finding.GetProperty("range")));
        var fix = finding.GetProperty("fixes")[0];
        Assert.Equal(["title", "safe", "edits"], fix.EnumerateObject().Select(p => p.Name));
        Assert.Equal("5", fix.GetProperty("edits")[0].GetProperty("newText").GetString());
    }

    [Fact]
    public void Bar_and_count_are_null_before_the_first_bar()
    {
        using var document = JsonDocument.Parse(Call.With("keys C major\n\n" + Clean, "check", "-", "--format", "json").Out);
        var finding = document.RootElement.GetProperty("files")[0].GetProperty("findings")[0];
        Assert.Equal(JsonValueKind.Null, finding.GetProperty("bar").ValueKind);
        Assert.Equal(JsonValueKind.Null, finding.GetProperty("count").ValueKind);
    }

    [Fact]
    public void An_unreadable_file_does_not_stop_the_others()
    {
        using var folder = new TemporaryFolder();
        var call = Call.Of("check", Path.Combine(folder.Path, "none.chl"), folder.Write("slip.chl", Slip));
        Assert.Equal(Command.Trouble, call.Code);
        Assert.Contains("none.chl cannot be read: there is no such file.", call.Error, StringComparison.Ordinal);
        Assert.Contains("slip.chl, line 5, bar 1, count 3", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Fix_writes_safe_fixes_until_none_is_left()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("phone.chl", "key: C major\nmeter   4/4\n\n| Cmaj7\n    1 x–3–5–4–5–x\n");
        var call = Call.Of("check", "--fix", path);
        Assert.Equal(Command.Clean, call.Code);
        Assert.Contains("safe fix", call.Out, StringComparison.Ordinal);
        Assert.Contains("    1 x-3-5-4-5-x\n", File.ReadAllText(path), StringComparison.Ordinal);
        Assert.Equal("1 file checked: nothing to say.\n", Call.Of("check", "--fail-on", "hint", path).Out);
        Assert.Equal([path], Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void Fix_leaves_alone_what_could_change_the_sound()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("slip.chl", Slip);
        Assert.Equal(Command.Found, Call.Of("check", "--fix", path).Code);
        Assert.Equal(Slip, File.ReadAllText(path));
    }

    [Theory]
    [InlineData("check --fix", "cannot be checked")]
    [InlineData("format", "cannot be written")]
    public void A_file_that_cannot_be_written_does_not_stop_the_others(string command, string says)
    {
        using var folder = new TemporaryFolder();
        var first = folder.Write("a.chl", "key: C major\n|   Cmaj7\n");
        var second = folder.Write("b.chl", "key: C major\n|   Cmaj7\n");
        Directory.CreateDirectory(Path.Combine(folder.Path, $".a.chl.{Environment.ProcessId}.part"));    // where the new text would be written first
        var call = Call.Of([.. command.Split(' '), folder.Path]);
        Assert.Equal(Command.Trouble, call.Code);
        Assert.Contains($"a.chl {says}: ", call.Error, StringComparison.Ordinal);
        Assert.Equal("key: C major\n|   Cmaj7\n", File.ReadAllText(first));
        Assert.NotEqual("key: C major\n|   Cmaj7\n", File.ReadAllText(second));
    }

    [Fact]
    public void Folders_are_read_sorted_and_each_file_once()
    {
        using var folder = new TemporaryFolder();
        foreach (var name in new[] { "b.chl", "a/z.chl", "B.chl", ".hidden/h.chl", "note.txt" })
            folder.Write(name, Slip);
        using var document = JsonDocument.Parse(Call.Of("check", "--format", "json", folder.Path, Path.Combine(folder.Path, "b.chl")).Out);
        var paths = document.RootElement.GetProperty("files").EnumerateArray().Select(f => Path.GetRelativePath(folder.Path, f.GetProperty("path").GetString()!).Replace('\\', '/'));
        Assert.Equal(["B.chl", "a/z.chl", "b.chl"], paths);
    }

    [Fact]
    public void Carets_stand_under_what_is_blamed_whatever_is_before_it()
    {
        // A tab is shown as four blanks, a combining mark takes no column, a wide letter two.
        var call = Call.With("key C major\n\n| Cmaj7\n\t1 x-3-5-4-5-x \"e\u0301 \u4E2D\" oops\n", "check", "-");
        var lines = call.Out.Split('\n');
        var at = Array.FindIndex(lines, l => l.EndsWith("oops", StringComparison.Ordinal));
        Assert.Equal(lines[at].IndexOf("oops", StringComparison.Ordinal) - 1 + 1, lines[at + 1].IndexOf('^', StringComparison.Ordinal));
    }

    [Fact]
    public void Colour_only_where_asked_for()
    {
        var text = Encoding.UTF8.GetBytes(Slip);
        Assert.DoesNotContain('\u001b', Call.With(text, false, "check", "-").Out);
        Assert.Contains("\u001b[1;33mwarning\u001b[0m", Call.With(text, true, "check", "-").Out, StringComparison.Ordinal);
    }

    private static string Text(string text, JsonElement range)
    {
        var (start, end) = (range.GetProperty("start"), range.GetProperty("end"));
        return text.Split('\n')[start.GetProperty("line").GetInt32()][start.GetProperty("character").GetInt32()..end.GetProperty("character").GetInt32()];
    }
}
