// The lessons that share a shape: the one that gives it, and all that use that one.
using ChordLang.Features.Names;

namespace ChordLang.Server.Lsp;

/// <summary>Finds the documents in which a name means the same.</summary>
internal sealed class SharedNames(Conversation c)
{
    /// <summary>The document that is asked about, then all others: open ones as they are, closed ones as they are on disk.</summary>
    public async Task<IReadOnlyList<Document>> Sharing(Document from, NamePlace name, CancellationToken cancel)
    {
        if (name.Kind != NameKind.Shape || Giver(from, name.Name) is not { } giver)
            return [from];
        foreach (var folder in new[] { Workspace.Library.RootOf(giver), Workspace.Library.RootOf(from.Path!) }.Distinct())
            c.Index.Add(folder, Workspace.Library.IsSigned(folder));
        await c.Index.Whole.WaitAsync(cancel).ConfigureAwait(false);
        var open = c.Documents.All.ToList();
        var found = new List<Document> { from };
        foreach (var document in open.Where(d => d.Uri != from.Uri))
            if (Giver(document, name.Name) == giver || document.Path == giver)
                found.Add(document);
        foreach (var path in c.Index.Lessons.Where(l => l.Shapes.Contains(name.Name)).Select(l => l.Path).Append(giver).Distinct())
        {
            cancel.ThrowIfCancellationRequested();
            if (open.All(d => d.Path != path) && from.Path != path && c.Documents.Closed(path) is { } document && Giver(document, name.Name) == giver)
                found.Add(document);
        }
        return found;
    }

    /// <summary>The document that gives a shape to another, and the place there; or null.</summary>
    public (Document Document, NamePlace Place)? Definition(Document from, NamePlace name)
    {
        var document = name.Kind == NameKind.Shape && Giver(from, name.Name) is { } giver && giver != from.Path
            ? c.Documents.All.FirstOrDefault(d => d.Path == giver) ?? c.Documents.Closed(giver) : from;
        return document is not null && NamePlaces.Definition(document.Lesson, name.Kind, name.Name) is { } place ? (document, place) : null;
    }

    // The full path of the file that gives a shape to a document; null where none does, or the document is no file.
    private static string? Giver(Document document, string shape) => document.Path is { } path && document.Lesson.Piece.Shapes.TryGetValue(shape, out var found)
        ? found.Path is null ? path : Path.GetFullPath(Path.Combine(Path.GetDirectoryName(path)!, found.Path)) : null;
}
