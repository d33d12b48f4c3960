// The struck events between two changes of the neck, with the search over them and the places it found.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Placement;
using ChordLang.Fretboard.Voicings;
using Written = ChordLang.Grammar.Syntax.Finger;

namespace ChordLang.Arrangement.Placing;

/// <summary>A stretch of a piece on one neck. Immutable; it keeps none before it alive.</summary>
internal sealed class Stretch
{
    private const double QuartersInWhole = 4;

    private readonly bool anew;
    private readonly ImmutableArray<PlacedOnset> onsets;

    private Stretch(Piece piece, Hand hand, List<Event> struck, bool anew, Stretch? before)
    {
        this.anew = anew;
        before = before?.anew == anew ? before : null;
        var slurs = new Slurs(piece);
        // By onset already.
        var firsts = new List<int>();
        for (var i = 0; i < struck.Count; i++)
            if (i == 0 || struck[i].Onset != struck[i - 1].Onset)
                firsts.Add(i);
        var (together, asked) = (new List<(Event Event, Note Note)>[firsts.Count], new OnsetToPlace[firsts.Count]);
        for (var i = 0; i < together.Length; i++)
        {
            var (from, to) = (firsts[i], i + 1 < firsts.Count ? firsts[i + 1] : struck.Count);
            var position = piece.Bars[struck[from].Bar].Settings.Position;
            // Its place in the stretch before counts from the beginning or from the end, as it stands before the edit or behind it.
            var back = before is null ? -1 : i + before.Together.Length - together.Length;
            var known = before is null ? -1 : before.Holds(i, struck, from, to) ? i : before.Holds(back, struck, from, to) ? back : -1;
            together[i] = known >= 0 ? before!.Together[known] : Group(struck, from, to);
            asked[i] = before?.Asked(known, together[i], position, slurs) ?? before?.Asked(i, together[i], position, slurs) ?? before?.Asked(back, together[i], position, slurs)
                ?? new(together[i][0].Note.Onset.Value * QuartersInWhole, [.. together[i].Select(x => new NoteToPlace(x.Note.Midi, Lasts(x.Note), String(x.Note), slurs.From(x.Event, x.Note)))], position);
        }
        Together = together;
        Run = PlacementRun.Of(piece.Bars[struck[0].Bar].Settings.Neck, hand, [.. asked], before?.Run);
        onsets = Run.Best()[0].Onsets;
        Placed = new ImmutableArray<EventPlace>[together.Length];
        for (var i = 0; i < together.Length; i++)
            Placed[i] = before?.Told(i, together[i], onsets[i]) ?? before?.Told(i + before.Together.Length - together.Length, together[i], onsets[i]) ?? Places(i, onsets[i]);
    }

    /// <summary>By onset: the events struck, note by note, dead ones left out.</summary>
    public List<(Event Event, Note Note)>[] Together { get; }

    /// <summary>The search.</summary>
    public PlacementRun Run { get; }

    /// <summary>By onset: the events with their best places.</summary>
    public ImmutableArray<EventPlace>[] Placed { get; }

    /// <summary>Places the struck events of a stretch.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="hand">Whose reach counts.</param>
    /// <param name="struck">The events, by onset.</param>
    /// <param name="anew">True to leave written strings aside.</param>
    /// <param name="before">The stretch in an earlier state of the piece, or null.</param>
    public static Stretch Of(Piece piece, Hand hand, List<Event> struck, bool anew, Stretch? before) => new(piece, hand, struck, anew, before);

    /// <summary>The events of an onset with places.</summary>
    public ImmutableArray<EventPlace> Places(int at, PlacedOnset onset)
    {
        var events = ImmutableArray.CreateBuilder<EventPlace>(1);
        var (group, fingers) = (Together[at], Fingers(Run.Neck, Run.Hand, Together[at], onset));
        // A harmonic is touched, not held.
        var unheld = onset.Unheld && !group.Exists(x => x.Note.Harmonic)
            ? new Unheld(Run.Neck, Run.Hand, [.. group.Select(x => x.Note.Pitch)], Run.Onsets[at].Notes, onset.Notes) : null;
        for (var n = 0; n < group.Count;)
        {
            var (e, notes, given) = (group[n].Event, ImmutableArray.CreateBuilder<NotePlace>(), true);
            for (; n < group.Count && ReferenceEquals(group[n].Event, e); n++)
            {
                var (note, place) = (group[n].Note, onset.Notes[n]);
                notes.Add(new(note, place.String, place.Fret, place.String is { } s && place.Fret > 0 ? fingers?[s] : null));
                given &= note.String is not null;
            }
            events.Add(new(e, notes.ToImmutable(), given) { Unheld = unheld });
        }
        return events.ToImmutable();
    }

    private static List<(Event Event, Note Note)> Group(List<Event> struck, int from, int to)
    {
        var group = new List<(Event Event, Note Note)>();
        for (var i = from; i < to; i++)
            foreach (var note in struck[i].Notes)
                if (!note.Dead)
                    group.Add((struck[i], note));
        return group;
    }

    // True where these very events are struck at an onset.
    private bool Holds(int at, List<Event> struck, int from, int to)
    {
        if (at < 0 || at >= Together.Length)
            return false;
        var (group, n) = (Together[at], 0);
        for (var i = from; i < to; i++)
        {
            if (n == group.Count || !ReferenceEquals(group[n].Event, struck[i]))
                return false;
            while (n < group.Count && ReferenceEquals(group[n].Event, struck[i]))
                n++;
        }
        return n == group.Count;
    }

    // What was asked at an onset, where the same is to be asked now.
    private OnsetToPlace? Asked(int at, List<(Event Event, Note Note)> group, int? position, Slurs slurs)
    {
        if (at < 0 || at >= Together.Length)
            return null;
        var onset = Run.Onsets[at];
        if (onset.Position != position || onset.Notes.Length != group.Count || onset.Time != group[0].Note.Onset.Value * QuartersInWhole)
            return null;
        // A note that is the same may be reached from another one.
        for (var n = 0; n < group.Count; n++)
            if (onset.Notes[n].From != slurs.From(group[n].Event, group[n].Note))
                return null;
        if (ReferenceEquals(group, Together[at]))
            return onset;
        for (var n = 0; n < group.Count; n++)
            if (onset.Notes[n].Midi != group[n].Note.Midi || onset.Notes[n].Duration != Lasts(group[n].Note) || onset.Notes[n].String != String(group[n].Note))
                return null;
        return onset;
    }

    private ImmutableArray<EventPlace>? Told(int at, List<(Event Event, Note Note)> group, PlacedOnset onset) =>
        at >= 0 && at < Together.Length && ReferenceEquals(group, Together[at]) && ReferenceEquals(onset, onsets[at]) ? Placed[at] : null;

    private static double Lasts(Note note) => (note.WantedEnd - note.Onset).Value * QuartersInWhole;

    private int? String(Note note) => anew && !note.FretWritten ? null : note.String;

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
