// Applies all fixes that cannot change the sound, round after round, because one fix may bring another to light.
using System.Collections.Immutable;
using ChordLang.Checks.Catalogue;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Actions;

/// <summary>Safe fixes.</summary>
public static class SafeFixes
{
    // A guard against fixes that undo each other. A round mends what is told, and of some slips only one a line is told at a time.
    private const int MostRounds = 200;

    /// <summary>The text after all safe fixes, its findings, and how many fixes were applied.</summary>
    /// <param name="text">The text.</param>
    /// <param name="findings">Its findings.</param>
    /// <param name="check">Finds the findings of a text.</param>
    public static (SourceText Text, ImmutableArray<Finding> Findings, int Count) Apply(
        SourceText text, ImmutableArray<Finding> findings, Func<SourceText, ImmutableArray<Finding>> check)
    {
        var count = 0;
        for (var round = 0; round < MostRounds && Apart(findings, text) is { Length: > 0 } fixes; round++)
        {
            text = text.With(fixes.SelectMany(e => e));
            count += fixes.Length;
            findings = check(text);
        }
        return (text, findings, count);
    }

    /// <summary>The edits that bring a lesson's text to where all safe fixes are applied; line by line where no line comes or goes.</summary>
    public static ImmutableArray<TextEdit> Edits(Lesson lesson)
    {
        var (fixedText, _, count) = Apply(lesson.Text, lesson.Findings, t => new Lesson(SyntaxTree.Parse(t), lesson.Library, lesson.Configuration).Findings);
        return count == 0 ? [] : Difference(lesson.Text, fixedText);
    }

    /// <summary>Edits that turn one text into another: the changed lines, or the stretch between what both begin and end with.</summary>
    public static ImmutableArray<TextEdit> Difference(SourceText from, SourceText to)
    {
        if (from.Lines.Length == to.Lines.Length && from.Lines.Zip(to.Lines).All(l => from[new(l.First.End, l.First.EndLength)] == to[new(l.Second.End, l.Second.EndLength)]))
            return [.. Enumerable.Range(0, from.Lines.Length).Where(i => from.LineText(i) != to.LineText(i)).Select(i => new TextEdit(new(from.Lines[i].Start, from.Lines[i].Length), to.LineText(i)))];
        var (a, b) = (from.Text, to.Text);
        var start = a.AsSpan().CommonPrefixLength(b);
        var end = 0;
        while (end < Math.Min(a.Length, b.Length) - start && a[^(end + 1)] == b[^(end + 1)])
            end++;
        // Neither half of a surrogate pair, nor of a \r\n, is left alone.
        while (start > 0 && (char.IsHighSurrogate(a[start - 1]) || a[start - 1] == '\r'))
            start--;
        while (end > 0 && (char.IsLowSurrogate(a[^end]) || a[^end] == '\n'))
            end--;
        return start == a.Length && start == b.Length ? [] : [new(Span.Between(start, a.Length - end), b[start..(b.Length - end)])];
    }

    // The safe fixes that do not touch each other; the others have their turn in the next round.
    private static ImmutableArray<ImmutableArray<TextEdit>> Apart(ImmutableArray<Finding> findings, SourceText text)
    {
        var taken = new List<Span>();
        var edits = ImmutableArray.CreateBuilder<ImmutableArray<TextEdit>>();
        foreach (var fix in findings.Select(f => f.Fixes.FirstOrDefault(x => x.Safe)))
            if (fix is { Edits.Length: > 0 } && fix.Edits.All(e => e.Span.End <= text.Length && !taken.Any(t => t.Start <= e.Span.End && e.Span.Start <= t.End)))
            {
                taken.AddRange(fix.Edits.Select(e => e.Span));
                edits.Add(fix.Edits);
            }
        return edits.ToImmutable();
    }
}
