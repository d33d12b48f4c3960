// All names of a lesson with their places: what definition, references, highlight and rename are made of.
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Names;

/// <summary>The places of names.</summary>
public static class NamePlaces
{
    /// <summary>Every place of a name in a lesson, in order.</summary>
    public static IEnumerable<NamePlace> Of(Lesson lesson, NameKind kind, string name)
    {
        for (var i = 0; i < lesson.Tree.Lines.Length; i++)
            if (lesson.Tree.Lines[i].Text.Contains(name, StringComparison.Ordinal))
                foreach (var place in OnLine(lesson, i))
                    if (place.Kind == kind && place.Name == name)
                        yield return place;
    }

    /// <summary>The place that gives a name in this text, or null: the first, where it is given more than once.</summary>
    public static NamePlace? Definition(Lesson lesson, NameKind kind, string name) => Of(lesson, kind, name).FirstOrDefault(p => p.Defines);

    /// <summary>The names of shapes that a text holds, as written: given, played and expected ones; one with a shift down both with it and without.</summary>
    public static IEnumerable<string> ShapesNamed(SyntaxTree tree) => tree.Lines.SelectMany(line => line switch
    {
        ShapeLine { Name.Length: > 0 } shape => [shape[shape.Name]],
        ExpectLine { Expectation: { Kind: ExpectKind.OnlyShapes } only } => only.Names,
        RowLine row => row.Events.SelectMany(e => e.Sounds).SelectMany(s => Shapes(s.Sound)).SelectMany(s => WithoutShift(s.Name) is { } name ? new[] { s.Name, name } : [s.Name]),
        _ => Enumerable.Empty<string>(),
    });

    /// <summary>The names on a line, from left to right.</summary>
    internal static IEnumerable<NamePlace> OnLine(Lesson lesson, int line)
    {
        NamePlace Place(NameKind kind, string name, Span span, bool defines) => new(kind, name, lesson.Tree.Absolute(line, span), defines);
        switch (lesson.Tree.Lines[line])
        {
            case ShapeLine { Name.Length: > 0 } shape:
                yield return Place(NameKind.Shape, shape[shape.Name], shape.Name, true);
                break;
            case SectionLine { Name.Length: > 0 } section:
                yield return Place(NameKind.Section, section[section.Name].Trim(), section.Name, !section.Again);
                break;
            case UseLine { Quote.Length: > 1 } use:
                yield return Place(NameKind.File, use.Path, Inside(use), false);
                break;
            case ExpectLine { Expectation: { Kind: ExpectKind.OnlyShapes } only } expect:
                foreach (var token in expect.Tokens)
                    if (token.Kind == TokenKind.Name && only.Names.Contains(expect[token.Span]))
                        yield return Place(NameKind.Shape, expect[token.Span], token.Span, false);
                break;
            case RowLine row:
                if (row is { Label: { } label, Voice: { } voice })
                    yield return Place(NameKind.Voice, voice, new(label.Start, Math.Min(voice.Length, label.Length)), lesson.FirstLabel(voice) == line);
                foreach (var shape in row.Events.SelectMany(e => e.Sounds).SelectMany(s => Shapes(s.Sound)))
                {
                    var name = Named(lesson, shape);
                    yield return Place(NameKind.Shape, name, shape.NameSpan with { Length = Math.Min(name.Length, shape.NameSpan.Length) }, false);
                }
                break;
        }
    }

    // In low-drop-3 the name ends before the shift down, where no shape has the longer name.
    private static string Named(Lesson lesson, ShapeSound sound) =>
        !lesson.Piece.Shapes.ContainsKey(sound.Name) && WithoutShift(sound.Name) is { } name && lesson.Piece.Shapes.ContainsKey(name) ? name : sound.Name;

    private static string? WithoutShift(string name) => name.LastIndexOf('-') is var dash && dash > 0 && name.Length - dash is 2 or 3
        && name.AsSpan(dash + 1).IndexOfAnyExceptInRange('0', '9') < 0 ? name[..dash] : null;

    private static IEnumerable<ShapeSound> Shapes(SoundSyntax sound) => sound switch
    {
        ShapeSound shape => [shape],
        EqualSound equal => Shapes(equal.Left).Concat(Shapes(equal.Right)),
        _ => [],
    };

    private static Span Inside(UseLine use)
    {
        var closed = use.Quote.Length > 1 && use[use.Quote][^1] is '"' or '\u201D' or '\u201C';
        return Span.Between(use.Quote.Start + 1, use.Quote.End - (closed ? 1 : 0));
    }
}
