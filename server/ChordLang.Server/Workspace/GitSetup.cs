// What git is told of lessons: settings, attributes and a hook; put in and taken out without a trace.
using System.Text;

namespace ChordLang.Server.Workspace;

/// <summary>A thing that is put in or taken out.</summary>
/// <param name="Where">The settings or the file it is in.</param>
/// <param name="What">What it says there.</param>
/// <param name="State">What was found or done.</param>
internal sealed record GitStep(string Where, string What, GitState State);

/// <summary>What became of a step.</summary>
internal enum GitState
{
    /// <summary>It is there.</summary>
    Present,
    /// <summary>It is not there.</summary>
    Absent,
    /// <summary>Something else is there, which is not ours to touch.</summary>
    Other,
    /// <summary>It was put in.</summary>
    Put,
    /// <summary>It was taken out.</summary>
    Taken,
}

/// <summary>Sets git up.</summary>
/// <param name="git">Git, in a folder of the repository.</param>
/// <param name="wide">True for all repositories of the user, false for this one.</param>
/// <param name="program">How git calls us: a word or a path, quoted for a shell.</param>
internal sealed class GitSetup(Git git, bool wide, string program)
{
    /// <summary>The line of a .gitattributes.</summary>
    public const string Attributes = "*.chl diff=chordlang merge=chordlang";

    private const string Mark = "# chordlang git install", Joined = ", joined", Empty = ", empty", HookName = "pre-commit";
    private readonly string scope = wide ? "--global" : "--local";

    private IReadOnlyList<(string Key, string Value)> Settings =>
    [
        // A hunk is headed by the section that it is in.
        ("diff.chordlang.xfuncname", "^[ \t]*(section[ \t].*)$"),
        // Words are what a musician reads as one: a quote, a slot, a note of a stack, a count, a symbol.
        ("diff.chordlang.wordRegex", "\"[^\"]*\"|[^] \t|+=-]+|[|+=-]"),
        ("diff.chordlang.textconv", $"{program} git textconv"),
        ("difftool.chordlang.cmd", $"{program} diff --path \"$MERGED\" \"$LOCAL\" \"$REMOTE\""),
        ("merge.chordlang.name", "lessons by section and bar"),
        ("merge.chordlang.driver", $"{program} git merge --path %P --marker-size %L %O %A %B"),
    ];

    private string Hook => $"#!/bin/sh\n{Mark}: the lessons of a commit must check clean.\nexec {program} git hook\n";

    /// <summary>Puts everything in; what is there already stays.</summary>
    public IEnumerable<GitStep> Install()
    {
        foreach (var (key, value) in Settings)
            if (Value(key) is { } there)
                yield return new(ConfigName, $"{key} = {there}", there == value ? GitState.Present : GitState.Other);
            else
            {
                git.Ask("config", scope, key, value);
                yield return new(ConfigName, $"{key} = {value}", GitState.Put);
            }
        var attributes = AttributesFile();
        if (Lines(attributes).Contains(Attributes))
            yield return new(attributes, Attributes, GitState.Present);
        else
        {
            // A last line without its end would swallow ours; an empty file must be empty again afterwards.
            var before = File.Exists(attributes) ? File.ReadAllText(attributes) : null;
            Directory.CreateDirectory(Path.GetDirectoryName(attributes)!);
            File.WriteAllText(attributes, before + (before is [.., not '\n'] ? $"\n{Mark}{Joined}\n" : before is "" ? $"{Mark}{Empty}\n" : $"{Mark}\n") + Attributes + "\n");
            yield return new(attributes, Attributes, GitState.Put);
        }
        if (wide)
            yield break;
        var hook = HookFile();
        if (File.Exists(hook))
        {
            yield return new(hook, HookCall, File.ReadAllText(hook) == Hook ? GitState.Present : GitState.Other);
            yield break;
        }
        Directory.CreateDirectory(Path.GetDirectoryName(hook)!);
        File.WriteAllText(hook, Hook);
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(hook, File.GetUnixFileMode(hook) | UnixFileMode.UserExecute | UnixFileMode.GroupExecute | UnixFileMode.OtherExecute);
        yield return new(hook, HookCall, GitState.Put);
    }

