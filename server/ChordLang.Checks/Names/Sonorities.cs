// Finds what there is to judge, and leaves out what musicians rightly do: melody, anticipation, suspension, passing notes.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Chords;

namespace ChordLang.Checks.Names;

internal static class Sonorities
{
    /// <summary>All sonorities of a piece that a name has to answer for, in the order of time.</summary>
    public static IEnumerable<Sonority> Of(Piece piece)
    {
        var judged = new HashSet<string>();
        var voices = new VoiceLines(piece);
        // Where a sound is described twice and differently, nobody knows yet which one to hold against the name.
        var open = piece.Troubles.Where(t => t.Code == TroubleCodes.SidesDiffer).Select(t => t.Span.Start).ToList();
        foreach (var moment in piece.Moments)
        {
            if (moment.Chord is null && moment.Events.All(e => e.Is is null) || open.Any(at => moment.Events.Any(e => e.SoundSpan.Touches(at))))
                continue;
            foreach (var sonority in At(piece, voices, moment))
                if (IsNew(sonority, moment, judged))
                    yield return sonority;
        }
    }

    private static IEnumerable<Sonority> At(Piece piece, VoiceLines voices, Moment moment)
    {
        var bar = piece.Bars[moment.Bar];
        var strict = bar.Settings.Strict;
        foreach (var named in moment.Events)
            if (named.Is is { } chord && named.Marks.LastOrDefault(m => m.Kind == MarkKind.Is) is { } mark)
            {
                // What 'is' names is this sound alone; the other rows may complete it and are not blamed.
                var all = Tones(moment, h => ReferenceEquals(h.Source, named) && h.Note.BendTo is null);
                if (Counts(all.Where(t => ReferenceEquals(t.Event, named)), strict))
                    yield return Made(piece, moment, chord, mark, named, all);
            }
        if (moment.Chord is not { First.Chord: { } inForce } stretch || moment.Events.Any(e => e.Is is not null) || IsMelody(moment))
            yield break;
        var arpeggio = IsArpeggio(moment);
        var top = moment.Sounding.Length == 0 ? 0 : moment.Sounding[^1].Note.Midi;
        var tones = Tones(moment, h => h.Note.BendTo is null && !voices.Passes(h.Source, h.Note)
            && (h.Note.Onset == moment.Time || h.Note.Onset >= stretch.Start && (arpeggio || h.Note.Midi < top)));
        if (!Counts(tones, strict) || Anticipates(moment, bar))
            yield break;
        yield return Made(piece, moment, inForce, null, moment.Events.MaxBy(e => e.Notes.Length)!, tones);
    }

    private static Sonority Made(Piece piece, Moment moment, Chord chord, MarkSyntax? mark, Event e, List<Tone> tones)
    {
        var bar = piece.Bars[moment.Bar];
        var (heard, lowest) = (0, int.MaxValue);
        if (moment.Chord is { } stretch && mark is null)
            foreach (var (note, source) in HeardIn(piece, stretch))
            {
                if (source.Notes.Length < 3)
                    lowest = Math.Min(lowest, note.Midi);
                // Under strict naming a voicing that is struck as a block must say it all by itself.
                if (!bar.Settings.Strict || e.Notes.Length < 3)
                    heard |= 1 << note.Pitch.Name.PitchClass;
            }
        return new()
        {
            Bar = bar, Time = moment.Time, Chord = chord, Stretch = moment.Chord, Is = mark, Event = e, Tones = [.. tones], Heard = heard, Lowest = lowest,
        };
    }

    private static IEnumerable<Heard> HeardIn(Piece piece, ChordStretch stretch)
    {
        int low = 0, high = piece.Events.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (piece.Events[middle].Onset < stretch.Start) low = middle + 1; else high = middle;
        }
        for (; low < piece.Events.Length && piece.Events[low].Onset < stretch.End; low++)
            foreach (var note in piece.Events[low].Notes)
                if (!note.Dead)
                    yield return new(note, piece.Events[low]);
    }

    private static List<Tone> Tones(Moment moment, Func<Heard, bool> blamable)
    {
        var tones = new List<Tone>();
        foreach (var heard in moment.Sounding.OrderByDescending(h => h.Note.Onset == moment.Time))
            if (!tones.Any(t => t.Note.Midi == heard.Note.Midi && t.Note.String == heard.Note.String))
                tones.Add(new(heard.Note, heard.Source, blamable(heard)));
        return [.. tones.OrderBy(t => t.Note.Midi)];
    }

    // Three pitch classes make a voicing. A slip can double a tone and leave two of three: strict naming looks at such a grip too.
    private static bool Counts(IEnumerable<Tone> tones, bool strict) => Classes(tones.Select(t => t.Note)) >= 3
        || strict && tones.GroupBy(t => t.Event, ReferenceEqualityComparer.Instance).Any(g => g.Count() >= 3 && Classes(g.Select(t => t.Note)) >= 2);

    private static int Classes(IEnumerable<Note> notes) => int.PopCount(notes.Aggregate(0, (set, n) => set | 1 << n.Pitch.Name.PitchClass));

    // One pitch struck over a voicing that is already there.
    private static bool IsMelody(Moment moment) => Classes(moment.Struck.Select(h => h.Note)) == 1
        && Classes(moment.Sounding.Where(h => h.Note.Onset < moment.Time).Select(h => h.Note)) >= 3 && !IsArpeggio(moment);

    // A broken chord: single notes of one voice, each left ringing into the next.
    private static bool IsArpeggio(Moment moment) =>
        moment.Events is [{ Notes: [var last] } e] && last.End > e.End
        && moment.Sounding.All(h => h.Source.Notes.Length == 1 && h.Source.VoiceKey == e.VoiceKey && (h.Note.End > h.Source.End));

    // Struck in the last count of its chord, or tied over the end of it, and at home in the next chord. A chord's first strike anticipates nothing.
    private static bool Anticipates(Moment moment, Bar bar)
    {
        if (moment is not { Chord: { } stretch, Next.First.Chord: { } next } || moment.Time <= stretch.Start)
            return false;
        var late = stretch.End - moment.Time <= bar.Settings.Meter.Count;
        var over = moment.Struck.Any(h => h.Note.End > stretch.End);
        return (late || over) && Fit.Of(next, bar.Settings.Strict, moment.Struck.Select(h => h.Note.Midi), 0xFFF).Foreign.IsEmpty;
    }

    // A sound that is only repeated is judged where it is written.
    private static bool IsNew(Sonority sonority, Moment moment, HashSet<string> judged)
    {
        var key = $"{sonority.Chord.Symbol} {sonority.Strict} {string.Join(' ', sonority.Tones.Select(t => t.Note.Midi))}";
        return judged.Add(key) || !moment.Events.All(e => e.Repeated);
    }
}
