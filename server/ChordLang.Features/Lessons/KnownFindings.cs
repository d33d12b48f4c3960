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
/// <param name="Lines">The stretches of lines that they touched, in the present text, in order and far apart; none where nothing was edited.</param>
public sealed record KnownFindings(ImmutableArray<Finding> Findings, ImmutableList<(TextEdit Edit, int Bars)> Edits, ImmutableArray<TypedLines> Lines)
{
    // Stretches nearer to each other than this are one; so many are kept apart.
    private const int Apart = 30, MostStretches = 6;

    // So many lines are checked at once when a long text is opened: what an editor shows first.
    private const int FirstLines = 60;

    // Bars beside the edited one in which an edit can bring a finding or take one.
    private const int BarsBeside = 1;

    private static readonly FrozenSet<string> OfTheWhole = new[] { UnusedAllow.Name, TroubleCodes.UnusedShape, new UnmetExpectation().Code }.ToFrozenSet(StringComparer.Ordinal);

    private static readonly ImmutableArray<Check> OfSyntax = [.. CheckCatalogue.All.Where(c => SyntaxCodes.Titles.Any(t => t.Code == c.Code))];

    /// <summary>Of a version whose findings are known.</summary>
    public static KnownFindings Of(ImmutableArray<Finding> findings) => new(findings, [], []);

    /// <summary>Of a long text that was just opened: what the parser finds anywhere, and all that is found where it begins.</summary>
    /// <param name="chart">Its chart: enough to say in which bar a finding is.</param>
    public static KnownFindings Opening(Lesson chart) => new(
        (chart.Configuration ?? Configuration.None).Apply(CheckCatalogue.Run(chart.Piece, OfSyntax)), [], [new(0, Math.Min(FirstLines, chart.Tree.Lines.Length) - 1)]);

    /// <summary>The same after one more edit.</summary>
    /// <param name="edit">The edit, in offsets of the text before it.</param>
    /// <param name="changed">Which lines became which.</param>
    /// <param name="from">The tree before it.</param>
    /// <param name="to">The tree after it.</param>
    public KnownFindings After(TextEdit edit, LineChange changed, SyntaxTree from, SyntaxTree to)
    {
        int Moved(int line) => line < changed.First ? line : Math.Max(changed.First, line + changed.New - changed.Old);
        var lines = Joined([.. Lines.Select(l => new TypedLines(Moved(l.First), Moved(l.Last))), new(changed.First, changed.First + Math.Max(1, changed.New) - 1)]);
        var bars = BarsIn(to, changed.First, changed.New) - BarsIn(from, changed.First, changed.Old);
        return new(Findings, Edits.Add((edit, bars)), lines);
    }

    /// <summary>The findings of the present text as far as they are known at once: exact around the edits, elsewhere as they were.</summary>
    /// <param name="lesson">The present version; it is not bound by this.</param>
    /// <param name="window">The part of it around some lines, as <see cref="LessonWindow.Of"/> makes it.</param>
    public ImmutableArray<Finding> Now(Lesson lesson, Func<TypedLines, Lesson> window)
    {
        if (Lines.IsEmpty)
            return Findings;
        var near = Lines.Select(l => LessonWindow.Widened(lesson.Tree, l, BarsBeside)).ToList();
        // Which stretch says what is found on a line, or -1.
        int Stretch(Finding f)
        {
            var line = lesson.Text.LineAt(f.Span.Start);
            return IsOfTheWhole(f.Code) ? -1 : near.FindIndex(n => line >= n.First && line <= n.Last);
        }
        var found = Lines.SelectMany((l, i) => window(l).Findings.Where(f => Stretch(f) == i)).ToList();
        found.AddRange(Findings.Select(Moved).Where(f => f.Span.End <= lesson.Text.Length && Stretch(f) < 0));
        return [.. found.OrderBy(f => f.Span.Start).ThenBy(f => f.Severity).ThenBy(f => f.Code, StringComparer.Ordinal)];
    }

    // Stretches that lie near each other become one, and the nearest where there are many.
    private static ImmutableArray<TypedLines> Joined(IEnumerable<TypedLines> lines)
    {
        var all = lines.OrderBy(l => l.First).ToList();
        while (all.Count > 1)
        {
            var closest = Enumerable.Range(1, all.Count - 1).MinBy(i => all[i].First - all[i - 1].Last);
            if (all[closest].First - all[closest - 1].Last > Apart && all.Count <= MostStretches)
                break;
            all[closest - 1] = new(all[closest - 1].First, Math.Max(all[closest - 1].Last, all[closest].Last));
            all.RemoveAt(closest);
        }
        return [.. all];
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
