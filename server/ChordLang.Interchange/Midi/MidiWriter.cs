// An arrangement as a MIDI file: as it is played through, a track a voice.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using NAudio.Midi;

namespace ChordLang.Interchange.Midi;

/// <summary>Writes Standard MIDI Files 1.0, format 1: the first track holds tempo, meter, key and sections, each further one a voice.</summary>
public static class MidiWriter
{
    // General MIDI level 1, program 27 of 128 (26 in the file): the jazz guitar. Channel 10 is the drums' there.
    private const int Program = 26, Drums = 10;

    // Bent notes have channels of their own, for a bend moves all notes of its channel; their wheels reach an octave.
    private const int FirstBent = 12, LastBent = 16, BendRange = 12, Centre = 0x2000;

    // A resolution that programs read, and the longest wait that the format can say (Standard MIDI Files 1.0: a variable-length quantity of 28 bits).
    private const int UsualTicks = 480, MostTicks = 20_160, LongestWait = 0x0FFF_FFFF;

    /// <summary>The file of a piece, repeats and leaps played through.</summary>
    public static byte[] Write(Piece piece)
    {
        var bars = Played(piece);
        var ticks = Ticks(piece, bars.Count == 0 ? Rational.Zero : bars[^1].Start + bars[^1].Bar.Length);
        var file = new MidiEventCollection(1, ticks);
        long At(Rational time) => (long)Math.Round((time * Rational.Of(4L * ticks)).Value);
        var conductor = new List<MidiEvent>();
        Conduct(piece, bars, conductor, At);
        var tracks = new List<List<MidiEvent>> { conductor };
        var voices = piece.Bars.SelectMany(b => b.Rows).Select(r => r.VoiceKey).Distinct().ToList();
        var bent = FirstBent;
        for (var v = 0; v < voices.Count; v++)
        {
            var channel = 1 + v % (FirstBent - 1);
            tracks.Add(Track(voices[v], channel == Drums ? Drums + 1 : channel, bars, At, ref bent, ticks));
        }
        var end = bars.Count == 0 ? 0 : At(bars[^1].Start + bars[^1].Bar.Length);
        foreach (var track in tracks)
        {
            var last = Math.Max(end, track.Select(e => e.AbsoluteTime).DefaultIfEmpty(0).Max());
            file.AddTrack([.. track.OrderBy(e => e.AbsoluteTime), new MetaEvent(MetaEventType.EndTrack, 0, last)]);
        }
        using var bytes = new MemoryStream();
        MidiFile.Export(bytes, file);
        return bytes.ToArray();
    }

    /// <summary>The bars as played, each with the time at which it then starts, in whole notes.</summary>
    public static IReadOnlyList<(Bar Bar, Rational Start)> Played(Piece piece)
    {
        var (at, bars) = (Rational.Zero, new List<(Bar, Rational)>());
        foreach (var i in piece.PlayOrder.IsEmpty ? [.. Enumerable.Range(0, piece.Bars.Length)] : piece.PlayOrder)
        {
            bars.Add((piece.Bars[i], at));
            at += piece.Bars[i].Length;
        }
        return bars;
    }

    private static void Conduct(Piece piece, IReadOnlyList<(Bar Bar, Rational Start)> bars, List<MidiEvent> track, Func<Rational, long> at)
    {
        track.Add(new TextEvent(Plain(piece.Title ?? "Untitled"), MetaEventType.SequenceTrackName, 0));
        (Rational Length, Settings? Settings) before = (Rational.Zero, null);
        foreach (var (bar, start) in bars)
        {
            var (s, time) = (bar.Settings, at(start));
            if (before.Settings is not { } b || b.Meter != s.Meter || before.Length != bar.Length)
                if (Time(bar) is var (counts, power))
                    track.Add(new TimeSignatureEvent(time, counts, power, s.Meter.Compound ? 36 : 24, 8));
            if (s.Key is { } key && key != before.Settings?.Key)
                track.Add(new KeySignatureEvent(Signature(key.Fifths), key.Tonic is not null && key.Mode is Theory.Keys.Mode.Minor or Theory.Keys.Mode.Aeolian ? 1 : 0, time));
            // Where nothing is written MIDI takes 120 itself.
            if (s.BeatsPerMinute is { } tempo && (tempo != before.Settings?.BeatsPerMinute || before.Settings.Meter.Beat != s.Meter.Beat))
                track.Add(new TempoEvent((int)Math.Clamp(Math.Round(60_000_000 / (tempo * 4 * s.Meter.Beat.Value)), 1, 0xFFFFFF), time));
            foreach (var section in piece.Sections.Where(x => !x.Again && x.FirstBar == bar.Index))
                track.Add(new TextEvent(Plain(section.Name), MetaEventType.Marker, time));
            before = (bar.Length, s);
        }
    }

    // The format holds at most seven sharps or flats; beyond them stands the signature of the same sound.
    private static int Signature(int fifths) => fifths > 7 ? Signature(fifths - 12) : fifths < -7 ? Signature(fifths + 12) : fifths;

    // The meter that a bar has by its length: a pickup is a short bar.
    private static (int Counts, int Power)? Time(Bar bar)
    {
        for (int unit = bar.Settings.Meter.Unit, power = (int)Math.Log2(unit); unit <= 64; unit *= 2, power++)
            if (bar.Length * Rational.Of(unit) is { IsWhole: true, Numerator: > 0 and < 128 } counts)
                return ((int)counts.Numerator, power);
        return null;
    }

