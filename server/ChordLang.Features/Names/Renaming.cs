// Whether a thing may bear a name: the notation must read the new one as what the old one was.
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Names;

/// <summary>Renames shapes, sections and voices.</summary>
public static class Renaming
{
    /// <summary>What can be renamed at an offset, or null. A file's name is not ours to change.</summary>
    public static NamePlace? At(Lesson lesson, int offset) => NameAt.Of(lesson, offset) is { Kind: not NameKind.File } place ? place : null;

    /// <summary>Why a name cannot take the place of another in a lesson: a sentence; null where it can.</summary>
    public static string? Obstacle(Lesson lesson, NamePlace old, string name)
    {
        if (name == old.Name)
            return null;
        if (name.Length == 0)
            return "A name cannot be empty.";
        var (fits, wanted) = old.Kind switch
        {
            NameKind.Shape => (LineParser.Parse($"shape {name} = x-1-1-1-x-x") is ShapeLine { Findings.IsEmpty: true } s && s[s.Name] == name,
                "A shape's name begins with a letter, holds letters, digits and hyphens, and is no pitch, fret or word of the notation."),
            NameKind.Section => (LineParser.Parse($"section {name}") is SectionLine { Findings.IsEmpty: true, Again: false } s && s[s.Name] == name,
                "A section's name is one line of words and does not end in the word again."),
            _ => (LineParser.Parse($"{name}: 1 rest") is RowLine { Findings.IsEmpty: true } r && r.Voice == name,
                "A voice's label is one word of letters, digits and hyphens, and is no word that opens a line."),
        };
        if (!fits)
            return wanted;
        var taken = old.Kind switch
        {
            NameKind.Shape => lesson.Piece.Shapes.ContainsKey(name),
            _ => NamePlaces.Of(lesson, old.Kind, name).Any(),
        };
        return taken ? $"There is a {old.Kind.ToString().ToLowerInvariant()} {name} already." : null;
    }

    /// <summary>The edits of one lesson.</summary>
    public static IEnumerable<TextEdit> Edits(Lesson lesson, NameKind kind, string old, string name) =>
        NamePlaces.Of(lesson, kind, old).Select(p => new TextEdit(p.Span, name));
}
