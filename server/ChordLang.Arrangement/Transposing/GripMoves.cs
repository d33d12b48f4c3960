// Decides for all that is struck at one time whether the grip moves along the neck, and finds another where it cannot.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Transposing;

/// <summary>The events struck at one time, moved.</summary>
/// <param name="Events">Each with its notes.</param>
/// <param name="Stop">What stopped the grip, or null where it moved along.</param>
internal sealed record GripMove(ImmutableArray<EventMove> Events, Stop? Stop);

/// <summary>What stopped a grip.</summary>
/// <param name="Obstacle">An open string, or an end of the neck.</param>
/// <param name="Strings">The strings that were stopped.</param>
/// <param name="Found">True where another grip was found.</param>
/// <param name="Far">Where the grip could be held all the same: the stretch that speaks against it; else null.</param>
internal sealed record Stop(Obstacle Obstacle, ImmutableArray<int> Strings, bool Found, Stretch? Far = null);

/// <summary>Moves grips.</summary>
internal sealed class GripMoves(Piece piece, Interval interval)
{
    private const int Octave = 12, Fifth = 5, PlainFifth = 7, Doubled = 0, Needless = 1, Optional = 2;
    private readonly Dictionary<(Neck, (int, int)?, Voicing), Fingers?> known = [];

    /// <summary>Moves the events struck at one time; those that only repeat others are not among them.</summary>
    public GripMove Move(ImmutableArray<Event> events)
    {
        var settings = piece.Bars[events[0].Bar].Settings;
        var plain = events.Select(e => Straight(new(e, Touched([.. e.Notes.Select(n => Along(n, settings.Neck))], settings.Neck)))).ToImmutableArray();
        var grip = plain.SelectMany(e => e.Notes).Where(m => IsHeld(m.Note)).ToList();
        if (Stopped(settings, grip) is not { } stop)
            return new(plain, null);
        return Elsewhere(settings, plain, grip, stop);
    }

    /// <summary>The best fingers of a voicing for the hand in force, or null.</summary>
    public Fingers? Fingering(Settings settings, Voicing voicing)
    {
        var key = (settings.Neck, settings.Reach, voicing);
        if (!known.TryGetValue(key, out var fingers))
            known[key] = fingers = FingeringSearch.Best(settings.Neck, HandOf(settings), voicing).Best;
        return fingers;
    }

    private static EventMove Straight(EventMove e) => e with { SameStrings = e.Notes.All(m => !m.LeftOut && m.String == m.Note.String) };

    private static Hand HandOf(Settings settings) =>
        settings.Reach is (var from, var to) ? settings.Hand.Calibrated(settings.Neck, from, to) : settings.Hand;

    private static bool IsHeld(Note note) => note is { String: not null, Fret: not null, Harmonic: false, Dead: false };

    // Each note by itself: the same string, so many frets on. A dead note follows the hand where the neck lets it.
    private NoteMove Along(Note note, Neck neck)
    {
        var pitch = interval.From(note.Pitch);
        if (note is not { String: { } s, Fret: { } fret })
            return Open(note, pitch, neck);
        var moved = fret + interval.Semitones;
        return new(note, pitch, s, note.Dead && (moved < 0 || moved > neck.HighestFret) ? fret : moved);
    }

    // A harmonic goes where its pitch is found: on its own string, else where it is a natural one, else near by; no two on one string.
    private ImmutableArray<NoteMove> Touched(ImmutableArray<NoteMove> notes, Neck neck)
    {
        if (interval.Semitones == 0 || !notes.Any(m => IsTouched(m.Note)))
            return notes;
        var taken = notes.Where(m => !IsTouched(m.Note)).Select(m => m.String).ToHashSet();
        NoteMove Place(NoteMove m)
        {
            if (!IsTouched(m.Note))
                return m;
            var ways = from s in Enumerable.Range(1, neck.Tuning.Strings)
                       where !taken.Contains(s)
                       let touch = Harmonics.Fret(neck, s, m.Pitch.Midi, true)
                       where touch is not null && Harmonics.Midi(neck, s, touch.Value, true) == m.Pitch.Midi
                       orderby s == m.Note.String ? 0 : 1, Harmonics.IsNatural(touch.Value) ? 0 : 1, Math.Abs(s - m.Note.String!.Value)
                       select (String: s, Fret: touch.Value);
            if (ways.Select(w => ((int String, int Fret)?)w).FirstOrDefault() is not { } way)
                return Open(m.Note with { String = null, Fret = null }, m.Pitch, neck) with { Note = m.Note };
            taken.Add(way.String);
            return m with { String = way.String, Fret = way.Fret };
        }
        return [.. notes.Select(Place)];
    }

