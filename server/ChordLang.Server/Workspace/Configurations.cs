// Finds the chordlang.json files that speak of a lesson, nearest first.
using System.Collections.Immutable;
using ChordLang.Checks.Configuring;
using ChordLang.Grammar.Text;

namespace ChordLang.Server.Workspace;

/// <summary>What is configured for a lesson.</summary>
/// <param name="Configuration">The values.</param>
/// <param name="Troubles">What the files should say otherwise, each with the full path of its file; the editor's have none.</param>
internal sealed record Configured(Configuration Configuration, ImmutableArray<(string? Path, ConfigurationTrouble Trouble)> Troubles)
{
    /// <summary>Nothing.</summary>
    public static Configured None { get; } = new(Configuration.None, []);
}

/// <summary>Reads configuration files.</summary>
internal static class Configurations
{
    /// <summary>The name of the file.</summary>
    public const string FileName = "chordlang.json";

    /// <summary>What is configured for a lesson: by the files of its folder and the folders above it, nearest first, up to the folder that holds a .git; then by the editor.</summary>
    /// <param name="lesson">Its full path, or null for text without a file.</param>
    /// <param name="open">The text of a file that an editor holds open, by its full path, or null where it is read from disk.</param>
    /// <param name="editor">What the editor says, or null.</param>
    public static Configured Of(string? lesson, Func<string, SourceText?>? open = null, ConfigurationFile? editor = null)
    {
        var files = lesson is null ? [] : Above(lesson, open).ToList();
        if (files.Count == 0 && editor is null)
            return Configured.None;
        var layers = files.SelectMany(f => f.File.For(f.Path)).Concat(editor?.For(null) ?? []);
        var troubles = files.SelectMany(f => f.File.Troubles.Select(t => ((string?)f.Full, t))).Concat((editor?.Troubles ?? []).Select(t => ((string?)null, t)));
        return new(Configuration.Of(layers), [.. troubles]);
    }

    /// <summary>Tells of many lessons whether a folder that holds them leaves them out: what speaks of a folder is read once.</summary>
    public static Func<string, bool> Ignoring()
    {
        var known = new Dictionary<string, List<(string Full, ConfigurationFile File, string At)>>(StringComparer.Ordinal);
        return lesson =>
        {
            var here = Path.GetDirectoryName(lesson)!;
            if (!known.TryGetValue(here, out var files))
                known[here] = files = [.. Holding(here, null)];
            return files.Any(f => f.File.Ignores(Shown(f.At, lesson)));
        };
    }

    private static IEnumerable<(string Full, ConfigurationFile File, string Path)> Above(string lesson, Func<string, SourceText?>? open) =>
        Holding(Path.GetDirectoryName(lesson)!, open).Select(f => (f.Full, f.File, Shown(f.At, lesson)));

    // The files that speak of a folder, nearest first, each with its own folder.
    private static IEnumerable<(string Full, ConfigurationFile File, string At)> Holding(string here, Func<string, SourceText?>? open)
    {
        for (var at = here; at is not null; at = Path.GetDirectoryName(at))
        {
            var full = Path.Combine(at, FileName);
            if (open?.Invoke(full) is { } held)
                yield return (full, Read(held, here, full), at);
            else if (File.Exists(full))
                yield return Sources.Read(full, named: false) is { Text: { } text } ? (full, Read(text, here, full), at)
                    : (full, new(ConfigurationLayer.Empty, [], [], [new(0, "The file cannot be read, so nothing in it holds.", true)]), at);
            if (Path.Exists(Path.Combine(at, ".git")))
                yield break;
        }
    }

    private static ConfigurationFile Read(SourceText text, string from, string full) => ConfigurationReader.ReadFile(text.Text, Shown(from, full));

    private static string Shown(string from, string path) => Path.GetRelativePath(from, path).Replace('\\', '/');
}
