// One version of an open document: an immutable snapshot that a request can hold on to.
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Text;
using ChordLang.Server.Lsp.Protocol;

namespace ChordLang.Server.Lsp;

/// <summary>A version of a document.</summary>
/// <param name="Uri">Its name, as the client writes it.</param>
/// <param name="Path">Its full path, or null where it is no file.</param>
/// <param name="Version">The client's number.</param>
/// <param name="Stamp">Our number: grows with every change to it or to a file it uses.</param>
/// <param name="Lesson">What is known of it.</param>
/// <param name="Positions">Its positions.</param>
/// <param name="Uses">The full paths of the files that it used, filled while it is bound.</param>
internal sealed record Document(string Uri, string? Path, int Version, long Stamp, Lesson Lesson, Positions Positions, UsedPaths Uses)
{
    /// <summary>The number of a document that is not open.</summary>
    public const int NotOpen = -1;

    /// <summary>The client's number, or null where it is not open.</summary>
    public int? Sent => Version == NotOpen ? null : Version;

    /// <summary>Its text.</summary>
    public SourceText Text => Lesson.Text;

    /// <summary>The range of a span.</summary>
    public TextRange Range(Span span) => Positions.Range(span);
}

/// <summary>Paths collected by several threads.</summary>
internal sealed class UsedPaths
{
    private readonly HashSet<string> paths = new(StringComparer.Ordinal);

    /// <summary>Remembers a path.</summary>
    public void Add(string path)
    {
        lock (paths)
            paths.Add(path);
    }

    /// <summary>True where a path was used.</summary>
    public bool Contains(string path)
    {
        lock (paths)
            return paths.Contains(path);
    }
}
