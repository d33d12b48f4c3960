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

/// <summary>A piece on the strings.</summary>
/// <param name="Events">Struck events in the order of the piece; those that <c>%</c> repeats are among them.</param>
/// <param name="Cost">What the placement costs the hand; lower is better.</param>
/// <param name="Parts">What the cost is made of, in plain words, largest first.</param>
public sealed record PlacedPiece(ImmutableArray<EventPlace> Events, double Cost, ImmutableArray<CostPart> Parts)
{
    private const double QuartersInWhole = 4;

    /// <summary>Places a piece, one stretch after the other where the neck changes.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="hand">Whose reach counts; a declared <c>reach</c> is laid over it.</param>
    /// <param name="anew">True to leave aside written strings, but those of frets that are written themselves.</param>
    public static PlacedPiece Of(Piece piece, Hand hand, bool anew = false)
    {
        var events = ImmutableArray.CreateBuilder<EventPlace>();
        var parts = new Dictionary<string, double>(StringComparer.Ordinal);
        var cost = 0.0;
        var struck = piece.Events.Where(e => e.Kind == EventKind.Struck && e.Notes.Any(n => !n.Dead)).ToList();
        for (int from = 0, to; from < struck.Count; from = to)
        {
            var settings = piece.Bars[struck[from].Bar].Settings;
            for (to = from + 1; to < struck.Count && piece.Bars[struck[to].Bar].Settings is var s && s.Neck == settings.Neck && s.Reach == settings.Reach;)
                to++;
            var own = settings.Reach is { } reach ? hand.Calibrated(settings.Neck, reach.From, reach.To) : hand;
            var stretch = Place(settings.Neck, own, struck.GetRange(from, to - from), anew, events);
            cost += stretch.Cost;
            foreach (var part in stretch.Parts)
                parts[part.Says] = parts.GetValueOrDefault(part.Says) + part.Cost;
        }
        return new(events.ToImmutable(), cost, [.. parts.OrderByDescending(p => p.Value).Select(p => new CostPart(p.Key, p.Value))]);
    }

    /// <summary>The smallest edits that write the places into the text: <c>@string</c> behind every pitch that has none.</summary>
    public ImmutableArray<TextEdit> Edits()
    {
        var edits = ImmutableArray.CreateBuilder<TextEdit>();
        var done = new HashSet<int>();
        foreach (var place in Events)
            foreach (var n in place.Notes)
                if (!place.Event.Repeated && n is { String: { } s, Note: { String: null, PitchWritten: true } } && (n.Note.PitchSpan ?? n.Note.Span) is var at && done.Add(at.End))
                    edits.Add(new(new(at.End, 0), $"@{s}"));
        return edits.ToImmutable();
    }

    private static Placement Place(Neck neck, Hand hand, List<Event> struck, bool anew, ImmutableArray<EventPlace>.Builder events)
    {
        var together = struck.GroupBy(e => e.Onset).OrderBy(g => g.Key).Select(g => g.SelectMany(e => e.Notes.Where(n => !n.Dead).Select(n => (Event: e, Note: n))).ToList()).ToList();
        var placed = PlacementSearch.Best(neck, hand,
        [
            .. together.Select(g => new OnsetToPlace(g[0].Note.Onset.Value * QuartersInWhole,
                [.. g.Select(x => new NoteToPlace(x.Note.Midi, (x.Note.WantedEnd - x.Note.Onset).Value * QuartersInWhole, anew && !x.Note.FretWritten ? null : x.Note.String))])),
        ])[0];
        var where = new Dictionary<(Event, Note), NotePlace>(Pairs.Instance);
        for (var i = 0; i < together.Count; i++)
        {
            var fingers = Fingers(neck, hand, together[i], placed.Onsets[i]);
            foreach (var ((e, note), at) in together[i].Zip(placed.Onsets[i].Notes))
                where[(e, note)] = new(note, at.String, at.Fret, at.String is { } s && at.Fret > 0 ? fingers?[s] : null);
        }
        foreach (var e in struck)
        {
            var notes = e.Notes.Where(n => !n.Dead).Select(n => where[(e, n)]).ToImmutableArray();
            events.Add(new(e, notes, notes.All(n => n.Note.String is not null)));
        }
        return placed;
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

    // One event may hold two notes that are equal in every word; they are two notes all the same.
    private sealed class Pairs : IEqualityComparer<(Event, Note)>
    {
        public static readonly Pairs Instance = new();

        public bool Equals((Event, Note) a, (Event, Note) b) => ReferenceEquals(a.Item1, b.Item1) && ReferenceEquals(a.Item2, b.Item2);

        public int GetHashCode((Event, Note) x) => System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(x.Item2);
    }
}
