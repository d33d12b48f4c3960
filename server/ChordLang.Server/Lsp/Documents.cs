// The open documents: changes come in one after the other, readers take what is there.
using System.Collections.Concurrent;
using System.Diagnostics.CodeAnalysis;
using ChordLang.Checks.Configuring;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Server.Lsp.Protocol;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Lsp;

/// <summary>Keeps the open documents. Changes come one after the other; any thread may read.</summary>
internal sealed class Documents(PositionEncoding encoding)
{
    private readonly ConcurrentDictionary<string, (Document Document, Kept Kept)> open = new(StringComparer.Ordinal);
    // Only one thread applies what the client types; settings may come between.
    private readonly Lock order = new();
    private ConfigurationFile? editor;
    private long stamp;

    /// <summary>All open documents.</summary>
    public IEnumerable<Document> All => open.Values.Select(o => o.Document).OrderBy(d => d.Uri, StringComparer.Ordinal);

    /// <summary>The present version of a document, or null where it is not open.</summary>
    public Document? Find(string uri) => open.TryGetValue(uri, out var found) ? found.Document : null;

    /// <summary>True where a version is still the present one.</summary>
    public bool IsCurrent(Document document) => Find(document.Uri)?.Stamp == document.Stamp;

    /// <summary>Opens a document; answers all that changed by it: it first, then those that use it.</summary>
    public IReadOnlyList<Document> Open(string uri, int version, string text)
    {
        var kept = new Kept(new(), new());
        lock (order)
            return WithUsers(Keep(uri, version, SyntaxTree.Parse(SourceText.From(text), kept.Lines), kept, opening: true));
    }

    /// <summary>Changes a document, one change after the other; answers as <see cref="Open"/> does. A document that is not open stays so.</summary>
    public IReadOnlyList<Document> Change(string uri, int? version, IReadOnlyList<ContentChange> changes)
    {
        if (!open.TryGetValue(uri, out var old))
            return [];
        var (tree, known, typed) = (old.Document.Lesson.Tree, old.Document.Known, (TypedLines?)null);
        foreach (var change in changes)
        {
            var edit = change.Range is { } range ? new TextEdit(new Positions(tree.Source, encoding).Span(range), change.Text) : Difference(tree.Source.Text, change.Text);
            var before = tree;
            tree = tree.With(edit, out var lines, old.Kept.Lines);
            known = known?.After(edit, lines, before, tree);
            var touched = new TypedLines(tree.Source.LineAt(edit.Span.Start), tree.Source.LineAt(edit.Span.Start + edit.NewText.Length));
            typed = typed is { } so ? new(Math.Min(so.First, touched.First), Math.Max(so.Last, touched.Last)) : touched;
        }
        lock (order)
            return WithUsers(Keep(uri, version ?? old.Document.Version, tree, old.Kept, known, typed));
    }

    /// <summary>Closes a document; answers those that used it, which now read the file.</summary>
    public IReadOnlyList<Document> Close(string uri)
    {
        lock (order)
            return open.TryRemove(uri, out var closed) && closed.Document.Path is { } path ? Renewed([path]) : [];
    }

    /// <summary>The editor's settings changed: answers all open documents, made anew under them.</summary>
    public IReadOnlyList<Document> Configure(ConfigurationFile settings)
    {
        lock (order)
        {
            editor = settings;
            return [.. open.Select(o => Keep(o.Key, o.Value.Document.Version, o.Value.Document.Lesson.Tree, o.Value.Kept))];
        }
    }

    /// <summary>Files changed on disk: answers the open documents that use one of them, made anew.</summary>
    public IReadOnlyList<Document> Renewed(IReadOnlyCollection<string> paths)
    {
        var renewed = new List<Document>();
        lock (order)
            foreach (var (uri, (document, kept)) in open)
                if (paths.Any(p => p != document.Path && document.Uses.Contains(p)))
                    renewed.Add(Keep(uri, document.Version, document.Lesson.Tree, kept));
        return renewed;
    }

    /// <summary>A file that is not open, as it is on disk, or null where it cannot be read. It is let go with the answer that needs it.</summary>
    public Document? Closed(string path) => Sources.Read(path, named: false).Text is { } text ? Made(Answers.UriOf(path), Document.NotOpen, SyntaxTree.Parse(text)) : null;

    /// <summary>The full path of a file that a document names, or null where its library has none there.</summary>
    public static string? FileOf(Document document, string named) =>
        document.Path is { } path && new Library(path).Full(named) is { } full && File.Exists(full) ? full : null;

    /// <summary>The path of a file's URI, or null.</summary>
    public static string? PathOf(string uri) =>
        System.Uri.TryCreate(uri, UriKind.Absolute, out var parsed) && parsed.IsFile && parsed.LocalPath.Length > 0 ? Path.GetFullPath(parsed.LocalPath) : null;

    // Clients that send whole texts change little of them: the stretch between what both begin and end with.
    private static TextEdit Difference(string old, string text)
    {
        var (start, end) = (old.AsSpan().CommonPrefixLength(text), 0);
        while (end < Math.Min(old.Length, text.Length) - start && old[^(end + 1)] == text[^(end + 1)])
            end++;
        return new(Span.Between(start, old.Length - end), text[start..^end]);
    }

    private List<Document> WithUsers(Document document) => document.Path is { } path ? [document, .. Renewed([path])] : [document];

    private Document Keep(string uri, int version, SyntaxTree tree, Kept kept, KnownFindings? known = null, TypedLines? typed = null, bool opening = false)
    {
        var made = Made(uri, version, tree, kept.Lesson);
        var document = opening ? made with { Opening = true } : made with { Since = known, Typed = typed };
        open[uri] = (document, kept);
        return document;
    }

    private Document Made(string uri, int version, SyntaxTree tree, LessonMemory? memory = null)
    {
        var (path, uses) = (PathOf(uri), new UsedPaths());
        var library = new Library(path, full =>
        {
            uses.Add(full);
            return OpenAt(full, out var there) ? there.Text : null;
        }, editor);
        return new(uri, path, version, Interlocked.Increment(ref stamp), new(tree, library, library.Configuration, memory: memory), new(tree.Source, encoding), uses);
    }

    private bool OpenAt(string path, [NotNullWhen(true)] out Document? document) => (document = open.Values.FirstOrDefault(o => o.Document.Path == path).Document) is not null;

    // What one version of a document hands on to the next.
    private sealed record Kept(LineCache Lines, LessonMemory Lesson);
}
