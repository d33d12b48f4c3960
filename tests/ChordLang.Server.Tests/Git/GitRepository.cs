// A git repository made on the spot, with a home of its own, so that nothing of this machine reaches it.
using System.Diagnostics;
using System.Text;

namespace ChordLang.Server.Tests.Git;

/// <summary>A repository that goes away with its test.</summary>
internal sealed class GitRepository : IDisposable
{
    private readonly TemporaryFolder folder = new();

    /// <summary>Makes an empty repository whose first branch is main.</summary>
    public GitRepository()
    {
        Directory.CreateDirectory(Root);
        Directory.CreateDirectory(Home);
        Git("init", "--quiet", "--initial-branch=main");
    }

    /// <summary>The work tree.</summary>
    public string Root => Path.Combine(folder.Path, "lessons");

    /// <summary>The home folder that git and chordlang see.</summary>
    public string Home => Path.Combine(folder.Path, "home");

    /// <summary>How git calls this build of chordlang.</summary>
    public static string Program => $"dotnet '{Path.Combine(AppContext.BaseDirectory, "chordlang.dll")}'";

    /// <summary>Runs git; fails the test where git fails.</summary>
    public string Git(params string[] arguments)
    {
        var call = Run("git", arguments);
        Assert.True(call.Code == 0, $"git {string.Join(' ', arguments)}: {call.Out}{call.Error}");
        return call.Out;
    }

    /// <summary>Runs git, whatever it answers.</summary>
    public Call TryGit(params string[] arguments) => Run("git", arguments);

    /// <summary>Runs chordlang in the work tree.</summary>
    public Call Chordlang(params string[] arguments) => Run("dotnet", [Path.Combine(AppContext.BaseDirectory, "chordlang.dll"), .. arguments]);

    /// <summary>Writes a file of the work tree.</summary>
    public void Write(string path, string text)
    {
        var full = Path.Combine(Root, path);
        Directory.CreateDirectory(Path.GetDirectoryName(full)!);
        File.WriteAllText(full, text);
    }

    /// <summary>Reads a file of the work tree.</summary>
    public string Read(string path) => File.ReadAllText(Path.Combine(Root, path));

    /// <summary>Commits everything.</summary>
    public void Commit(string message)
    {
        Git("add", "--all");
        Git("commit", "--quiet", "--no-verify", "-m", message);
    }

    /// <summary>Every file of repository and home, with its bytes.</summary>
    public SortedDictionary<string, string> Bytes() =>
        new(Directory.EnumerateFiles(folder.Path, "*", SearchOption.AllDirectories).ToDictionary(f => Path.GetRelativePath(folder.Path, f), f => Convert.ToHexString(File.ReadAllBytes(f))), StringComparer.Ordinal);

    /// <inheritdoc/>
    public void Dispose() => folder.Dispose();

    private Call Run(string program, string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = Root, StandardOutputEncoding = new UTF8Encoding(false) };
        foreach (var name in start.Environment.Keys.Where(k => k.StartsWith("GIT_", StringComparison.Ordinal)).ToList())
            start.Environment.Remove(name);
        (start.Environment["HOME"], start.Environment["XDG_CONFIG_HOME"], start.Environment["GIT_CONFIG_NOSYSTEM"]) = (Home, Path.Combine(Home, ".config"), "1");
        foreach (var who in (string[])["AUTHOR", "COMMITTER"])
            (start.Environment[$"GIT_{who}_NAME"], start.Environment[$"GIT_{who}_EMAIL"], start.Environment[$"GIT_{who}_DATE"]) = ("A. Student", "student@example.org", "2026-11-25T12:00:00Z");
        // dotnet keeps things in its home; it must not look for them in a new one.
        start.Environment["DOTNET_CLI_HOME"] = Path.GetTempPath();
        using var process = Process.Start(start)!;
        process.StandardInput.Close();
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new(process.ExitCode, output, error.GetAwaiter().GetResult());
    }
}
