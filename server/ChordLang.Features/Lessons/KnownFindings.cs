// Findings of a text that was edited since they were worked out: those around the edits come anew from a window, all others go along with their text.
using System.Collections.Frozen;
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Configuring;
using ChordLang.Checks.Expect;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Lessons;

/// <summary>Findings that were true of an earlier version, with the edits since.</summary>
/// <param name="Findings">The findings, in offsets of the earlier version.</param>
/// <param name="Edits">The edits since, one after the other, each in offsets of the text before it, with the bars that it brought or took.</param>
/// <param name="Lines">The lines that they touched, in the present text; null where there were none.</param>
public sealed record KnownFindings(ImmutableArray<Finding> Findings, ImmutableList<(TextEdit Edit, int Bars)> Edits, TypedLines? Lines)
{
    // So many lines are checked at once when a long text is opened: what an editor shows first.
    private const int FirstLines = 60;

    // Bars beside the edited one in which an edit can bring a finding or take one.
    private const int BarsBeside = 1;

    private static readonly FrozenSet<string> OfTheWhole = new[] { UnusedAllow.Name, TroubleCodes.UnusedShape, new UnmetExpectation().Code }.ToFrozenSet(StringComparer.Ordinal);

    private static readonly ImmutableArray<Check> OfSyntax = [.. CheckCatalogue.All.Where(c => SyntaxCodes.Titles.Any(t => t.Code == c.Code))];

    /// <summary>Of a version whose findings are known.</summary>
    public static KnownFindings Of(ImmutableArray<Finding> findings) => new(findings, [], null);

    /// <summary>Of a long text that was just opened: what the parser finds anywhere, and all that is found where it begins.</summary>
    /// <param name="chart">Its chart: enough to say in which bar a finding is.</param>
    public static KnownFindings Opening(Lesson chart) => new(
        (chart.Configuration ?? Configuration.None).Apply(CheckCatalogue.Run(chart.Piece, OfSyntax)), [], new(0, Math.Min(FirstLines, chart.Tree.Lines.Length) - 1));

    /// <summary>The same after one more edit.</summary>
    /// <param name="edit">The edit, in offsets of the text before it.</param>
    /// <param name="changed">Which lines became which.</param>
    /// <param name="from">The tree before it.</param>
    /// <param name="to">The tree after it.</param>
    public KnownFindings After(TextEdit edit, LineChange changed, SyntaxTree from, SyntaxTree to)
    {
        var (first, last) = (changed.First, changed.First + Math.Max(1, changed.New) - 1);
        if (Lines is { } before)
        {
            int Moved(int line) => line < changed.First ? line : Math.Max(changed.First, line + changed.New - changed.Old);
            (first, last) = (Math.Min(first, Moved(before.First)), Math.Max(last, Moved(before.Last)));
        }
        var bars = BarsIn(to, changed.First, changed.New) - BarsIn(from, changed.First, changed.Old);
        return new(Findings, Edits.Add((edit, bars)), new(first, last));
    }

    /// <summary>The findings of the present text as far as they are known at once: exact around the edits, elsewhere as they were.</summary>
    /// <param name="lesson">The present version; it is not bound by this.</param>
    /// <param name="window">Around the edits.</param>
    public ImmutableArray<Finding> Now(Lesson lesson, Lesson window)
    {
        if (Lines is not { } lines)
            return Findings;
        var near = LessonWindow.Widened(lesson.Tree, lines, BarsBeside);
        bool IsNear(Finding f) => lesson.Text.LineAt(f.Span.Start) is var line && line >= near.First && line <= near.Last && !IsOfTheWhole(f.Code);
        var found = window.Findings.Where(IsNear).ToList();
        found.AddRange(Findings.Select(Moved).Where(f => f.Span.End <= lesson.Text.Length && !IsNear(f)));
        return [.. found.OrderBy(f => f.Span.Start).ThenBy(f => f.Severity).ThenBy(f => f.Code, StringComparer.Ordinal)];
    }

    // What is about the piece as a whole, its form too, cannot be told from a window.
    private static bool IsOfTheWhole(string code) => code.StartsWith("form-", StringComparison.Ordinal) || OfTheWhole.Contains(code);

    private Finding Moved(Finding finding)
    {
        if (Edits.All(e => e.Edit.Span.Start >= End(finding)))
            return finding;
        var (bar, at) = (finding.Bar, finding.Span);
        foreach (var (edit, bars) in Edits)
        {
            bar = at.Start >= edit.Span.End ? bar + bars : bar;
            at = Moved(at, edit);
        }
        return finding with
        {
            Bar = bar,
            Span = Moved(finding.Span),
            Related = [.. finding.Related.Select(r => r.Path is null ? r with { Span = Moved(r.Span) } : r)],
            Fixes = [.. finding.Fixes.Select(f => f with { Edits = [.. f.Edits.Select(e => e with { Span = Moved(e.Span) })] })],
        };
    }

    private static int BarsIn(SyntaxTree tree, int first, int count) => tree.Lines.BarsBefore(first + count) - tree.Lines.BarsBefore(first);

    private static int End(Finding f) => Math.Max(f.Span.End, f.Related.Select(r => r.Span.End).Concat(f.Fixes.SelectMany(x => x.Edits).Select(e => e.Span.End)).DefaultIfEmpty(0).Max());

    private Span Moved(Span span) => Edits.Aggregate(span, (at, e) => Moved(at, e.Edit));

    private static Span Moved(Span span, TextEdit edit)
    {
        var by = edit.NewText.Length - edit.Span.Length;
        int At(int offset) => offset <= edit.Span.Start ? offset : offset >= edit.Span.End ? offset + by : edit.Span.Start;
        return Span.Between(At(span.Start), Math.Max(At(span.Start), At(span.End)));
    }
}
