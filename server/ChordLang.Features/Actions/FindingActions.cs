// What can be done about findings: their fixes, an allow with its reason, and all safe fixes at once.
using System.Collections.Immutable;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Actions;

internal static class FindingActions
{
    public static IEnumerable<LessonAction> Of(Selection chosen, Func<ImmutableArray<Finding>> known)
    {
        var lesson = chosen.Lesson;
        var here = lesson.Findings.Where(f => f.Span.Start <= chosen.Range.End && chosen.Range.Start <= f.Span.End).ToList();
        foreach (var finding in here)
            for (var i = 0; i < finding.Fixes.Length; i++)
            {
                var fix = finding.Fixes[i];
                yield return new($"fix {finding.Code} {finding.Span.Start} {i}", fix.Title, ActionKind.Fix, () => fix.Edits) { Finding = finding, Preferred = i == 0 && fix.Safe };
            }
        foreach (var finding in here.DistinctBy(f => (f.Code, lesson.Text.LineAt(f.Span.Start))))
            if (Allow(chosen, finding) is { } allow)
                yield return allow;
        if (known().Any(f => f.Fixes.Any(x => x.Safe)))
            yield return new("fix all", "Fix all that is safe to fix: what sounds stays the same", ActionKind.FixAll, () => SafeFixes.Edits(lesson.Whole)) { Costly = true };
    }

    // A line of its own above the line of the finding. What an allow cannot reach (comments, prose, the tool itself) is not offered one.
    private static LessonAction? Allow(Selection chosen, Finding finding)
    {
        var (lesson, line) = (chosen.Lesson, chosen.Lesson.Text.LineAt(finding.Span.Start));
        if (finding.Code is UnusedAllow.Name or CheckFailed.Name || lesson.Tree.Lines[line] is BlankLine or CommentLine or ProseLine or MergeMarkerLine)
            return null;
        var (at, text) = (lesson.Text.Lines[line], lesson.Tree.Lines[line].Text);
        var skip = text.StartsWith('\uFEFF') ? 1 : 0;
        var indent = text[skip..][..(text.Length - skip - text[skip..].TrimStart(' ', '\t').Length)];
        return new($"allow {finding.Code} {finding.Span.Start}", $"Allow {finding.Code} here, on purpose", ActionKind.Fix,
            () => [new(new(at.Start + skip, 0), $"{indent}// allow {finding.Code}: on purpose{LineEnd(lesson.Text, line)}")]) { Finding = finding };
    }

    /// <summary>How lines end around here.</summary>
    public static string LineEnd(SourceText text, int line)
    {
        for (var i = Math.Min(line, text.Lines.Length - 1); i >= 0; i--)
            if (text.Lines[i].EndLength > 0)
                return text[new(text.Lines[i].End, text.Lines[i].EndLength)];
        return "\n";
    }
}
