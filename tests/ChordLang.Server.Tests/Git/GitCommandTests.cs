// Install, what it brings, and that uninstall leaves nothing: with real git in a home of its own.
using ChordLang.Server.Cli;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Tests.Git;

public sealed class GitCommandTests
{
    private const string Lesson = "key     C major\nmeter   4/4\n\nsection Opening\n\n| Cmaj7\n    1 x-3-5-4-5-x\n\n| Dm7\n    1 x-5-7-5-6-x\n\nsection Bridge\n\n| Em7\n    1 x-7-9-7-8-x\n\n| Am7\n    1 5-x-5-5-5-x   3 C5\n";

    [Theory]
    [InlineData(false, null)]
    [InlineData(false, "*.png binary")]
    [InlineData(false, "*.png binary\n")]
    [InlineData(false, "")]
    [InlineData(true, null)]
    [InlineData(true, "*.png binary")]
    public void Uninstall_leaves_no_trace(bool wide, string? attributes)
    {
        using var repository = new GitRepository();
        repository.Git("config", "diff.other.xfuncname", "^x");
        if (wide && attributes is not null)
            repository.Git("config", "--global", "user.name", "A. Student");
        repository.Write("a.chl", Lesson);
        if (attributes is not null)
        {
            var file = wide ? Path.Combine(repository.Home, ".config", "git", "attributes") : Path.Combine(repository.Root, ".git", "info", "attributes");
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            File.WriteAllText(file, attributes);
        }
        var (bytes, config) = (repository.Bytes(), repository.Git("config", "-l"));
        string[] scope = wide ? ["--global"] : [];
        string[] program = ["--program", GitRepository.Program];
        Assert.Equal(Command.Found, repository.Chordlang(["git", "status", .. scope, .. program]).Code);
        var install = repository.Chordlang(["git", "install", .. scope, .. program]);
        Assert.Equal((Command.Clean, ""), (install.Code, install.Error));
        Assert.Contains(GitSetup.Attributes, install.Out, StringComparison.Ordinal);
        Assert.NotEqual(config, repository.Git("config", "-l"));
        Assert.Equal(Command.Clean, repository.Chordlang(["git", "status", .. scope, .. program]).Code);
        var again = repository.Chordlang(["git", "install", .. scope, .. program]).Out;
        Assert.DoesNotContain("added", again, StringComparison.Ordinal);
        Assert.Equal(Command.Clean, repository.Chordlang(["git", "uninstall", .. scope, .. program]).Code);
        Assert.Equal(config, repository.Git("config", "-l"));
        Assert.Equal(bytes, repository.Bytes());
    }

    [Fact]
    public void What_is_not_ours_stays()
    {
        using var repository = new GitRepository();
        repository.Git("config", "diff.chordlang.xfuncname", "^mine");
        repository.Write(".git/hooks/pre-commit", "#!/bin/sh\nexit 0\n");
        var before = repository.Bytes();
        var install = repository.Chordlang("git", "install", "--program", GitRepository.Program);
        Assert.Contains("kept       git config: diff.chordlang.xfuncname = ^mine\n", install.Out, StringComparison.Ordinal);
        Assert.Contains("git hook\n", install.Out, StringComparison.Ordinal);
        Assert.Equal(Command.Clean, repository.Chordlang("git", "uninstall", "--program", GitRepository.Program).Code);
        Assert.Equal(before, repository.Bytes());
    }

    [Fact]
    public void A_diff_is_headed_by_sections_cut_by_musical_words_and_blind_to_formatting()
    {
        using var repository = Installed();
        repository.Write("a.chl", Lesson.Replace("5-x-5-5-5-x", "5-x-5-5-8-x", StringComparison.Ordinal));
        var diff = repository.Git("diff", "-U0");
        Assert.Matches(@"@@ -\d+ \+\d+ @@ section Bridge\n", diff);
        Assert.Contains("\n-5\n+8\n", repository.Git("diff", "--word-diff=porcelain", "-U0"), StringComparison.Ordinal);
        repository.Write("a.chl", Lesson.Replace("    1 x-3", " 1  x-3", StringComparison.Ordinal));
        Assert.DoesNotContain("\n-", repository.Git("diff"), StringComparison.Ordinal);
        repository.Write("a.chl", Lesson.Replace("| Dm7", "| Ab7", StringComparison.Ordinal).Replace("    1 x-5-7-5-6-x", "    1 x-5-7-5-6-x", StringComparison.Ordinal));
        Assert.Contains("Opening, bar 2: Dm7 became Ab7", repository.Git("difftool", "--no-prompt", "--tool=chordlang"), StringComparison.Ordinal);
    }

