// A whole piece put on the strings: what the writer left open is worked out, what is given stays.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Placement;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Text;
using Written = ChordLang.Grammar.Syntax.Finger;

namespace ChordLang.Arrangement.Placing;

/// <summary>A note with its place and finger.</summary>
/// <param name="Note">The note.</param>
/// <param name="String">Its string, or null where the neck has no place for it.</param>
/// <param name="Fret">Its fret from the capo, or null likewise.</param>
/// <param name="Finger">The left-hand finger; null for an open string, and where no hand can hold the grip.</param>
public sealed record NotePlace(Note Note, int? String, int? Fret, Finger? Finger);

/// <summary>An event with the places of its notes.</summary>
/// <param name="Event">The event; rests and ties are left out.</param>
/// <param name="Notes">In the order of the event's notes.</param>
/// <param name="Given">True where every note already had its string.</param>
public sealed record EventPlace(Event Event, ImmutableArray<NotePlace> Notes, bool Given);

/// <summary>What a placement costs the hand, in plain words.</summary>
/// <param name="Says">What it is about.</param>
/// <param name="Cost">Its cost; below zero where the placement has more of what players like.</param>
/// <param name="Bar">Index of the bar that has most of it.</param>
public sealed record CostReason(string Says, double Cost, int Bar);

/// <summary>Other placements of some bars.</summary>
/// <param name="Near">Those worth a try, cheapest first.</param>
/// <param name="LeftOut">How many more there are whose cost is out of proportion.</param>
public sealed record OtherPieces(ImmutableArray<PlacedPiece> Near, int LeftOut);

/// <summary>A piece on the strings.</summary>
/// <param name="Events">Struck events in the order of the piece; those that <c>%</c> repeats are among them.</param>
/// <param name="Cost">What the placement costs the hand; lower is better. Of another placement: what it costs more than the best.</param>
/// <param name="Parts">What the cost is made of, in plain words, largest first.</param>
public sealed record PlacedPiece(ImmutableArray<EventPlace> Events, double Cost, ImmutableArray<CostReason> Parts)
{
    private const double QuartersInWhole = 4;

    private ImmutableArray<Stretch> Stretches { get; init; } = [];

    /// <summary>Places a piece, one stretch after the other where the neck changes.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="hand">Whose reach counts; a declared <c>reach</c> is laid over it.</param>
    /// <param name="anew">True to leave aside written strings, but those of frets that are written themselves.</param>
    /// <param name="before">The placement of an earlier state of the piece: what has not changed is taken over, the answer is the same.</param>
    public static PlacedPiece Of(Piece piece, Hand hand, bool anew = false, PlacedPiece? before = null)
    {
        var stretches = ImmutableArray.CreateBuilder<Stretch>();
        var events = ImmutableArray.CreateBuilder<EventPlace>();
        var parts = new Dictionary<string, (double Cost, double Most, int Bar)>(StringComparer.Ordinal);
        var cost = 0.0;
        var struck = piece.Events.Where(e => e.Kind == EventKind.Struck && e.Notes.Any(n => !n.Dead)).ToList();
        for (int from = 0, to; from < struck.Count; from = to)
        {
            var settings = piece.Bars[struck[from].Bar].Settings;
            for (to = from + 1; to < struck.Count && piece.Bars[struck[to].Bar].Settings is var s && s.Neck == settings.Neck && s.Reach == settings.Reach;)
                to++;
            var own = settings.Reach is { } reach ? hand.Calibrated(settings.Neck, reach.From, reach.To) : hand;
            var stretch = Stretch.Of(piece, own, struck.GetRange(from, to - from), anew, before?.Stretches.ElementAtOrDefault(stretches.Count)?.Run);
            var placed = stretch.Run.Best()[0];
            stretches.Add(stretch);
            events.AddRange(stretch.Places(0, placed.Onsets));
            cost += placed.Cost;
            foreach (var part in placed.Parts)
            {
                var sum = parts.GetValueOrDefault(part.Says);
                parts[part.Says] = part.Cost > sum.Most || sum.Cost == 0 ? (sum.Cost + part.Cost, part.Cost, stretch.Together[part.Most][0].Event.Bar) : sum with { Cost = sum.Cost + part.Cost };
            }
        }
        return new(events.ToImmutable(), cost, [.. parts.OrderByDescending(p => p.Value.Cost).Select(p => new CostReason(p.Key, p.Value.Cost, p.Value.Bar))])
        {
            Stretches = stretches.ToImmutable(),
        };
    }

