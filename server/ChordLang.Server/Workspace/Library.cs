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

    // As many as Linux follows (path_resolution(7)).
    private const int MostLinks = 40;

    private static readonly string[] Signs = ["chordlang.json", ".git"];

    /// <inheritdoc/>
    public UsedFile Open(string path, string? usedBy)
    {
        if (file is null)
            return new(path, null, "This text has no file of its own, so no other file lies beside it.");
        if (Path.IsPathRooted(path) || path.Contains('\\', StringComparison.Ordinal) || path.Contains('\0', StringComparison.Ordinal))
            return new(path, null, "Write the path from this file's own folder, with / between folders.");
        var shown = (usedBy is null ? path : Path.Combine(Path.GetDirectoryName(usedBy)!, path)).Replace('\\', '/');
        if (Full(shown) is not { } full)
            return new(path, null, "It lies outside the library, and a lesson opens no file outside.");
        if (open?.Invoke(full) is { } held)
            return new(shown, SyntaxTree.Parse(held), null);
        var source = Sources.Read(full, named: false);
        return source.Text is { } text ? new(shown, SyntaxTree.Parse(text), null) : new(shown, null, $"The file cannot be read: {source.Trouble}.");
    }

    /// <summary>The full path of a file that the lesson names, or null where it lies outside the library, or a link leads out.</summary>
    public string? Full(string path)
    {
        if (file is null || Path.IsPathRooted(path) || path.IndexOfAny(['\\', '\0']) >= 0)
            return null;
        var here = Path.GetDirectoryName(file)!;
        var (root, full) = (Root(here), Path.GetFullPath(Path.Combine(here, path)));
        return Inside(root, full) && Real(root) is { } realRoot && Real(full) is { } real && Inside(realRoot, real) ? full : null;
    }

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

    // Every link on the way followed, those that a link leads through too, so that none leads out; null where they lead in circles.
    private static string? Real(string path)
    {
        var (done, parts) = (Path.GetPathRoot(path)!, new Stack<string>(Parts(path)));
        for (var links = 0; parts.TryPop(out var part);)
        {
            if (part == "..")
            {
                done = Path.GetDirectoryName(done) ?? done;
                continue;
            }
            var next = Path.Combine(done, part);
            if (new FileInfo(next).LinkTarget is not { } target)
                done = next;
            else if (++links > MostLinks)
                return null;
            else
            {
                // Step by step, as the system goes: what is behind a link may have another folder above it than one reads.
                foreach (var more in Parts(target))
                    parts.Push(more);
                done = Path.IsPathRooted(target) ? Path.GetPathRoot(target)! : done;
            }
        }
        return done;
    }

    // From the last to the first.
    private static IEnumerable<string> Parts(string path) =>
        path[Path.GetPathRoot(path)!.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries).Where(p => p != ".").Reverse();
}