    private static List<MidiEvent> Track(string voice, int channel, IReadOnlyList<(Bar Bar, Rational Start)> bars, Func<Rational, long> at, ref int bent, int ticks)
    {
        var track = new List<MidiEvent> { new TextEvent(Plain(voice), MetaEventType.SequenceTrackName, 0), new PatchChangeEvent(0, channel, Program) };
        var prepared = new HashSet<int>();
        var sounding = new Dictionary<(int Channel, int Midi), NoteEvent>();
        var notes = new List<(long On, long Off, Note Note, Event Event)>();
        foreach (var (bar, start) in bars)
        {
            var shift = start - bar.Start;
            foreach (var e in bar.Rows.Where(r => r.VoiceKey == voice).SelectMany(r => r.Events).Where(e => e.Kind == EventKind.Struck))
            {
                var quick = Math.Max(1, ticks / 8);
                foreach (var grace in e.Grace)
                    notes.Add((Math.Max(0, at(e.Onset + shift) - quick), at(e.Onset + shift), grace, e));
                foreach (var n in e.Notes.Where(n => !n.Dead))
                    notes.Add((at(n.Onset + shift), Math.Max(at(n.Onset + shift) + 1, at(n.End + shift)), n, e));
            }
        }
        foreach (var (on, off, note, e) in notes.OrderBy(n => n.On).ThenBy(n => n.Note.Midi).Where(n => n.Note.Midi is >= 0 and <= 127 && n.Off > n.On))
        {
            var own = channel;
            if (note.BendTo is { } to && !e.Grace.Contains(note))
            {
                own = bent;
                bent = bent == LastBent ? FirstBent : bent + 1;
                if (prepared.Add(own))
                    Prepare(track, own);
                // Struck plain, then pulled up within a 32nd note, and let go where the next note begins.
                track.Add(new PitchWheelChangeEvent(on, own, Centre));
                track.Add(new PitchWheelChangeEvent(Math.Min(off, on + ticks / 8), own, Math.Clamp(Centre + (to.Midi - note.Midi) * Centre / BendRange, 0, 0x3FFF)));
                track.Add(new PitchWheelChangeEvent(off, own, Centre));
            }
            // A string struck again ends what it sounded before.
            if (sounding.TryGetValue((own, note.Midi), out var before) && before.AbsoluteTime > on)
                before.AbsoluteTime = on;
            var ends = new NoteEvent(off, own, MidiCommandCode.NoteOff, note.Midi, 64);
            track.Add(new NoteEvent(on, own, MidiCommandCode.NoteOn, note.Midi, Velocity(e)));
            track.Add(ends);
            sounding[(own, note.Midi)] = ends;
        }
        // At one time what ends comes before what begins.
        return [.. track.OrderBy(x => x.AbsoluteTime).ThenBy(x => x.CommandCode switch { MidiCommandCode.MetaEvent => 0, MidiCommandCode.NoteOff => 1, MidiCommandCode.NoteOn => 3, _ => 2 })];
    }

    // Registered parameter 0 (MIDI 1.0): how many semitones the wheel bends.
    private static void Prepare(List<MidiEvent> track, int channel)
    {
        track.Add(new PatchChangeEvent(0, channel, Program));
        track.Add(new ControlChangeEvent(0, channel, (MidiController)101, 0));
        track.Add(new ControlChangeEvent(0, channel, (MidiController)100, 0));
        track.Add(new ControlChangeEvent(0, channel, (MidiController)6, BendRange));
        track.Add(new ControlChangeEvent(0, channel, (MidiController)38, 0));
    }

    /// <summary>Loudness of an event, 1 to 127. Judgement: mezzo-forte is the middle, an accent a step more.</summary>
    internal static int Velocity(Event e) => Math.Min(127, (e.Marks.FirstOrDefault(m => m.Kind == MarkKind.Loudness)?.Operand is WordOperand { Word: var loud } ? loud switch { "p" => 52, "mp" => 66, "f" => 96, _ => 80 } : 80)
        + (e.Has(MarkKind.Accent) ? 16 : 0));

    // The least resolution in which every time is exact, from the usual one on; beyond the bounds the nearest tick.
    private static int Ticks(Piece piece, Rational length)
    {
        var most = Math.Max(1, Math.Min(MostTicks, (long)(LongestWait / (4 * length.Value + 4))));
        var ticks = Math.Min(UsualTicks, most);
        foreach (var time in piece.Events.SelectMany(e => e.Notes.Append(null).Select(n => n?.End ?? e.Onset)).Concat(piece.Bars.Select(b => b.Start)))
        {
            var denominator = (time * Rational.Of(4)).Denominator;
            var (a, b) = (ticks, denominator);
            while (b != 0)
                (a, b) = (b, a % b);
            if (ticks / a * denominator <= most)
                ticks = ticks / a * denominator;
        }
        return (int)ticks;
    }

    // Text in a MIDI file is ASCII by the standard; a sign that is none becomes a question mark.
    private static string Plain(string text) => string.Concat(text.Select(c => c is >= ' ' and <= '~' ? c : '?'));
}
