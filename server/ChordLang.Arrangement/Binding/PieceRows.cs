// Binds the rows of all bars, and of a version before takes over those that can only be as they were.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Arrangement.Binding;

/// <summary>
/// Rows of one voice of which each goes on from the one before (ties, <c>again</c>) form a chain. What a chain becomes hangs on its own rows, on the chords over
/// them, and on what <see cref="BoundPiece.Holds"/> compares: so a chain is bound anew as a whole, or taken over as a whole. Only where notes are cut by their
/// strings is asked of the whole piece, each time.
/// </summary>
internal sealed class PieceRows
{
    private readonly SyntaxTree tree;
    private readonly ImmutableArray<Bar> bars;
    private readonly BoundRow[][] rows;
    private readonly BoundPiece? before;

    private PieceRows(SyntaxTree tree, ImmutableArray<Bar> bars, BoundPiece? before) => (this.tree, this.bars, this.before, rows) = (tree, bars, before, new BoundRow[bars.Length][]);

    /// <summary>The bars with their rows, all events by onset and row, and what the next version may take over.</summary>
    /// <param name="tree">The syntax.</param>
    /// <param name="bars">The bars with their chords.</param>
    /// <param name="plans">The rows of each.</param>
    /// <param name="shelf">The shapes in force.</param>
    /// <param name="book">The chord symbols.</param>
    /// <param name="troubles">Where troubles are told.</param>
    /// <param name="wanted">The lines whose rows are wanted, or null for all.</param>
    /// <param name="before">The version before, or null.</param>
    public static (ImmutableArray<Bar> Bars, ImmutableArray<Event> Events, BoundRow[][] Bound) Bind(
        SyntaxTree tree, ImmutableArray<Bar> bars, List<RowPlan>[] plans, ShapeShelf shelf, ChordBook book, TroubleList troubles, (int First, int Last)? wanted, BoundPiece? before)
    {
        if (before?.Holds(bars, shelf) == true)
            shelf.Adopt(before.Shelf);
        else
            before = null;
        var piece = new PieceRows(tree, bars, before);
        var binder = new RowBinder(bars, new(shelf, troubles), book, troubles);
        foreach (var chain in piece.Chains(plans, binder, troubles, wanted))
            piece.Bind(chain, binder, shelf, troubles);
        foreach (var bar in piece.rows)
            foreach (var row in bar)
                troubles.Add(row.Troubles, row.Start);
        var times = new StringTimes(piece.rows.SelectMany(b => b.SelectMany(r => r.Drafts)));
        times.TellClashes(troubles, piece.Absolute);
        var finished = new Bar[bars.Length];
        for (var i = 0; i < bars.Length; i++)
        {
            var done = new Row[piece.rows[i].Length];
            for (var r = 0; r < done.Length; r++)
                done[r] = piece.Finished(new(i, r), times);
            finished[i] = bars[i] with { Rows = [.. done] };
        }
        return ([.. finished], EventOrder.Of(finished), piece.rows);
    }

    // All rows, chain by chain; those that are not wanted have no events and belong to none.
    private List<List<Work>> Chains(List<RowPlan>[] plans, RowBinder binder, TroubleList troubles, (int First, int Last)? wanted)
    {
        var (chains, last) = (new List<List<Work>>(), new Dictionary<string, List<Work>>(StringComparer.Ordinal));
        for (var i = 0; i < bars.Length; i++)
        {
            rows[i] = new BoundRow[plans[i].Count];
            foreach (var plan in plans[i])
            {
                var home = new RowHome(i, plan.Number - 1);
                if (wanted is var (from, to) && (plan.Line < from || plan.Line > to))
                {
                    rows[i][home.Row] = new(plan, tree.Source.Lines[plan.Line].Start, true, null, false, [], [], []);
                    continue;
                }
                var work = new Work(home, plan, before?.Find(home, plan, bars[i]));
                if (work.Kept is null)
                    work.Place(binder, bars[i], troubles);
                if (!work.Leans || !last.TryGetValue(plan.VoiceKey, out var chain))
                    chains.Add(last[plan.VoiceKey] = chain = []);
                chain.Add(work);
            }
        }
        return chains;
    }

