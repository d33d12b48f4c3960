// One version of an open document: an immutable snapshot that a request can hold on to.
using System.Collections.Immutable;
using ChordLang.Checks.Catalogue;
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

    /// <summary>The lines that the last change touched; null where it was not a change of this document that made this version.</summary>
    public TypedLines? Typed { get; init; }

    // Shorter texts are bound whole in no time, and checked whole in the time in which they are opened.
    private const int LongLines = 60, LongToOpen = 300, MostWindows = 4;

    private Lazy<ImmutableArray<Finding>>? quick;
    private ImmutableArray<Window> windows = [];

    /// <summary>What was known of the version before, with the edits since; null where this version came in another way than by edits.</summary>
    public KnownFindings? Since
    {
        get;
        init => (field, quick) = (value, value is null ? null : new(() => value.Now(Lesson, Around)));
    }

    /// <summary>True for the first version of a long text: it is not checked whole before its first findings are told.</summary>
    public bool Opening
    {
        get;
        init
        {
            field = value && Text.Lines.Length > LongToOpen;
            if (field)
                quick = new(() => KnownFindings.Opening(Lesson.Chart).Now(Lesson, Around));
        }
    }

    /// <summary>True where <see cref="FindingsNow"/> is the whole truth.</summary>
    public bool IsExact => quick is null || Lesson.IsChecked || Text.Lines.Length <= LongLines;

    /// <summary>Its findings, at once: exact around the last edits, elsewhere as they were, until the whole has been checked.</summary>
    public ImmutableArray<Finding> FindingsNow => IsExact ? Lesson.Findings : quick!.Value;

    /// <summary>What the next version may build on.</summary>
    public KnownFindings? Known => Lesson.IsChecked ? KnownFindings.Of(Lesson.Findings) : quick is { IsValueCreated: true } || Opening ? KnownFindings.Of(quick!.Value) : Since;

    /// <summary>What is known around a place: the whole where it is bound already, else the bars around it.</summary>
    public Lesson LessonAt(int offset) => Text.LineAt(offset) is var line ? Near(new(line, line)) : Lesson;

    /// <summary>What is known around some lines, as <see cref="LessonAt"/>.</summary>
    public Lesson Near(TypedLines lines) => quick is null || Lesson.IsBound || Text.Lines.Length <= LongLines ? Lesson : Around(lines);

    // The last windows serve again: a cursor is mostly where one types.
    private Lesson Around(TypedLines lines)
    {
        var known = windows;
        foreach (var last in known)
            if (last.Sure.First <= lines.First && lines.Last <= last.Sure.Last)
                return last.Lesson;
        var around = new Window(LessonWindow.Widened(Lesson.Tree, lines, 1), LessonWindow.Of(Lesson, lines));
        windows = [around, .. known.Take(MostWindows - 1)];
        return around.Lesson;
    }

    private sealed record Window(TypedLines Sure, Lesson Lesson);

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
