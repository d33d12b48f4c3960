// What leads elsewhere: used files, and the pages of silenced checks.
using System.Collections.Immutable;
using ChordLang.Checks.Catalogue;
using ChordLang.Features.Names;
using ChordLang.Grammar.Syntax;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Structure;

/// <summary>A place that leads elsewhere: to a file, or to the page of a check.</summary>
/// <param name="Span">Where it stands.</param>
/// <param name="File">A path as written, or null.</param>
/// <param name="Check">A check's name, or null.</param>
/// <param name="Says">Where it leads, in words.</param>
public sealed record LessonLink(Span Span, string? File, string? Check, string Says);

/// <summary>Finds links.</summary>
public static class LinksOf
{
    /// <summary>The links of a lesson, in order.</summary>
    public static ImmutableArray<LessonLink> Lesson(Lesson lesson)
    {
        var links = ImmutableArray.CreateBuilder<LessonLink>();
        for (var i = 0; i < lesson.Tree.Lines.Length; i++)
            if (lesson.Tree.Lines[i] is UseLine { Path.Length: > 0 } && NamePlaces.OnLine(lesson, i).FirstOrDefault() is { } file)
                links.Add(new(file.Span, file.Name, null, "Open the shapes of this file"));
            else if (lesson.Tree.Lines[i] is CommentLine { Allow: { } allow } && CheckCatalogue.All.FirstOrDefault(c => c.Code == allow.Code) is { } check)
                links.Add(new(lesson.Tree.Absolute(i, allow.Name), null, check.Code, $"Read about this check: {check.Title}"));
        return links.ToImmutable();
    }
}
