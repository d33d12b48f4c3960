// Joins staff and tablature, follows ties, and keeps strings and frets only where they sound what is written.
using ChordLang.Fretboard.Necks;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Scores;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.MusicXml;

/// <summary>Puts the notes of all measures on one time line.</summary>
internal static class NeckNotes
{
    /// <summary>The notes, struck once each, with ties followed.</summary>
    public static List<SoundedNote> Of(List<RawMeasure> measures, List<ScoreBar> bars, HashSet<int> tabStaves, Tuning tuning, int capo, List<Loss> losses)
    {
        var neck = new Neck(tuning, 36, Neck.Standard.ScaleLength, capo);
        var octaves = Octaves(measures, neck);
        if (octaves != 0)
            losses.Add(new(null, $"pitches stand {Math.Abs(octaves)} octave{(Math.Abs(octaves) == 1 ? "" : "s")} {(octaves > 0 ? "below" : "above")} what strings and frets sound: the strings are believed."));
        var notes = new List<SoundedNote>();
        var ties = new Dictionary<(int Staff, int Midi), SoundedNote>();
        for (var i = 0; i < measures.Count; i++)
        {
            var bar = bars[i];
            foreach (var raw in Joined(measures[i], tabStaves).OrderBy(n => n.At))
            {
                var pitch = octaves == 0 ? raw.Pitch : raw.Pitch with { Octave = raw.Pitch.Octave + octaves };
                var onset = bar.TimeOf(Counted(measures[i], bar, raw.At));
                var end = bar.TimeOf(Counted(measures[i], bar, raw.At + raw.Length));
                if (pitch is not { Octave: >= 0 and <= 9 } || end <= onset)
                    continue;
                if (raw.TieStop && ties.TryGetValue((raw.Staff, pitch.Midi), out var before) && before.End == onset)
                {
                    before.End = end;
                    Ring(before, raw, bar);
                    if (!raw.TieStart)
                        ties.Remove((raw.Staff, pitch.Midi));
                    continue;
                }
                if (raw.TieStop)
                    losses.Add(new(bar.Number, $"a tie comes from no {pitch}: it is struck again."));
                var note = new SoundedNote { Onset = onset, End = end, Pitch = pitch, Source = raw.Source, Dead = raw.Dead, Harmonic = raw.Harmonic, Finger = raw.Finger };
                Place(note, raw, neck, bar, losses);
                note.Marks.AddRange(raw.Marks.Distinct());
                if (raw.Bend is { } by)
                    note.Own.Add(Bend(pitch, by, bar, losses));
                Ring(note, raw, bar);
                notes.Add(note);
                if (raw.TieStart)
                    ties[(raw.Staff, pitch.Midi)] = note;
            }
            losses.AddRange(measures[i].Losses.Select(l => new Loss(bar.Number, l)).Where(l => !losses.Contains(l)));
        }
        return notes;
    }

    /// <summary>An offset that a count can say: the nearest 48th of a count where its fraction has more than two digits.</summary>
    public static Rational Countable(Rational offset) => offset.Denominator <= 99 ? offset : Rational.Of((long)Math.Round(offset.Value * 48), 48);

    private static Rational Counted(RawMeasure m, ScoreBar bar, Rational at)
    {
        var offset = bar.From + at / bar.Meter.Count;
        var counted = Countable(offset);
        if (counted != offset)
            m.Lose("a note stands on no count that can be said: it is brought to the nearest 48th of a count.");
        return Rational.Min(counted, Rational.Of(bar.Meter.Counts));
    }

    // Staff and tablature say the same notes: one of them is kept, with what the other knows of it.
    private static List<RawNote> Joined(RawMeasure m, HashSet<int> tabStaves)
    {
        var (tab, staff) = (m.Notes.Where(n => tabStaves.Contains(n.Staff)).ToList(), m.Notes.Where(n => !tabStaves.Contains(n.Staff)).ToList());
        if (tab.Count == 0 || staff.Count == 0)
            return m.Notes;
        var left = tab.ToLookup(n => (n.At, n.Pitch.Midi)).ToDictionary(g => g.Key, g => new Queue<RawNote>(g));
        var matched = staff.Select(n => (Staff: n, Tab: left.GetValueOrDefault((n.At, n.Pitch.Midi)) is { Count: > 0 } q ? q.Dequeue() : null)).ToList();
        if (left.Values.Any(q => q.Count > 0))
        {
            m.Lose("staff and tablature differ: the tablature is kept.");
            return tab;
        }
        foreach (var (s, t) in matched)
            if (t is not null)
            {
                (s.String, s.Fret, s.Finger, s.Bend) = (t.String ?? s.String, t.Fret ?? s.Fret, t.Finger ?? s.Finger, s.Bend ?? t.Bend);
                (s.Dead, s.Harmonic, s.Ring) = (s.Dead || t.Dead, s.Harmonic || t.Harmonic, t.Ring.Rings ? t.Ring : s.Ring);
                if (t.Marks.Any(x => x.Word == "grace"))
                    s.Marks.RemoveAll(x => x.Word == "grace");
                s.Marks.AddRange(t.Marks.Where(x => !s.Marks.Contains(x)));
            }
        return staff;
    }

    // How many octaves all notes with string and fret are written below what those sound; 0 where they agree, or not among themselves.
    private static int Octaves(List<RawMeasure> measures, Neck neck)
    {
        var off = measures.SelectMany(m => m.Notes).Where(n => n is { Harmonic: false, Dead: false, String: { } s, Fret: not null } && s <= neck.Tuning.Strings)
            .Select(n => neck.Midi(n.String!.Value, n.Fret!.Value) - n.Pitch.Midi).Distinct().Take(2).ToList();
        return off is [var by] && by % 12 == 0 && Math.Abs(by) <= 24 ? by / 12 : 0;
    }

    private static void Place(SoundedNote note, RawNote raw, Neck neck, ScoreBar bar, List<Loss> losses)
    {
        if (raw.String is not { } s)
            return;
        if (s > neck.Tuning.Strings)
        {
            losses.Add(new(bar.Number, $"string {s} is none of the {neck.Tuning.Strings} that there are: {note.Pitch} is left open for placement."));
            return;
        }
        var sounds = raw.Fret is { } fret ? neck.Midi(s, fret) : (int?)null;
        if (note.Dead || note.Harmonic || sounds == note.Pitch.Midi)
            (note.String, note.Fret) = (s, raw.Fret);
        else if (sounds is null && neck.FretOf(s, note.Pitch.Midi) is { } found)
            (note.String, note.Fret) = (s, found);
        else
            losses.Add(new(bar.Number, raw.Fret is null ? $"string {s} has no {note.Pitch}: it is left open for placement." : $"fret {raw.Fret} on string {s} does not sound {note.Pitch}: the pitch is kept and left open for placement."));
    }

    private static void Ring(SoundedNote note, RawNote raw, ScoreBar bar)
    {
        if (raw.Ring.Rings)
            note.Rings = raw.Ring.Beyond is { } beyond ? bar.TimeOf(Countable(bar.OffsetOf(note.End + beyond))) : Rational.Max(bar.End, note.End);
    }

    private static ScoreMark Bend(Pitch pitch, double by, ScoreBar bar, List<Loss> losses)
    {
        var whole = Math.Max(1, (int)Math.Round(by));
        if (whole != by)
            losses.Add(new(bar.Number, $"a bend by {by} semitones becomes one by {whole}."));
        return whole switch { 1 => new("bend", "half"), 2 => new("bend", "full"), _ => new("bend", "to " + Pitch.Nearest(pitch.Midi + whole, pitch.Name.Fifths)) };
    }
}
