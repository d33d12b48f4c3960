// What the lessons of the open folders hold, read in the background: names and little else, so that thousands of lessons stay small.
using System.Collections.Concurrent;
using System.Text.Json;
using ChordLang.Features.Names;
using ChordLang.Features.Outlines;
using ChordLang.Grammar.Syntax;
using ChordLang.Server.Lsp.Protocol;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Lsp;

/// <summary>A name in a lesson of the library.</summary>
/// <param name="Name">As the outline says it.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Range">Where.</param>
internal sealed record IndexedName(string Name, PartKind Kind, TextRange Range);

/// <summary>What is kept of a lesson.</summary>
/// <param name="Path">Its full path.</param>
/// <param name="Title">Its title, or its file's name.</param>
/// <param name="Names">Its sections and shapes.</param>
/// <param name="Shapes">The names of the shapes that it plays, gives or expects.</param>
/// <param name="Tags">Its tags.</param>
internal sealed record IndexedLesson(string Path, string Title, IReadOnlyList<IndexedName> Names, IReadOnlySet<string> Shapes, IReadOnlyList<string> Tags);

/// <summary>The index of a client's folders. Readers see what is there; <see cref="Whole"/> tells when that is all.</summary>
internal sealed class LessonIndex(Client client, PositionEncoding encoding)
{
    // Bounds memory: a lesson takes a few hundred bytes to a few thousand.
    private const int MostLessons = 20_000, MostNames = 500, LongestName = 200;

    private readonly ConcurrentDictionary<string, IndexedLesson> lessons = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, Task> roots = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, CancellationTokenSource> running = new(StringComparer.Ordinal);
    private readonly Lock order = new();
    private Task renewing = Task.CompletedTask;
    private int lastToken;

    /// <summary>The lessons read so far, by path.</summary>
    public IEnumerable<IndexedLesson> Lessons => lessons.Values.OrderBy(l => l.Path, StringComparer.Ordinal);

    /// <summary>Ends when all folders are read, or their reading was given up, and what changed since is read too.</summary>
    public Task Whole => Task.WhenAll(roots.Values.Append(renewing));

    /// <summary>Begins to read a folder, unless that or one above it was begun.</summary>
    public void Add(string folder)
    {
        if (!roots.Keys.Any(r => Holds(r, folder)))
            roots.GetOrAdd(folder, f => Task.Run(() => Read(f)));
    }

    /// <summary>Forgets a folder.</summary>
    public void Remove(string folder)
    {
        roots.TryRemove(folder, out _);
        foreach (var path in lessons.Keys)
            if (!roots.Keys.Any(r => Holds(r, path)))
                lessons.TryRemove(path, out _);
    }

    /// <summary>Reads files again that changed on disk, or were closed, in the background; those that are gone, or in no folder, are forgotten.</summary>
    public void Renew(IReadOnlyList<string> paths)
    {
        lock (order)
            renewing = renewing.ContinueWith(_ => Again(paths), TaskScheduler.Default);
    }

    private void Again(IReadOnlyList<string> paths)
    {
        foreach (var path in paths)
            if (path.EndsWith(".chl", StringComparison.OrdinalIgnoreCase) && roots.Keys.Any(r => Holds(r, path)))
                Take(path);
            else
                lessons.TryRemove(path, out _);
    }

    /// <summary>The client's user has had enough of reading.</summary>
    public void Cancel(JsonElement token)
    {
        if (token.ValueKind == JsonValueKind.String && running.TryGetValue(token.GetString()!, out var source))
            source.Cancel();
    }

    /// <summary>True where a path lies in a folder, or is it.</summary>
    internal static bool Holds(string folder, string path) =>
        path == folder || path.StartsWith(folder.EndsWith(Path.DirectorySeparatorChar) ? folder : folder + Path.DirectorySeparatorChar, StringComparison.Ordinal);

    private async Task Read(string folder)
    {
        var token = $"chordlang-index-{Interlocked.Increment(ref lastToken)}";
        using var cancel = new CancellationTokenSource();
        running[token] = cancel;
        var shown = await client.CreateProgress(token).ConfigureAwait(false);
        await using var progress = await Progress.Begin(client, shown, "Reading the lessons").ConfigureAwait(false);
        try
        {
            var files = Sources.Below(folder);
            for (var i = 0; i < files.Count && lessons.Count < MostLessons && !cancel.IsCancellationRequested; i++)
            {
                Take(Path.GetFullPath(files[i]));
                if (i % 32 == 0)
                    await progress.Report(100 * i / files.Count, $"{i} of {files.Count}").ConfigureAwait(false);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            await client.Log($"The folder {folder} could not be read: {e.Message}").ConfigureAwait(false);
        }
        finally
        {
            running.TryRemove(token, out _);
        }
    }

    private void Take(string path)
    {
        if (Sources.Read(path).Text is not { } text)
        {
            lessons.TryRemove(path, out _);
            return;
        }
        // No music is bound here: names stand in the syntax, and the tree is let go at once.
        var tree = SyntaxTree.Parse(text);
        var positions = new Positions(text, encoding);
        var (names, shapes) = (new List<IndexedName>(), new HashSet<string>(StringComparer.Ordinal));
        var (title, tags) = ((string?)null, new List<string>());
        for (var i = 0; i < tree.Lines.Length; i++)
            switch (tree.Lines[i])
            {
                case SettingLine { Kind: SettingKind.Title, Value: TextValue { Text: var text1 } }:
                    title ??= Short(text1);
                    break;
                case SettingLine { Value: TagsValue { Tags: var some } }:
                    tags.AddRange(some.Select(Short));
                    break;
                case SectionLine { Name.Length: > 0, Again: false } section when names.Count < MostNames:
                    names.Add(new(Short(section[section.Name]), PartKind.Section, positions.Range(tree.Absolute(i, section.Name))));
                    break;
                case ShapeLine { Name.Length: > 0 } shape when names.Count < MostNames:
                    names.Add(new(Short(shape[shape.Name]), PartKind.Shape, positions.Range(tree.Absolute(i, shape.Name))));
                    break;
            }
        foreach (var name in NamePlaces.ShapesNamed(tree))
            if (shapes.Count < MostNames)
                shapes.Add(Short(name));
        lessons[path] = new(path, title ?? Path.GetFileNameWithoutExtension(path), names, shapes, tags);
    }

    private static string Short(string text) => text.Length <= LongestName ? text : text[..LongestName];
}
