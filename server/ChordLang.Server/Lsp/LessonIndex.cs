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
/// <param name="client">Who is told.</param>
/// <param name="encoding">How positions count.</param>
/// <param name="most">How many lessons are kept.</param>
internal sealed class LessonIndex(Client client, PositionEncoding encoding, int most = LessonIndex.MostLessons)
{
    // Bounds memory: a lesson takes a few hundred bytes to a few thousand.
    private const int MostNames = 500, LongestName = 200;

    /// <summary>More are not kept, and the client is told so.</summary>
    public const int MostLessons = 20_000;

    private readonly ConcurrentDictionary<string, IndexedLesson> lessons = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, Root> roots = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, CancellationTokenSource> running = new(StringComparer.Ordinal);
    private readonly Lock order = new();
    private Task renewing = Task.CompletedTask;
    private int lastToken;

    /// <summary>The lessons read so far, by path.</summary>
    public IEnumerable<IndexedLesson> Lessons => lessons.Values.OrderBy(l => l.Path, StringComparer.Ordinal);

    /// <summary>Ends when all folders are read, or their reading was given up, and what changed since is read too.</summary>
    public Task Whole => Task.WhenAll(roots.Values.Select(r => r.Read.Value).Append(renewing));

    /// <summary>Begins to read a folder, unless that was begun, or one above it with all below.</summary>
    /// <param name="folder">Its full path.</param>
    /// <param name="deep">False to leave out the folders in it: without a sign of a library it may be somebody's home.</param>
    public void Add(string folder, bool deep = true)
    {
        if (roots.Values.Any(r => r.Deep && Holds(r.Folder, folder)))
            return;
        var wanted = new Root(folder, deep, new(() => Task.Run(() => Read(folder, deep))));
        _ = roots.AddOrUpdate(folder, wanted, (_, old) => old.Deep || !deep ? old : wanted).Read.Value;
    }

    /// <summary>Forgets a folder.</summary>
    public void Remove(string folder)
    {
        roots.TryRemove(folder, out _);
        foreach (var path in lessons.Keys)
            if (!Wanted(path))
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
            if (path.EndsWith(".chl", StringComparison.OrdinalIgnoreCase) && Wanted(path))
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

    private bool Wanted(string path) => roots.Values.Any(r => r.Deep ? Holds(r.Folder, path) : Path.GetDirectoryName(path) == r.Folder);

    private async Task Read(string folder, bool deep)
    {
        var token = $"chordlang-index-{Interlocked.Increment(ref lastToken)}";
        using var cancel = new CancellationTokenSource();
        running[token] = cancel;
        var (done, shown) = (new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously), new Shown());
        _ = Show(token, shown, done.Task);
        try
        {
            var tooDeep = 0;
            var files = Sources.Below(folder, deep, _ => tooDeep++);
            if (tooDeep > 0)
                await client.Show($"Folders more than {Sources.MostDeep} deep are not looked into: there are {tooDeep} in {folder}.").ConfigureAwait(false);
            for (var i = 0; i < files.Count && !cancel.IsCancellationRequested; i++)
            {
                if (lessons.Count >= most)
                {
                    await client.Show($"Only {most} lessons are kept in mind; of {folder}, {files.Count - i} are left out where names are looked up.").ConfigureAwait(false);
                    break;
                }
                Take(Path.GetFullPath(files[i]));
                if (i % 32 == 0 && shown.Progress is { } progress)
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
            done.SetResult();
        }
    }

    // Beside the reading: a client that never answers holds up nothing.
    private async Task Show(string token, Shown shown, Task done)
    {
        if (await client.CreateProgress(token).ConfigureAwait(false) is not { } created)
            return;
        await using var progress = await Progress.Begin(client, created, "Reading the lessons").ConfigureAwait(false);
        shown.Progress = progress;
        await done.ConfigureAwait(false);
    }

    private void Take(string path)
    {
        if (lessons.Count >= most && !lessons.ContainsKey(path))
            return;
        if (Sources.Read(path, named: false).Text is not { } text)
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
                    tags.AddRange(some.Take(MostNames - tags.Count).Select(Short));
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

    private sealed class Shown
    {
        public volatile Progress? Progress;
    }

    private sealed record Root(string Folder, bool Deep, Lazy<Task> Read);

    private static string Short(string text) => text.Length <= LongestName ? text : text[..LongestName];
}
