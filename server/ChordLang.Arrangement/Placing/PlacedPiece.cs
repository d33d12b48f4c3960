// A whole piece put on the strings: what the writer left open is worked out, what is given stays.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Placement;
using ChordLang.Grammar.Text;

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
public sealed record EventPlace(Event Event, ImmutableArray<NotePlace> Notes, bool Given)
{
    /// <summary>Where no hand holds what is struck together there, why; the places are then only the nearest to it. Null where a hand does.</summary>
    public Unheld? Unheld { get; init; }
}

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
        var struck = new List<Event>(piece.Events.Length);
        foreach (var e in piece.Events)
            if (e.Kind == EventKind.Struck && e.Notes.Any(n => !n.Dead))
                struck.Add(e);
        for (int from = 0, to; from < struck.Count; from = to)
        {
            var settings = piece.Bars[struck[from].Bar].Settings;
            for (to = from + 1; to < struck.Count && piece.Bars[struck[to].Bar].Settings is var s && s.Neck == settings.Neck && s.Reach == settings.Reach;)
                to++;
            var own = settings.Reach is { } reach ? hand.Calibrated(settings.Neck, reach.From, reach.To) : hand;
            var stretch = Stretch.Of(piece, own, struck.GetRange(from, to - from), anew, before?.Stretches.ElementAtOrDefault(stretches.Count));
            var placed = stretch.Run.Best()[0];
            stretches.Add(stretch);
            foreach (var together in stretch.Placed)
                events.AddRange(together);
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
        var (stretch, from, count) = Stretches.Select(s => (Stretch: s, From: Array.FindIndex(s.Together, t => In(t[0].Event)), Count: s.Together.Count(t => In(t[0].Event))))
            .DefaultIfEmpty().MaxBy(x => x.Count);
        if (stretch is null || count == 0)
            return new([], 0);
        var others = PlacementSearch.Alternatives(stretch.Run, from, count, most);
        return new([.. others.Near.Select(p => new PlacedPiece([.. p.Onsets.SelectMany((o, i) => stretch.Places(from + i, o))], p.Cost, []))], others.LeftOut);

        bool In(Event e) => e.Bar >= firstBar && e.Bar <= lastBar;
    }

    /// <summary>
    /// The smallest edits that write the places into the text: <c>@string</c> behind every pitch that has none, or another one. What no hand holds
    /// is left as it is: to write it down would say that it can be played.
    /// </summary>
    public ImmutableArray<TextEdit> Edits()
    {
        var edits = ImmutableArray.CreateBuilder<TextEdit>();
        var done = new HashSet<int>();
        foreach (var place in Events)
            foreach (var n in place.Notes)
                if (!place.Event.Repeated && place.Unheld is null && n is { String: { } s, Note: { PitchWritten: true, FretWritten: false } note } && s != note.String
                    && (note.PitchSpan ?? note.Span) is var at && done.Add(at.End))
                {
                    if (note.String is null)
                        edits.Add(new(new(at.End, 0), $"@{s}"));
                    else if (note.Span.Start == at.Start && note.Span.End > at.End)
                        edits.Add(new(new(at.End, note.Span.End - at.End), $"@{s}"));
                }
        return edits.ToImmutable();
    }
}