    private void Bind(List<Work> chain, RowBinder binder, ShapeShelf shelf, TroubleList troubles)
    {
        var kept = true;
        for (var n = 0; kept && n < chain.Count; n++)
            kept = chain[n].Kept is { } row && row.LeantOn == n + 1 < chain.Count && row.Before == (n > 0 ? chain[n - 1].Home : null);
        var memory = new VoiceMemory();
        for (var n = 0; n < chain.Count; n++)
        {
            var (home, plan, row) = (chain[n].Home, chain[n].Plan, chain[n].Kept);
            var start = tree.Source.Lines[plan.Line].Start;
            if (kept)
            {
                shelf.Use(row!.Shapes);
                // The very same where it has not moved.
                rows[home.Bar][home.Row] = row.Start == start && row.Plan.Line == plan.Line ? row : row with { Plan = plan, Start = start };
                continue;
            }
            if (row is not null)
                chain[n].Place(binder, bars[home.Bar], troubles);
            ImmutableArray<EventDraft> drafts = [];
            ImmutableArray<string> shapes = [];
            var told = troubles.Of(plan.Borrowed, () => shapes = shelf.Asked(() => drafts = [.. binder.Bind(plan, bars[home.Bar], chain[n].Places, memory)]));
            rows[home.Bar][home.Row] = new(plan, start, chain[n].Leans, n > 0 ? chain[n - 1].Home : null, n + 1 < chain.Count, drafts, [.. chain[n].Told, .. told], shapes);
        }
    }

    private Span Absolute(Span span, RowHome home) => span.Shift(rows[home.Bar][home.Row].Start);

    private Row Finished(RowHome home, StringTimes times)
    {
        var row = rows[home.Bar][home.Row];
        return Stays(home) && Same(before!.Bars[home.Bar].Rows[home.Row], row, times) ? before.Bars[home.Bar].Rows[home.Row]
            : new(row.Plan.Line, row.Plan.Number, row.Plan.Syntax.Voice, row.Plan.VoiceKey, [.. row.Drafts.Select(d => Finished(d, row, times))], row.Plan.Borrowed);
    }

    // True for a row that was taken over and has not moved.
    private bool Stays(RowHome home) => before is not null && home.Row < before.Rows[home.Bar].Length && ReferenceEquals(rows[home.Bar][home.Row], before.Rows[home.Bar][home.Row]);

    private bool Same(Row finished, BoundRow row, StringTimes times)
    {
        for (var i = 0; i < row.Drafts.Length; i++)
        {
            var (draft, notes) = (row.Drafts[i], finished.Events[i].Notes);
            if (!draft.Bound.Grace.IsEmpty && !Stays(draft.Grace))
                return false;
            for (var n = 0; n < draft.Strikes.Length; n++)
                if (!Stays(draft.Strikes[n].Home) || times.End(draft.Strikes[n]) != notes[n].End)
                    return false;
        }
        return true;
    }

    private Event Finished(EventDraft draft, BoundRow row, StringTimes times)
    {
        var notes = ImmutableArray.CreateBuilder<Note>(draft.Strikes.Length);
        foreach (var strike in draft.Strikes)
            notes.Add(Moved(strike.Note, strike.Home) with { Onset = strike.Onset, WantedEnd = strike.WantedEnd, End = times.End(strike) });
        var bound = draft.Bound;
        return bound with
        {
            Line = row.Plan.Line, SoundSpan = bound.SoundSpan.Shift(row.Start), CountSpan = bound.CountSpan.Shift(row.Start), Notes = notes.MoveToImmutable(),
            Grace = bound.Grace.IsEmpty ? [] : [.. bound.Grace.Select(n => Moved(n, draft.Grace))],
            SlideFrom = bound.SlideFrom.IsEmpty ? [] : [.. bound.SlideFrom.Select(n => n with { Span = n.Span.Shift(row.Start), PitchSpan = n.PitchSpan?.Shift(row.Start) })],
        };
    }

    private Note Moved(Note note, RowHome home) => rows[home.Bar][home.Row].Start is var start && note.PitchSpan is { } pitch
        ? note with { Span = note.Span.Shift(start), PitchSpan = pitch.Shift(start) } : note with { Span = note.Span.Shift(start) };

    // A row on its way.
    private sealed class Work(RowHome home, RowPlan plan, BoundRow? kept)
    {
        private bool leans;

        public RowHome Home { get; } = home;

        public RowPlan Plan { get; } = plan;

        /// <summary>What it was in the version before, where it is written in the same words.</summary>
        public BoundRow? Kept { get; } = kept;

        public ImmutableArray<PlacedSound> Places { get; private set; } = [];

        public ImmutableArray<Trouble> Told { get; private set; } = [];

        public bool Leans => Kept?.Leans ?? leans;

        public void Place(RowBinder binder, Bar bar, TroubleList troubles)
        {
            Told = troubles.Of(Plan.Borrowed, () => Places = binder.Places(Plan, bar));
            leans = RowBinder.Leans(Places);
        }
    }
}
