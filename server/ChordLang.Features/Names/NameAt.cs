// Finds the name that stands under the cursor: of a shape, a section, a voice or a used file.
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Names;

/// <summary>What a name is given to.</summary>
public enum NameKind
{
    /// <summary>A shape; shared by the files that use the one it stands in.</summary>
    Shape,
    /// <summary>A section of this piece.</summary>
    Section,
    /// <summary>A voice of this piece, by its label.</summary>
    Voice,
    /// <summary>A file that is used.</summary>
    File,
}

/// <summary>A name and where it stands.</summary>
/// <param name="Kind">What it names.</param>
/// <param name="Name">The name; for a file, its path as written.</param>
/// <param name="Span">Where it stands: the name alone, without colon, quotes or a shape's shift.</param>
/// <param name="Defines">True where this place gives the name, false where it uses it.</param>
public sealed record NamePlace(NameKind Kind, string Name, Span Span, bool Defines);

/// <summary>Finds names.</summary>
public static class NameAt
{
    /// <summary>The name at an offset, or null where none stands.</summary>
    public static NamePlace? Of(Lesson lesson, int offset)
    {
        var line = lesson.Text.LineAt(offset);
        NamePlace? found = null;
        foreach (var place in NamePlaces.OnLine(lesson, line))
            if (place.Span.Touches(offset))
                found = place;
        return found;
    }
}
