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
    public static Piece Bind(SyntaxTree tree, ILibrary? library = null, int barsBefore = 0, (int First, int Last)? rows = null)
    {
        var troubles = new TroubleList(tree);
        var outline = OutlineReader.Read(tree, troubles, library?.Defaults ?? Settings.Default);
        var shelf = ShapeShelf.Gather(tree, library, troubles);
        var (bars, events) = Bars(tree, outline, shelf, troubles, barsBefore, rows);
        var order = PlayOrder.Of(FormReader.Read(tree, outline.Steps, troubles), outline.Sections, troubles);
        foreach (var expected in outline.Expectations)
            if (expected.Expectation.Kind == ExpectKind.OnlyShapes)
                foreach (var name in expected.Expectation.Names)
                    shelf.Mention(name, NameSpan(tree, expected, name), expected.Line);
        // A file without bars is a shape library: others use its shapes.
        if (bars.Length > 0)
            shelf.TellUnused();
        return new()
        {
            Tree = tree, Title = outline.Settings.Title, By = outline.Settings.By, Tags = outline.Settings.Tags, Prose = outline.Prose,
            Bars = bars, Events = events, Moments = Moments.Of(bars, events), Settings = outline.Start,
            Sections = [.. outline.Sections.Select(s => new Section(s.Name, s.Line, s.FirstBar, s.BarCount, s.Of is not null) { Prose = [.. s.Prose] })],
            Shapes = shelf.Shapes.ToImmutableDictionary(StringComparer.Ordinal), Troubles = troubles.Ordered(), Allows = outline.Allows,
            Expectations = outline.Expectations, PlayOrder = order,
        };
    }

    // First the places in time, then chords, then rows from left to right, then the ends of what rings.
    private static (ImmutableArray<Bar> Bars, ImmutableArray<Event> Events) Bars(SyntaxTree tree, Outline outline, ShapeShelf shelf, TroubleList troubles, int barsBefore, (int First, int Last)? wanted)
    {
        var book = new ChordBook(troubles);
        var chart = new ChartBinder(tree, book, troubles);
        var bars = Timeline.Of(tree, outline.Bars, troubles, barsBefore).ToBuilder();
        for (var i = 0; i < bars.Count; i++)
            bars[i] = bars[i] with { Chords = chart.Bind(bars[i], i > 0 ? bars[i - 1] : null), Repeats = i > 0 && ChartBinder.IsAgain(bars[i].Syntax) ? i - 1 : null };
        var rows = new RowBinder(tree, bars.ToImmutable(), new(shelf, troubles), book, troubles);
        var voices = new Dictionary<string, VoiceMemory>(StringComparer.Ordinal);
        var bound = new List<(RowPlan Plan, List<EventDraft> Events)>[bars.Count];
        IReadOnlyList<RowPlan> before = [];
        for (var i = 0; i < bars.Count; i++)
        {
            var plans = bars[i].Repeats is not null && outline.Bars[i].Rows.Count == 0 ? [.. before.Select(p => p with { Borrowed = true })] : Rows(tree, outline.Bars[i], troubles);
            bound[i] = [];
            foreach (var plan in plans)
            {
                if (wanted is var (first, last) && (plan.Line < first || plan.Line > last))
                {
                    bound[i].Add((plan, []));
                    continue;
                }
                if (!voices.TryGetValue(plan.VoiceKey, out var memory))
                    voices[plan.VoiceKey] = memory = new();
                troubles.Quiet = plan.Borrowed;
                bound[i].Add((plan, rows.Bind(plan, bars[i], memory)));
                troubles.Quiet = false;
            }
            before = plans;
        }
        StringTimes.Close([.. bound.SelectMany(b => b.SelectMany(r => r.Events))], troubles);
        for (var i = 0; i < bars.Count; i++)
            bars[i] = bars[i] with
            {
                Rows = [.. bound[i].Select(r => new Row(r.Plan.Line, r.Plan.Number, r.Plan.Syntax.Voice, r.Plan.VoiceKey, [.. r.Events.Select(e => e.Finish())], r.Plan.Borrowed))],
            };
        var events = bars.SelectMany(b => b.Rows.SelectMany(r => r.Events)).OrderBy(e => e.Onset).ThenBy(e => e.Row);
        return (bars.ToImmutable(), [.. events]);
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