    private static bool IsTouched(Note note) => note is { Harmonic: true, String: not null, Fret: not null };

    // A pitch whose string is left open stays one; where no string has it any more, it goes to the octave that one has.
    private static NoteMove Open(Note note, Pitch pitch, Neck neck)
    {
        bool Reached(int midi) => Enumerable.Range(1, neck.Tuning.Strings).Any(s => Harmonics.Fret(neck, s, midi, note.Harmonic) is not null);
        if (note.String is not null || Reached(pitch.Midi) || !Reached(note.Midi))
            return new(note, pitch, note.String, null);
        var up = pitch.Midi < note.Midi ? 1 : -1;
        var other = pitch with { Octave = pitch.Octave + up };
        return new(note, Reached(other.Midi) ? other : pitch, null, null);
    }

    private Stop? Stopped(Settings settings, List<NoteMove> grip)
    {
        var highest = settings.Neck.HighestFret;
        if (grip.Any(m => m.Note.Fret > highest))
            return null;
        var off = grip.Where(m => m.Fret < 0 || m.Fret > highest).Select(m => m.Note).ToList();
        if (off.Count > 0)
            return interval.Semitones < 0 && off.Any(n => n.Fret == 0) ? new(Obstacle.OpenString, Strings(off.Where(n => n.Fret == 0)), true) : new(Obstacle.NeckEnd, Strings(off), true);
        var open = grip.Where(m => m.Note.Fret == 0).Select(m => m.Note).ToList();
        if (open.Count == 0 || interval.Semitones <= 0 || !Held(settings, grip, m => m.Note.Fret))
            return null;
        if (!Held(settings, grip, m => m.Fret))
            return new(Obstacle.OpenString, Strings(open), true);
        return Hard(settings, grip, m => m.Fret) is { } far && Hard(settings, grip, m => m.Note.Fret) is null ? new(Obstacle.OpenString, Strings(open), true, far) : null;
    }

    // Ours: a stretch that is nearer to the limit of the hand than to its ease is no grip for everybody.
    private Stretch? Hard(Settings settings, List<NoteMove> grip, Func<NoteMove, int?> fret)
    {
        var voicing = Grip(settings, grip, fret);
        return Fingering(settings, voicing) is { } fingers && Stretch.Of(settings.Neck, HandOf(settings), voicing, fingers) is { } far
            && far.Millimetres > (far.Comfortable + far.Limit) / 2 ? far : null;
    }

    private static ImmutableArray<int> Strings(IEnumerable<Note> notes) => [.. notes.Select(n => n.String!.Value).Distinct().Order()];

    private bool Held(Settings settings, IEnumerable<NoteMove> grip, Func<NoteMove, int?> fret) => Fingering(settings, Grip(settings, grip, fret)) is not null;

    private static Voicing Grip(Settings settings, IEnumerable<NoteMove> grip, Func<NoteMove, int?> fret)
    {
        var slots = new int?[settings.Neck.Tuning.Strings];
        foreach (var m in grip)
            if (m.Note.String is { } s && s <= slots.Length)
                slots[^s] ??= fret(m);
        return new([.. slots]);
    }

    // What is lowest says which chord it is, so another grip keeps it if any does.
    private GripMove Elsewhere(Settings settings, ImmutableArray<EventMove> plain, List<NoteMove> grip, Stop stop)
    {
        if ((Near(settings, plain, grip, stop, grip.Min(m => m.Pitch.Midi) % Octave) ?? Near(settings, plain, grip, stop, null)) is { } found)
            return found;
        if (stop.Far is not null)
            return new(plain, null); // it can be held, and its stretch is told by a check
        // A grip that is too wide can still be written; one that leaves the neck cannot.
        var neck = settings.Neck;
        return new(grip.All(m => m.Fret >= 0 && m.Fret <= neck.HighestFret) ? plain : [.. plain.Select(e => Unplaced(e, neck))], stop with { Found = false });
    }

