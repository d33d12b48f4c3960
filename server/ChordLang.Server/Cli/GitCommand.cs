// `chordlang git`: sets git up for lessons, and is what git then calls: merge driver, text of a diff, hook.
using System.Globalization;
using System.Text;
using ChordLang.Checks.Catalogue;
using ChordLang.Features.Merging;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Text;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class GitCommand : Command
{
    public override string Name => "git";

    public override string Takes => "install | uninstall | status | merge BASE OURS THEIRS | textconv FILE | hook";

    public override string Summary => "Teaches git to compare, merge and check lessons; git itself calls merge, textconv and hook";

    public override IReadOnlyList<Option> Options { get; } =
    [
        new("--global", null, "install, uninstall, status: for all your repositories, without the hook"),
        new("--program", "COMMAND", "install, uninstall, status: how git calls this program (default: chordlang, or where it lies)"),
        new("--path", "PATH", "merge: the lesson that is merged"),
        new("--marker-size", "N", "merge: how many signs a conflict marker has (default: 7)"),
        new("--fail-on", "LEVEL", "hook: the least grave finding that stops a commit (default: warning)", ["error", "warning", "information", "hint"]),
    ];

    public override int Run(Arguments arguments, Terminal terminal) => arguments.Words switch
    {
        ["install"] => Set(arguments, s => s.Install(), terminal),
        ["uninstall"] => Set(arguments, s => s.Uninstall(), terminal),
        ["status"] => Set(arguments, s => s.Status(), terminal),
        ["merge", var old, var ours, var theirs] => Merge(old, ours, theirs, arguments, terminal),
        ["textconv", var file] => TextConv(file, terminal),
        ["hook"] => Hook(arguments, terminal),
        _ => throw new MisuseException("git takes one of these: install, uninstall, status; merge BASE OURS THEIRS, textconv FILE and hook are for git to call."),
    };

    private static int Set(Arguments arguments, Func<GitSetup, IEnumerable<GitStep>> does, Terminal terminal)
    {
        var git = new Git(Environment.CurrentDirectory);
        var wide = arguments.Has("--global");
        if (!wide && git.Run("rev-parse", "--git-dir").Code != 0)
            throw new MisuseException("this folder is in no git repository. Go into one, or say --global.");
        var steps = does(new(git, wide, arguments["--program"] ?? Program())).ToList();
        foreach (var step in steps)
            terminal.Out.WriteLine($"{Word(step.State),-10} {Terminal.Harmless(step.Where)}: {Terminal.Harmless(step.What)}");
        if (arguments.Words[0] == "install")
        {
            terminal.Out.WriteLine($"\nFor everybody who clones the lessons, commit this line in .gitattributes:\n{GitSetup.Attributes}");
            if (steps.Any(s => s.State == GitState.Other))
                terminal.Out.WriteLine("\nWhat is marked as kept is not ours, so it stays as it is. To a hook of your own add the line shown.");
            terminal.Out.WriteLine("\nchordlang git uninstall takes all of it out again.");
        }
        return arguments.Words[0] == "status" && steps.Any(s => s.State != GitState.Present) ? Found : Clean;
    }

    private static string Word(GitState state) => state switch { GitState.Put => "added", GitState.Taken => "removed", GitState.Present => "present", GitState.Absent => "absent", _ => "kept" };

    // The plain word where it is on the PATH, else where this program lies.
    private static string Program()
    {
        var name = OperatingSystem.IsWindows() ? "chordlang.exe" : "chordlang";
        if ((Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Any(p => p.Length > 0 && File.Exists(Path.Combine(p, name))))
            return "chordlang";
        var (process, own) = (Environment.ProcessPath ?? "chordlang", Path.Combine(AppContext.BaseDirectory, "chordlang.dll"));
        return Path.GetFileNameWithoutExtension(process) == "dotnet" && File.Exists(own) ? $"{Quoted(process)} {Quoted(own)}" : Quoted(process);
    }

    private static string Quoted(string path)
    {
        path = path.Replace('\\', '/');
        return path.All(c => char.IsAsciiLetterOrDigit(c) || c is '/' or '.' or '-' or '_' or ':') ? path : $"'{path.Replace("'", "'\\''", StringComparison.Ordinal)}'";
    }

    // A merge driver leaves the result in the file of OURS: 0 where it is clean, 1 where it holds conflicts (gitattributes, "Defining a custom merge driver").
    private static int Merge(string old, string ours, string theirs, Arguments arguments, Terminal terminal)
    {
        var size = int.TryParse(arguments["--marker-size"], NumberStyles.None, CultureInfo.InvariantCulture, out var n) && n is > 0 and < 100 ? n : 7;
        var sources = new[] { old, ours, theirs }.Select(s => Sources.Read(s)).ToList();
        var path = arguments["--path"] ?? ours;
        MergedLesson? merged = null;
        if (sources.All(s => s.Text is not null))
            try
            {
                merged = LessonMerge.Merge(sources[0].Text!, sources[1].Text!, sources[2].Text!, new Library(Path.GetFullPath(path)), size);
            }
#pragma warning disable CA1031 // Whatever breaks here, git's own merge loses nothing.
            catch (Exception e)
#pragma warning restore CA1031
            {
                terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(path)} is merged by lines: {Terminal.Harmless(Reason(e))}.");
            }
        if (merged is null)
            return new Git(Environment.CurrentDirectory).Run("merge-file", $"--marker-size={size}", "-L", "ours", "-L", "base", "-L", "theirs", "--", Path.GetFullPath(ours), Path.GetFullPath(old), Path.GetFullPath(theirs)).Code == 0 ? Clean : Found;
        Replacement.Write(Path.GetFullPath(ours), SourceText.From(merged.Text).ToBytes());
        foreach (var doubt in merged.Doubts)
            terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(path)}: {Terminal.Harmless(doubt)}.");
        return merged.Doubts.IsEmpty ? Clean : Found;
    }

    // The canonical text; what is none is shown as it is.
    private static int TextConv(string file, Terminal terminal)
    {
        var source = Sources.Read(file);
        if (source.Text is not { } text)
            throw new MisuseException(Unreadable(source));
        terminal.Out.Write(Encoding.UTF8.GetString(Formatter.Formatted(text).ToBytes()));
        return Clean;
    }

    // What is checked is what will be committed: the blobs of the index, not the files of the work tree.
    private static int Hook(Arguments arguments, Terminal terminal)
    {
        var git = new Git(Environment.CurrentDirectory);
        var root = git.Ask("rev-parse", "--show-toplevel");
        git = new(root);
        var staged = git.Run("diff", "--cached", "--name-only", "--diff-filter=ACMR", "-z").Text.Split('\0', StringSplitOptions.RemoveEmptyEntries).Where(f => f.EndsWith(".chl", StringComparison.Ordinal)).ToList();
        SourceText? Staged(string path) => git.Run("cat-file", "blob", ":" + path) is { Code: 0 } blob ? SourceText.From(blob.Out) : null;
        SourceText? Open(string full) => Path.GetRelativePath(root, full).Replace('\\', '/') is var path && !path.StartsWith("../", StringComparison.Ordinal) ? Staged(path) : null;
        var files = staged.Select(path =>
        {
            var full = Path.Combine(root, path);
            return CheckCommand.Guarded(Staged(path) is { } text ? new(path, full, text, null) : new(path, full, null, "git has no blob of it"), false, new Library(full, Open));
        }).ToList();
        foreach (var file in files)
        {
            CheckCommand.Unread(file, terminal);
            TextReport.Write(file, terminal);
        }
        ConfigCommand.Tell(files.SelectMany(f => f.Configured), terminal);
        var code = CheckCommand.Code(files, Enum.Parse<Severity>(arguments["--fail-on"] ?? "warning", true));
        if (code != Clean)
            terminal.Error.WriteLine("chordlang: the commit was stopped. Mend the lessons and stage them again, or allow what is meant; git commit --no-verify passes by.");
        return code;
    }
}