    /// <summary>Takes everything out that is as it was put in.</summary>
    public IEnumerable<GitStep> Uninstall()
    {
        foreach (var (key, value) in Settings)
        {
            var there = Value(key);
            if (there == value)
                git.Ask("config", scope, "--unset", key);
            yield return new(ConfigName, $"{key} = {there ?? value}", there == value ? GitState.Taken : there is null ? GitState.Absent : GitState.Other);
        }
        var attributes = AttributesFile();
        yield return new(attributes, Attributes, TakeOut(attributes));
        if (wide)
        {
            Tidy(Path.GetDirectoryName(attributes)!);
            yield break;
        }
        var hook = HookFile();
        var ours = File.Exists(hook) && File.ReadAllText(hook) == Hook;
        var state = ours ? GitState.Taken : File.Exists(hook) ? GitState.Other : GitState.Absent;
        if (ours)
            File.Delete(hook);
        yield return new(hook, HookCall, state);
    }

    /// <summary>What is there.</summary>
    public IEnumerable<GitStep> Status()
    {
        foreach (var (key, value) in Settings)
            yield return Value(key) is { } there ? new(ConfigName, $"{key} = {there}", there == value ? GitState.Present : GitState.Other) : new(ConfigName, $"{key} = {value}", GitState.Absent);
        var attributes = AttributesFile();
        yield return new(attributes, Attributes, Lines(attributes).Contains(Attributes) ? GitState.Present : GitState.Absent);
        if (!wide)
            yield return new(HookFile(), HookCall, !File.Exists(HookFile()) ? GitState.Absent : File.ReadAllText(HookFile()) == Hook ? GitState.Present : GitState.Other);
    }

    // The first setting of a user makes the file of all of them, and the first attribute its folder.
    private static void Tidy(string folder)
    {
        if (Directory.Exists(folder) && !Directory.EnumerateFileSystemEntries(folder).Any())
            Directory.Delete(folder);
        var config = Path.Combine(Home, ".gitconfig");
        if (Environment.GetEnvironmentVariable("GIT_CONFIG_GLOBAL") is null && File.Exists(config) && new FileInfo(config).Length == 0)
            File.Delete(config);
    }

    private static string Home => Environment.GetEnvironmentVariable("HOME") ?? Environment.GetFolderPath(Environment.SpecialFolder.UserProfile);

    private string HookCall => $"{program} git hook";

    private string ConfigName => wide ? "git config --global" : "git config";

    private string? Value(string key) => git.Run("config", scope, "--get", key) is { Code: 0 } answer ? answer.Line : null;

    private static string[] Lines(string file) => File.Exists(file) ? File.ReadAllText(file).Split('\n') : [];

    // Ours is the marked line and the one behind it; a file that holds nothing else was made by us.
    private static GitState TakeOut(string file)
    {
        var lines = Lines(file).ToList();
        var at = lines.FindIndex(l => l.StartsWith(Mark, StringComparison.Ordinal));
        if (at < 0 || at + 1 >= lines.Count || lines[at + 1] != Attributes)
            return lines.Contains(Attributes) ? GitState.Other : GitState.Absent;
        var (joined, empty) = (lines[at] == Mark + Joined, lines[at] == Mark + Empty);
        lines.RemoveRange(at, 2);
        var left = string.Join('\n', lines);
        if (joined && at + 1 == lines.Count && lines[at].Length == 0)
            left = left.TrimEnd('\n');
        if (left.Length == 0 && !empty)
            File.Delete(file);
        else
            File.WriteAllBytes(file, Encoding.UTF8.GetBytes(left));
        return GitState.Taken;
    }

    private string HookFile() => Path.GetFullPath(Path.Combine(git.Folder, git.Ask("rev-parse", "--git-path", "hooks/" + HookName)));

    private string AttributesFile()
    {
        if (!wide)
            return Path.GetFullPath(Path.Combine(git.Folder, git.Ask("rev-parse", "--git-path", "info/attributes")));
        if (git.Run("config", "--global", "--type=path", "--get", "core.attributesFile") is { Code: 0 } named)
            return Path.GetFullPath(named.Line);
        // Where git itself looks (gitattributes).
        var home = Environment.GetEnvironmentVariable("XDG_CONFIG_HOME") is { Length: > 0 } xdg ? xdg : Path.Combine(Home, ".config");
        return Path.Combine(home, "git", "attributes");
    }
}
