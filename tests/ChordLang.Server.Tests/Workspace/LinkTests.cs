// Links and pipes among the lessons: none leads out of the library, and none is waited for.
using System.Diagnostics;
using ChordLang.Server.Cli;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Tests.Workspace;

public sealed class LinkTests : IDisposable
{
    private const string Shapes = "shape low-drop = 1-x-1-1-1-x\n";
    private readonly TemporaryFolder folder = new();

    public LinkTests()
    {
        folder.Write("library/chordlang.json", "{}");
        folder.Write("library/inner.chl", Shapes);
        folder.Write("library/secret.chl", Shapes);
        folder.Write("outside/deep/more.chl", Shapes);
        folder.Write("outside/secret.chl", Shapes);
    }

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_folder_that_is_a_link_leads_nowhere_outside()
    {
        Link("door", "../outside");
        Refused("door/secret.chl");
    }

    [Fact]
    public void A_link_through_another_link_leads_nowhere_outside()
    {
        Link("door", "../outside");
        Link("shapes.chl", "door/secret.chl");
        Refused("shapes.chl");
    }

    [Fact]
    public void A_step_up_behind_a_link_is_taken_where_the_link_leads()
    {
        // One reads library/secret.chl; the system opens outside/secret.chl.
        Link("door", "../outside/deep");
        Link("shapes.chl", "door/../secret.chl");
        Refused("shapes.chl");
    }

    [Fact]
    public void Links_in_a_circle_lead_nowhere()
    {
        Link("one.chl", "two.chl");
        Link("two.chl", "one.chl");
        Refused("one.chl");
    }

    [Fact]
    public void Links_within_the_library_are_followed()
    {
        Link("door", ".");
        Link("shapes.chl", "door/inner.chl");
        Assert.DoesNotContain("text-use-refused", Using("shapes.chl").Out, StringComparison.Ordinal);
        Assert.NotNull(new Library(Lesson).Full("shapes.chl"));
    }

    [Fact]
    public void A_library_that_is_itself_reached_by_a_link_is_one()
    {
        File.CreateSymbolicLink(Path.Combine(folder.Path, "way"), Path.Combine(folder.Path, "library"));
        folder.Write("library/lesson.chl", "use \"inner.chl\"\n\n| Fm7\n    1 low-drop\n");
        Assert.DoesNotContain("text-use-refused", Call.Of("check", Path.Combine(folder.Path, "way", "lesson.chl")).Out, StringComparison.Ordinal);
    }

    // mkfifo is POSIX; where there is none, as on Windows, there are no such pipes in folders.
    [Fact]
    public async Task A_pipe_among_the_lessons_is_not_waited_for()
    {
        if (OperatingSystem.IsWindows())
            return;
        foreach (var name in new[] { "library/pipe.chl", "library/sub/chordlang.json" })
        {
            Directory.CreateDirectory(Path.Combine(folder.Path, "library", "sub"));
            using var made = Process.Start("mkfifo", [Path.Combine(folder.Path, name)]);
            await made.WaitForExitAsync();
            Assert.Equal(0, made.ExitCode);
        }
        Link("linked.chl", "pipe.chl");
        folder.Write("library/sub/lesson.chl", "| C\n    1 x-3-2-0-1-0\n");
        folder.Write("library/lesson.chl", "use \"pipe.chl\"\nuse \"linked.chl\"\n\n| C\n    1 x-3-2-0-1-0\n");
        // Only a check that waits is ended by this.
        var call = await Task.Run(() => Call.Of("check", Path.Combine(folder.Path, "library"))).WaitAsync(TimeSpan.FromMinutes(1));
        Assert.Contains("5 files checked", call.Out + call.Error, StringComparison.Ordinal);
        // A configuration without a byte is no JSON, and told so.
        Assert.Contains("sub/chordlang.json", call.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Folders_too_deep_are_told_and_the_rest_is_checked()
    {
        var deep = string.Concat(Enumerable.Repeat("d/", Sources.MostDeep + 1));
        folder.Write($"library/{deep}lost.chl", "| C\n");
        folder.Write($"library/{deep[2..]}found.chl", "| C\n");
        var call = Call.Of("check", Path.Combine(folder.Path, "library"));
        Assert.Equal(Command.Trouble, call.Code);
        Assert.Contains($"folders more than {Sources.MostDeep} deep are not looked into", call.Error, StringComparison.Ordinal);
        Assert.Contains("found.chl", string.Join('\n', Sources.Below(Path.Combine(folder.Path, "library"))), StringComparison.Ordinal);
        Assert.DoesNotContain("lost.chl", string.Join('\n', Sources.Below(Path.Combine(folder.Path, "library"))), StringComparison.Ordinal);
    }

    [Fact]
    public void A_hidden_folder_is_left_out_however_the_folder_is_written()
    {
        folder.Write("library/.hidden/one.chl", "| C\n");
        Assert.Equal(Sources.Below(Path.Combine(folder.Path, "library")).Count, Sources.Below(Path.Combine(folder.Path, "library") + "/").Count);
    }

    private string Lesson => Path.Combine(folder.Path, "library", "lesson.chl");

    private void Link(string name, string target) => File.CreateSymbolicLink(Path.Combine(folder.Path, "library", name), target);

    private Call Using(string path) => Call.Of("check", folder.Write("library/lesson.chl", $"use \"{path}\"\n\n| Fm7\n    1 low-drop\n"));

    private void Refused(string path)
    {
        Assert.Contains("outside the library", Using(path).Out, StringComparison.Ordinal);
        Assert.Null(new Library(Lesson).Full(path));
    }
}