    // All tones under the same top note; then without those that function does not need; then, where nothing else sounds, all of it an octave away;
    // then without the others that players leave out.
    private GripMove? Near(Settings settings, ImmutableArray<EventMove> plain, List<NoteMove> grip, Stop stop, int? bass)
    {
        GripMove? Try(List<NoteMove> left, int octave = 0) =>
            NearestVoicing.Find(settings.Neck, HandOf(settings), [.. left.Select(m => new WantedNote(m.Pitch.Midi + octave, m.Note.String!.Value, m.Fret!.Value + octave))],
                atEase: stop.Far is not null, bass) is { } found ? new(Laid(settings, plain, left, found), stop) : null;
        var away = interval.Semitones < 0 ? Octave : -Octave;
        for (var (most, left) = (Needless, grip); ;)
        {
            if (Try(left) is { } near)
                return near;
            if (Fewer(plain, left, most) is { } fewer)
                left = fewer;
            else if (stop.Far is not null)
                return null;
            else if (most == Needless && (plain.Length == 1 ? Try(grip, away) : null) is { } whole)
                return whole;
            else if (most == Needless)
                most = Optional;
            else
                return null;
        }
    }

    // One note fewer: a tone that is doubled, then the fifth, then another that players leave out; never the top note, never an event's last.
    private List<NoteMove>? Fewer(ImmutableArray<EventMove> plain, List<NoteMove> grip, int most)
    {
        var top = grip.Max(m => m.Pitch.Midi);
        int? Price(NoteMove m)
        {
            var mine = plain.First(e => e.Notes.Contains(m, ReferenceEqualityComparer.Instance));
            if (m.Pitch.Midi == top || mine.Notes.Count(n => grip.Contains(n, ReferenceEqualityComparer.Instance)) < 2)
                return null;
            if (grip.Any(o => !ReferenceEquals(o, m) && (o.Pitch.Midi - m.Pitch.Midi) % Octave == 0))
                return Doubled;
            var chord = mine.Event.Is ?? piece.ChordAt(mine.Event.Onset)?.Chord;
            return chord?.RoleOf(m.Note.Midi) != ToneRole.Optional ? null : chord.DegreeOf(m.Note.Midi).Number == Fifth && chord.IntervalOf(m.Note.Midi) == PlainFifth ? Needless : Optional;
        }
        var cheapest = grip.Select(m => (Move: m, Price: Price(m))).Where(m => m.Price <= most).OrderBy(m => m.Price).Select(m => m.Move).FirstOrDefault();
        return cheapest is null ? null : [.. grip.Where(m => !ReferenceEquals(m, cheapest))];
    }

    private ImmutableArray<EventMove> Laid(Settings settings, ImmutableArray<EventMove> plain, List<NoteMove> grip, ImmutableArray<FoundNote> found)
    {
        var slots = new int?[settings.Neck.Tuning.Strings];
        foreach (var f in found)
            slots[^f.String] = f.Fret;
        var fingers = Fingering(settings, new([.. slots]));
        NoteMove Place(NoteMove m)
        {
            var at = grip.FindIndex(g => ReferenceEquals(g, m));
            return at >= 0 ? m with { Pitch = Pitch.Of(found[at].Midi, m.Pitch.Name), String = found[at].String, Fret = found[at].Fret }
                : IsHeld(m.Note) ? m with { LeftOut = true } : m;
        }
        return
        [
            .. plain.Select(e => Straight(e with { Notes = [.. e.Notes.Select(Place)], Fingers = fingers })),
        ];
    }

    // Without a grip the pitches alone can be written; where even these are off the neck, in the octave that is on it.
    private static EventMove Unplaced(EventMove e, Neck neck) => e with
    {
        Notes = [.. e.Notes.Select(m => IsHeld(m.Note) ? Open(m.Note with { String = null, Fret = null }, m.Pitch, neck) with { Note = m.Note } : m)],
        SameStrings = false,
    };
}
