// Which findings are about the bar that is being typed: half a bar is no mistake yet.
using System.Collections.Frozen;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Features.Lessons;

/// <summary>The lines that the last change touched, from 0.</summary>
/// <param name="First">The first.</param>
/// <param name="Last">The last.</param>
public readonly record struct TypedLines(int First, int Last)
{
    private static readonly FrozenSet<string> Syntax = SyntaxCodes.Titles.Select(t => t.Code).ToFrozenSet(StringComparer.Ordinal);

    /// <summary>The lines of the bars that are being typed: from a chart line up to the next. Found in the syntax alone, for nothing may wait for it.</summary>
    public TypedLines Bars(Lesson lesson) => LessonWindow.Widened(lesson.Tree, this, 0);

    /// <summary>True for a finding that should wait until the bar is done: of a rule, and on these lines. What the parser finds never waits.</summary>
    public bool HoldsBack(Lesson lesson, Finding finding) => !Syntax.Contains(finding.Code) && lesson.Text.LineAt(finding.Span.Start) is var line && line >= First && line <= Last;
}
