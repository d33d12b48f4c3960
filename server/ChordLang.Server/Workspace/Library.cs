// The folder of lessons that a file belongs to: what `use` may open, and nothing outside it.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Configuring;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Server.Workspace;

/// <summary>Opens the files that a lesson uses, inside its library only.</summary>
/// <param name="file">Full path of the lesson, or null for text without a file.</param>
/// <param name="open">The text of a file that an editor holds open, by its full path, or null where it is read from disk.</param>
/// <param name="editor">What an editor's settings say, weaker than every chordlang.json; or null.</param>
internal sealed class Library(string? file, Func<string, SourceText?>? open = null, ConfigurationFile? editor = null) : ILibrary
{
    private readonly Lazy<Configured> configured = new(() => Configurations.Of(file, open, editor));

    /// <summary>What is configured for the lesson, and what was wrong with it.</summary>
    public Configured Configured => configured.Value;

    /// <summary>What is configured for the lesson.</summary>
    public Configuration Configuration => Configured.Configuration;

    /// <inheritdoc/>
    public Settings Defaults => Configuration.Defaults;

    private static readonly string[] Signs = ["chordlang.json", ".git"];

    /// <inheritdoc/>
    public UsedFile Open(string path, string? usedBy)
    {
        if (file is null)
            return new(path, null, "This text has no file of its own, so no other file lies beside it.");
        if (Path.IsPathRooted(path) || path.Contains('\\', StringComparison.Ordinal) || path.Contains('\0', StringComparison.Ordinal))
            return new(path, null, "Write the path from this file's own folder, with / between folders.");
        var here = Path.GetDirectoryName(file)!;
        var root = Real(Root(here));
        var shown = (usedBy is null ? path : Path.Combine(Path.GetDirectoryName(usedBy)!, path)).Replace('\\', '/');
        var full = Path.GetFullPath(Path.Combine(here, shown));
        if (!Inside(Root(here), full) || !Inside(root, Real(full)))
            return new(path, null, "It lies outside the library, and a lesson opens no file outside.");
        if (open?.Invoke(full) is { } held)
            return new(shown, SyntaxTree.Parse(held), null);
        var source = Sources.Read(full);
        return source.Text is { } text ? new(shown, SyntaxTree.Parse(text), null) : new(shown, null, $"The file cannot be read: {source.Trouble}.");
    }

    /// <summary>The full path of a file that the lesson names, or null where it lies outside the library.</summary>
    public string? Full(string path) =>
        file is not null && !Path.IsPathRooted(path) && path.IndexOfAny(['\\', '\0']) < 0 && Path.GetDirectoryName(file)! is var here
        && Path.GetFullPath(Path.Combine(here, path)) is var full && Inside(Root(here), full) ? full : null;

    /// <summary>The folder of the library that a file belongs to.</summary>
    public static string RootOf(string file) => Root(Path.GetDirectoryName(file)!);

    /// <summary>True where a folder says itself that it is a library.</summary>
    public static bool IsSigned(string folder) => Signs.Any(s => Path.Exists(Path.Combine(folder, s)));

    // The nearest folder above that says it is a library; else the lesson's own.
    private static string Root(string folder)
    {
        for (var at = folder; at is not null; at = Path.GetDirectoryName(at))
            if (IsSigned(at))
                return at;
        return folder;
    }

    private static bool Inside(string root, string path) =>
        path.StartsWith(root.EndsWith(Path.DirectorySeparatorChar) ? root : root + Path.DirectorySeparatorChar, StringComparison.Ordinal);

    // Every link on the way followed, so that no link leads out.
    private static string Real(string path)
    {
        var done = Path.GetPathRoot(path)!;
        foreach (var part in path[done.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries))
        {
            done = Path.Combine(done, part);
            if (new FileInfo(done) is { LinkTarget: not null } link)
                done = link.ResolveLinkTarget(true)?.FullName ?? done;
        }
        return done;
    }
}
