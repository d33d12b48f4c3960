// Files that are meant to do harm, or were harmed: nothing of them leaves its place, and nothing breaks.
using System.Text;
using ChordLang.Server.Cli;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Tests.Workspace;

public sealed class HostileFilesTests
{
    private const string Shapes = "shape low-drop = 1-x-1-1-1-x\n";

    [Theory]
    [InlineData("../secret.chl")]
    [InlineData("inner/../../secret.chl")]
    [InlineData("..\\\\secret.chl")]
    [InlineData("/etc/hostname")]
    public void Use_opens_nothing_outside_the_library(string path)
    {
        using var folder = new TemporaryFolder();
        folder.Write("secret.chl", Shapes);
        folder.Write("library/chordlang.json", "{}");
        var lesson = folder.Write("library/lesson.chl", $"use \"{path}\"\n\n| C\n");
        var call = Call.Of("check", lesson);
        Assert.Contains("chordlang explain text-use-refused", call.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("low-drop", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Use_follows_no_link_out_of_the_library()
    {
        using var folder = new TemporaryFolder();
        folder.Write("secret.chl", Shapes);
        folder.Write("library/chordlang.json", "{}");
        var lesson = folder.Write("library/lesson.chl", "use \"link.chl\"\n\n| C\n");
        File.CreateSymbolicLink(Path.Combine(folder.Path, "library", "link.chl"), Path.Combine(folder.Path, "secret.chl"));
        Assert.Contains("outside the library", Call.Of("check", lesson).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Use_opens_what_lies_in_the_library()
    {
        using var folder = new TemporaryFolder();
        folder.Write("library/chordlang.json", "{}");
        folder.Write("library/shapes/drops.chl", Shapes);
        var lesson = folder.Write("library/week/lesson.chl", "use \"../shapes/drops.chl\"\n\n| Fm7\n    1 low-drop\n");
        Assert.DoesNotContain("text-use-refused", Call.Of("check", lesson).Out, StringComparison.Ordinal);
        Assert.DoesNotContain("text-unknown-shape", Call.Of("check", lesson).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Control_characters_never_reach_the_terminal()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("red\u001b[31m.chl", "key C\u001b]0;title\u0007 major\n\n| Cmaj7\u009b2J \u202e\n    1 oops\u001b[2J\n");
        foreach (var call in new[] { Call.Of("check", path), Call.Of("format", "--diff", path), Call.Of("check", path + "\u001b"), Call.Of("chord", "C\u001b[2J"), Call.Of("name", "\u001b[2J"), Call.Of("\u001b[2J") })
            Assert.DoesNotContain(call.Out + call.Error, c => char.IsControl(c) && c is not '\n' and not '\t' || c == '\u202e');
    }

    [Fact]
    public void Names_with_blanks_dashes_and_quotes_are_names()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("--fix 'a\" ü.chl", "| Cmaj7\n    1 x-3-5-4-5-x\n");
        Assert.Equal(Command.Clean, Call.Of("check", "--", path).Code);
        Assert.Equal(Command.Clean, Call.Of("check", folder.Path).Code);
    }

    [Fact]
    public void Bytes_that_are_no_text_give_findings_and_stay_as_they_are()
    {
        using var folder = new TemporaryFolder();
        byte[] bytes = [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes("key C major\r\n| Cmaj7\r    1 x-3-5-4-5-x "), 0xFF, 0xC0, 0x00, (byte)'\r', (byte)'\n'];
        var path = folder.Write("bytes.chl", bytes);
        Assert.Equal(Command.Found, Call.Of("check", path).Code);
        Call.Of("check", "--fix", path);
        Assert.Equal(bytes, File.ReadAllBytes(path));
    }

    [Fact]
    public void A_file_beyond_the_limit_is_refused_with_its_reason()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("large.chl", new byte[Sources.LargestFile + 1]);
        var call = Call.Of("check", path);
        Assert.Equal(Command.Trouble, call.Code);
        Assert.Contains("it is larger than 10 MB", call.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Safe_writing_keeps_links_and_leaves_nothing_behind()
    {
        using var folder = new TemporaryFolder();
        var target = folder.Write("target.chl", "old");
        var link = Path.Combine(folder.Path, "link.chl");
        File.CreateSymbolicLink(link, target);
        Replacement.Write(link, "new"u8.ToArray());
        Assert.Equal("new", File.ReadAllText(target));
        Assert.NotNull(new FileInfo(link).LinkTarget);
        Assert.Equal(2, Directory.GetFiles(folder.Path).Length);
    }
}
