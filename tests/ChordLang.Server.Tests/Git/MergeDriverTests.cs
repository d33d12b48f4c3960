// Real merges by real git with our driver: all in one merge, file by file, because git calls the driver once a file.
using ChordLang.Arrangement.Binding;
using ChordLang.Features.Comparing;
using ChordLang.Grammar.Syntax;
using ChordLang.Server.Cli;

namespace ChordLang.Server.Tests.Git;

public sealed class MergedRepository : IDisposable
{
    internal GitRepository Repository { get; } = new();

    internal IReadOnlySet<string> Unmerged { get; }

    public MergedRepository()
    {
        void Side(Func<MergeCase, string> text, string message)
        {
            foreach (var (c, i) in MergeCase.All.Select((c, i) => (c, i)))
                Repository.Write(Name(i), text(c));
            Repository.Write("unfinished.chl", message == "base" ? "| C\n" : $"<<<<<<< {message}\n| G\n=======\n| F\n>>>>>>> x\n");
            Repository.Commit(message);
        }
        Assert.Equal(Command.Clean, Repository.Chordlang("git", "install", "--program", GitRepository.Program).Code);
        Side(_ => MergeCase.Base, "base");
        Repository.Git("checkout", "--quiet", "-b", "theirs");
        Side(c => MergeCase.With(c.Theirs), "theirs");
        Repository.Git("checkout", "--quiet", "main");
        Side(c => MergeCase.With(c.Ours), "ours");
        Assert.Equal(1, Repository.TryGit("merge", "theirs").Code);
        Unmerged = Repository.Git("diff", "--name-only", "--diff-filter=U").Split('\n').ToHashSet();
    }

    internal static string Name(int i) => $"lesson-{i:00}.chl";

    public void Dispose() => Repository.Dispose();
}

public sealed class MergeDriverTests(MergedRepository merged) : IClassFixture<MergedRepository>
{
    public static TheoryData<string> Names => [.. MergeCase.All.Select(c => c.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void Clean_is_right_and_doubt_is_left_to_people_with_its_reason(string name)
    {
        var i = MergeCase.All.ToList().FindIndex(c => c.Name == name);
        var (merge, file) = (MergeCase.All[i], MergedRepository.Name(i));
        var text = merged.Repository.Read(file);
        if (merge.Doubt is null)
        {
            Assert.Equal(merge.Expected, text);
            Assert.DoesNotContain(file, merged.Unmerged);
            Assert.True(PieceComparison.Of(Bind(merge.Expected), Bind(text)).SameMusic);
            return;
        }
        Assert.Contains(file, merged.Unmerged);
        Assert.Contains(text.Split('\n'), l => l.StartsWith("<<<<<<< ours: ", StringComparison.Ordinal) && l.Contains(merge.Doubt, StringComparison.Ordinal));
        // Nothing is lost: every line that a side wrote is there.
        foreach (var side in new[] { merge.Ours, merge.Theirs })
            Assert.All(MergeCase.With(side).Split('\n').Except(MergeCase.Base.Split('\n')), line => Assert.Contains(line, text.Split('\n')));
        // The parser says so once a conflict, and reads the rest.
        var conflicts = text.Split('\n').Count(l => l.StartsWith("<<<<<<<", StringComparison.Ordinal));
        var tree = SyntaxTree.Parse(text);
        Assert.Equal(3 * conflicts, tree.Lines.Count(l => l is MergeMarkerLine));
        Assert.Contains(tree.Lines, l => l is ChartLine);
    }

    [Fact]
    public void There_are_thirty_and_more_of_both_kinds()
    {
        Assert.True(MergeCase.All.Count >= 30);
        Assert.True(MergeCase.All.Count(c => c.Doubt is null) >= 12 && MergeCase.All.Count(c => c.Doubt is not null) >= 12);
    }

    [Fact]
    public void What_cannot_be_read_is_left_to_git_and_nothing_is_lost()
    {
        var text = merged.Repository.Read("unfinished.chl");
        Assert.Contains("unfinished.chl", merged.Unmerged);
        Assert.Contains("<<<<<<< ours\n", text, StringComparison.Ordinal);
        Assert.Contains("<<<<<<< theirs\n", text, StringComparison.Ordinal);
    }

    private static Arrangement.Music.Piece Bind(string text) => Binder.Bind(SyntaxTree.Parse(text));
}
