// Binds syntax to music.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Arrangement.Binding;

/// <summary>A file that <c>use</c> asked for, or why it could not be had.</summary>
/// <param name="Path">Its path, as findings should name it.</param>
/// <param name="Tree">Its syntax, or null.</param>
/// <param name="Refusal">Why there is none: a sentence.</param>
public sealed record UsedFile(string Path, SyntaxTree? Tree, string? Refusal);

/// <summary>Opens the other files of a library; the server decides which are inside it.</summary>
public interface ILibrary
{
    /// <summary>The file a <c>use</c> line asks for.</summary>
    /// <param name="path">The path as written there.</param>
    /// <param name="usedBy">The <see cref="UsedFile.Path"/> of the file in which the line stands, or null for the piece itself.</param>
    UsedFile Open(string path, string? usedBy);

    /// <summary>What is in force where a piece says nothing.</summary>
    Settings Defaults => Settings.Default;
}

/// <summary>Binds syntax to music; total, never fails. The work grows with the length of the text.</summary>
public static class Binder
{
    /// <summary>Binds a tree.</summary>
    /// <param name="tree">The syntax.</param>
    /// <param name="library">Where <c>use</c> finds its files; null: nowhere.</param>
    /// <param name="barsBefore">How many bars come before the first one, where the tree is a part of a longer piece.</param>
    /// <param name="rows">The lines whose rows are wanted, first and last, for a part of a piece that cannot wait for the rest: all other rows are there without their events. Null: all.</param>
    /// <param name="memory">What was bound of an earlier state of the text, and where this one is kept: rows that have not changed are taken over, the answer is the same. For whole pieces.</param>
    public static Piece Bind(SyntaxTree tree, ILibrary? library = null, int barsBefore = 0, (int First, int Last)? rows = null, BindingMemory? memory = null)
    {
        var troubles = new TroubleList(tree);
        var outline = OutlineReader.Read(tree, troubles, library?.Defaults ?? Settings.Default);
        var shelf = ShapeShelf.Gather(tree, library, troubles);
        var book = new ChordBook(troubles);
        var inTime = Bars(tree, outline, book, troubles, barsBefore);
        var (bars, events, bound) = PieceRows.Bind(tree, inTime, Plans(tree, outline, inTime, troubles), shelf, book, troubles, rows, memory?.Kept);
        var order = PlayOrder.Of(FormReader.Read(tree, outline.Steps, troubles), outline.Sections, troubles);
        foreach (var expected in outline.Expectations)
            if (expected.Expectation.Kind == ExpectKind.OnlyShapes)
                foreach (var name in expected.Expectation.Names)
                    shelf.Mention(name, NameSpan(tree, expected, name), expected.Line);
        // A file without bars is a shape library: others use its shapes.
        if (bars.Length > 0)
            shelf.TellUnused();
        var piece = new Piece
        {
            Tree = tree, Title = outline.Settings.Title, By = outline.Settings.By, Tags = outline.Settings.Tags, Prose = outline.Prose,
            Bars = bars, Events = events, Found = new(() => Moments.Of(bars, events)), Settings = outline.Start,
            Sections = [.. outline.Sections.Select(s => new Section(s.Name, s.Line, s.FirstBar, s.BarCount, s.Of is not null) { Prose = [.. s.Prose] })],
            Shapes = shelf.Shapes.ToImmutableDictionary(StringComparer.Ordinal), Troubles = troubles.Ordered(), Allows = outline.Allows,
            Expectations = outline.Expectations, PlayOrder = order,
        };
        if (memory is not null && rows is null)
            memory.Kept = new(bars, bound, shelf);
        return piece;
    }

    // First the places in time, then chords; rows come later.
    private static ImmutableArray<Bar> Bars(SyntaxTree tree, Outline outline, ChordBook book, TroubleList troubles, int barsBefore)
    {
        var chart = new ChartBinder(tree, book, troubles);
        var bars = Timeline.Of(tree, outline.Bars, troubles, barsBefore).ToBuilder();
        for (var i = 0; i < bars.Count; i++)
            bars[i] = bars[i] with { Chords = chart.Bind(bars[i], i > 0 ? bars[i - 1] : null), Repeats = i > 0 && ChartBinder.IsAgain(bars[i].Syntax) ? i - 1 : null };
        return bars.ToImmutable();
    }

    // A bar that repeats the one before and has no rows takes those.
    private static List<RowPlan>[] Plans(SyntaxTree tree, Outline outline, ImmutableArray<Bar> bars, TroubleList troubles)
    {
        var plans = new List<RowPlan>[bars.Length];
        for (var i = 0; i < bars.Length; i++)
            plans[i] = bars[i].Repeats is { } repeated && outline.Bars[i].Rows.Count == 0 ? [.. plans[repeated].Select(p => p with { Borrowed = true })] : Rows(tree, outline.Bars[i], troubles);
        return plans;
    }

    private static List<RowPlan> Rows(SyntaxTree tree, BarPlan bar, TroubleList troubles)
    {
        if (bar.Rows.Count == 0)
            return [];
        var plans = new List<RowPlan>(bar.Rows.Count);
        var (unlabelled, taken) = (0, bar.Rows.Count > 1 ? new HashSet<string>(StringComparer.Ordinal) : null);
        foreach (var line in bar.Rows)
        {
            var row = (RowLine)tree.Lines[line];
            var key = row.Voice ?? $"{++unlabelled}";
            if (taken?.Add(key) == false && row.Voice is { } voice)
            {
                troubles.Add(line, TroubleCodes.DoubledVoice, row.Label!.Value, $"This bar has a row {voice} already. Two voices need two labels; what one voice plays stands in one row.");
                key = $"{voice} {plans.Count + 1}";
            }
            plans.Add(new(row, line, plans.Count + 1, key, false));
        }
        return plans;
    }

    private static Span NameSpan(SyntaxTree tree, Expected expected, string name)
    {
        var (line, claim) = (tree.Lines[expected.Line], expected.Span.Shift(-tree.Source.Lines[expected.Line].Start));
        foreach (var token in line.Tokens)
            if (token.Span.Start >= claim.Start && line[token.Span] == name)
                return token.Span;
        return claim;
    }
}
