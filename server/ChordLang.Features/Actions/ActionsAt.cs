// The way into actions: all that can be done about a stretch of text.
using System.Collections.Immutable;
using ChordLang.Checks.Catalogue;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Actions;

/// <summary>Finds what can be done.</summary>
public static class ActionsAt
{
    /// <summary>All actions for a stretch, those for its findings first; an empty stretch is a cursor. Costly ones are offered without being worked out.</summary>
    /// <param name="lesson">The lesson.</param>
    /// <param name="range">The stretch, in offsets of its text; outside the text it is brought to its nearer end.</param>
    /// <param name="known">What is known to be found in the whole text, where the lesson is a part of it; null: what is found in the lesson.</param>
    public static IEnumerable<LessonAction> Of(Lesson lesson, Span range, Func<ImmutableArray<Finding>>? known = null)
    {
        var length = lesson.Text.Length;
        var chosen = new Selection(lesson, Span.Between(Math.Clamp(range.Start, 0, length), Math.Clamp(range.End, Math.Clamp(range.Start, 0, length), length)));
        return FindingActions.Of(chosen, known ?? (() => lesson.Findings))
            .Concat(NameActions.Of(chosen))
            .Concat(GripActions.Of(chosen))
            .Concat(WritingActions.Of(chosen))
            .Concat(ShapeActions.Of(chosen))
            .Concat(SpellingActions.Of(chosen))
            .Concat(TransposeActions.Of(chosen))
            .Where(a => a.Costly || !a.Edits.IsEmpty);
    }
}