    [Fact]
    public void The_hook_checks_what_is_staged_and_not_what_lies_in_the_work_tree()
    {
        using var repository = Installed();
        var wrong = Lesson.Replace("x-3-5-4-5-x", "x-3-5-4-6-x", StringComparison.Ordinal);
        repository.Write("a.chl", wrong);
        repository.Git("add", "a.chl");
        repository.Write("a.chl", Lesson);                      // mended, but not staged
        var stopped = repository.TryGit("commit", "-m", "slip");
        Assert.NotEqual(0, stopped.Code);
        Assert.Contains("a.chl, line 7, bar 1, count 1", stopped.Out + stopped.Error, StringComparison.Ordinal);
        repository.Git("add", "a.chl");
        repository.Write("a.chl", wrong);                       // spoilt again, but not staged
        repository.Write("b.chl", "use \"shapes.chl\"\n\n| C9\n    1 low\n");
        repository.Write("shapes.chl", "shape low = x-3-2-3-3-x\n");
        repository.Git("add", "b.chl", "shapes.chl");
        repository.Write("shapes.chl", "shape other = x-3-2-3-3-x\n");
        Assert.Equal(0, repository.TryGit("commit", "-m", "mended").Code);
        Assert.Equal(0, repository.TryGit("commit", "--allow-empty", "-m", "nothing staged").Code);
    }

    [Fact]
    public void Branches_are_told_apart_in_musical_terms()
    {
        using var repository = Installed();
        foreach (var (branch, old, now, says) in new[]
        {
            ("insert", "| Dm7\n", "| Em7\n    1 x-7-9-7-8-x\n\n| Dm7\n", "Opening, bar 2: put in (Em7).\n"),
            ("move", "| Dm7\n    1 x-5-7-5-6-x\n\nsection Bridge\n\n| Em7\n    1 x-7-9-7-8-x\n", "section Bridge\n\n| Em7\n    1 x-7-9-7-8-x\n\n| Dm7\n    1 x-5-7-5-6-x\n", "Bridge, bar 3: moved here from bar 2.\n"),
            ("refinger", "1 x-7-9-7-8-x", "1 x-7-9-7-8-x fingers x-1-3-1-2-x", "Bridge, bar 3: same notes, other fingers.\n"),
            ("restring", "3 C5\n", "3 C5@2\n", "Bridge, bar 4: same notes, other strings.\n"),
            ("transpose", "| Em7\n    1 x-7-9-7-8-x", "| Fm7\n    1 x-8-10-8-9-x", "Bridge, bar 3: transposed up a semitone.\n"),
            ("reformat", "    1 5-x-5-5-5-x   3 C5", "  1 5-x-5-5-5-x 3 C5", ""),
        })
        {
            repository.Git("checkout", "--quiet", "-b", branch, "main");
            Assert.Contains(old, Lesson, StringComparison.Ordinal);
            repository.Write("a.chl", Lesson.Replace(old, now, StringComparison.Ordinal));
            repository.Commit(branch);
            Assert.Equal(says.Length > 0 ? says : "Formatting only: the same music.\n", repository.Git("difftool", "--no-prompt", "--tool=chordlang", "main", branch));
        }
    }

    [Theory]
    [InlineData("git")]
    [InlineData("git instal")]
    [InlineData("git merge a b")]
    [InlineData("git textconv samples/none.chl")]
    public void Misuse(string line) => Assert.Equal(Command.Trouble, Call.Of(line.Split(' ')).Code);

    [Fact]
    public void Outside_a_repository_install_says_so()
    {
        using var repository = new GitRepository();
        Directory.Delete(Path.Combine(repository.Root, ".git"), true);
        var call = repository.Chordlang("git", "install");
        Assert.Equal(Command.Trouble, call.Code);
        Assert.Contains("in no git repository", call.Error, StringComparison.Ordinal);
    }

    private static GitRepository Installed()
    {
        var repository = new GitRepository();
        Assert.Equal(Command.Clean, repository.Chordlang("git", "install", "--program", GitRepository.Program).Code);
        repository.Write("a.chl", Lesson);
        repository.Commit("lesson");
        return repository;
    }
}
