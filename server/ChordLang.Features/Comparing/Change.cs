// What a comparison says: changes in musical terms.
using System.Collections.Immutable;

namespace ChordLang.Features.Comparing;

/// <summary>Kinds of change. From <see cref="Words"/> on the music is the same.</summary>
public enum ChangeKind
{
    /// <summary>A bar was put in.</summary>
    Inserted,
    /// <summary>A bar was taken out.</summary>
    Removed,
    /// <summary>A bar stands elsewhere.</summary>
    Moved,
    /// <summary>Another chord.</summary>
    Chord,
    /// <summary>All notes moved by one interval.</summary>
    Transposed,
    /// <summary>Other notes.</summary>
    Notes,
    /// <summary>The same notes, longer or shorter.</summary>
    Lengths,
    /// <summary>The same notes on other strings.</summary>
    Strings,
    /// <summary>The same strings with other fingers.</summary>
    Fingers,
    /// <summary>Other marks, names, voices or spelling.</summary>
    Marks,
    /// <summary>Its text is the same, but what it leans on is not.</summary>
    Leaning,
    /// <summary>Key, meter, tempo, strings, capo or feel.</summary>
    Setting,
    /// <summary>Sections, repeats, endings, leaps.</summary>
    Form,
    /// <summary>Title, author, tags, teaching text.</summary>
    Words,
    /// <summary>Comments, expectations and other lines that are not played.</summary>
    Notice,
    /// <summary>The same music, written otherwise.</summary>
    Format,
}

/// <summary>A change.</summary>
/// <param name="Bar">The bar it is in or before, as the new version counts (the old one, for what was taken out); null for the whole piece.</param>
/// <param name="Section">Its section, or null.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Text">What happened there, without the place.</param>
public sealed record Change(int? Bar, string? Section, ChangeKind Kind, string Text)
{
    /// <summary>What has to be alike for two bars in a row to be told as one stretch.</summary>
    internal string Group { get; init; } = Text;

    /// <summary>The old number of a bar that stands elsewhere.</summary>
    internal int? From { get; init; }

    /// <summary>How many things changed in it: two chords in one bar are two.</summary>
    internal int Count { get; init; } = 1;

    /// <summary>Its kind as one word in small letters.</summary>
    public string Word => Kind.ToString().ToLowerInvariant();

    /// <summary>True where something sounds, is played or is fingered otherwise.</summary>
    public bool IsMusic => Kind < ChangeKind.Words;
}

/// <summary>Two versions compared.</summary>
/// <param name="Changes">In the order of the new version.</param>
/// <param name="Sentences">The same for people: changes of bars in a row told together, each with its place.</param>
/// <param name="Summary">One line, at most 72 characters where that can be, fit for the message of a commit.</param>
public sealed record Comparison(ImmutableArray<Change> Changes, ImmutableArray<string> Sentences, string Summary)
{
    /// <summary>True where what is played is the same.</summary>
    public bool SameMusic => !Changes.Any(c => c.IsMusic);
}