    /// <summary>
    /// The next best placements of some bars, cheapest first, in other positions, while the bars around stay as they are placed; see
    /// <see cref="PlacementSearch.Alternatives"/>. Each holds the events of those bars alone, and its own edits.
    /// </summary>
    /// <param name="firstBar">Index of the first bar.</param>
    /// <param name="lastBar">Index of the last bar.</param>
    /// <param name="most">How many at most.</param>
    public OtherPieces Others(int firstBar, int lastBar, int most = 3)
    {
        // Where the neck changes within the bars, the longer part of them is meant.
        var (stretch, from, count) = Stretches.Select(s => (Stretch: s, From: s.Together.FindIndex(t => In(t[0].Event)), Count: s.Together.Count(t => In(t[0].Event))))
            .DefaultIfEmpty().MaxBy(x => x.Count);
        if (stretch is null || count == 0)
            return new([], 0);
        var others = PlacementSearch.Alternatives(stretch.Run, from, count, most);
        return new([.. others.Near.Select(p => new PlacedPiece(stretch.Places(from, p.Onsets), p.Cost, []))], others.LeftOut);

        bool In(Event e) => e.Bar >= firstBar && e.Bar <= lastBar;
    }

    /// <summary>The smallest edits that write the places into the text: <c>@string</c> behind every pitch that has none, or another one.</summary>
    public ImmutableArray<TextEdit> Edits()
    {
        var edits = ImmutableArray.CreateBuilder<TextEdit>();
        var done = new HashSet<int>();
        foreach (var place in Events)
            foreach (var n in place.Notes)
                if (!place.Event.Repeated && n is { String: { } s, Note: { PitchWritten: true, FretWritten: false } note } && s != note.String
                    && (note.PitchSpan ?? note.Span) is var at && done.Add(at.End))
                {
                    if (note.String is null)
                        edits.Add(new(new(at.End, 0), $"@{s}"));
                    else if (note.Span.Start == at.Start && note.Span.End > at.End)
                        edits.Add(new(new(at.End, note.Span.End - at.End), $"@{s}"));
                }
        return edits.ToImmutable();
    }

    // The struck events between two changes of the neck, with the search over them.
    private sealed record Stretch(List<List<(Event Event, Note Note)>> Together, PlacementRun Run)
    {
        public static Stretch Of(Piece piece, Hand hand, List<Event> struck, bool anew, PlacementRun? before)
        {
            var together = new List<List<(Event Event, Note Note)>>();
            foreach (var e in struck) // by onset already
            {
                if (together.Count == 0 || together[^1][0].Event.Onset != e.Onset)
                    together.Add([]);
                foreach (var note in e.Notes)
                    if (!note.Dead)
                        together[^1].Add((e, note));
            }
            return new(together, PlacementRun.Of(piece.Bars[struck[0].Bar].Settings.Neck, hand,
            [
                .. together.Select(g => new OnsetToPlace(g[0].Note.Onset.Value * QuartersInWhole,
                    [.. g.Select(x => new NoteToPlace(x.Note.Midi, (x.Note.WantedEnd - x.Note.Onset).Value * QuartersInWhole, anew && !x.Note.FretWritten ? null : x.Note.String))],
                    piece.Bars[g[0].Event.Bar].Settings.Position)),
            ], before));
        }

        /// <summary>The events of some onsets, with places.</summary>
        public ImmutableArray<EventPlace> Places(int from, ImmutableArray<PlacedOnset> onsets)
        {
            var events = ImmutableArray.CreateBuilder<EventPlace>();
            for (var i = 0; i < onsets.Length; i++)
            {
                var (group, fingers) = (Together[from + i], Fingers(Run.Neck, Run.Hand, Together[from + i], onsets[i]));
                for (var n = 0; n < group.Count;)
                {
                    var (e, notes, given) = (group[n].Event, ImmutableArray.CreateBuilder<NotePlace>(), true);
                    for (; n < group.Count && ReferenceEquals(group[n].Event, e); n++)
                    {
                        var (note, at) = (group[n].Note, onsets[i].Notes[n]);
                        notes.Add(new(note, at.String, at.Fret, at.String is { } s && at.Fret > 0 ? fingers?[s] : null));
                        given &= note.String is not null;
                    }
                    events.Add(new(e, notes.ToImmutable(), given));
                }
            }
            return events.ToImmutable();
        }
    }

    // Written fingers are kept; the others are worked out around them.
    private static Fingers? Fingers(Neck neck, Hand hand, List<(Event Event, Note Note)> struck, PlacedOnset placed)
    {
        if (struck.All(x => x.Note.Finger is null or Written.None or Written.Open))
            return placed.Fingers;
        var slots = new int?[neck.Tuning.Strings];
        var given = new Finger?[neck.Tuning.Strings];
        foreach (var ((_, note), at) in struck.Zip(placed.Notes))
            if (at is { String: { } s, Fret: { } fret })
            {
                slots[^s] = fret;
                given[^s] = note.Finger?.Digit();
            }
        return FingeringSearch.Best(neck, hand, new Voicing([.. slots]), new Fingers([.. given])).Best;
    }
}
