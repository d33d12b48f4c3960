// A MIDI file as a score: times to counts, notes to voices, sounds to names.
using System.Collections.Immutable;
using System.Globalization;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Harmony.Spelling;
using ChordLang.Interchange.Scores;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.Midi;

/// <summary>Reads Standard MIDI Files 1.0, formats 0 and 1.</summary>
public static class MidiReader
{
    private const int Drums = 9, FirstGuitar = 24, LastGuitar = 31, MostBars = 4_000, MostVoices = 2;

    // One guitar has few voices; a file with more tracks than that is a band.
    private const int MostTracks = 4;

    /// <summary>True where bytes begin as a MIDI file does.</summary>
    public static bool Is(ReadOnlySpan<byte> bytes) => MidiScan.Is(bytes);

    /// <summary>The score of a file.</summary>
    /// <param name="bytes">The file.</param>
    /// <param name="part">Which track with notes, from 1; null for the guitars, or all tracks where they are few.</param>
    /// <exception cref="UnreadableScoreException">It is no MIDI file, or a damaged one.</exception>
    public static Imported Read(byte[] bytes, int? part = null)
    {
        var scan = MidiScan.Read(bytes);
        var losses = new List<Loss>();
        if (scan.CutOff)
            losses.Add(new(null, "the file is cut off: what could be read of it is carried."));
        var notes = Chosen(scan, part, losses);
        var quantiser = new Quantiser(scan.TicksPerQuarter, [.. notes.Select(n => n.On)], [.. notes.Select(n => n.Off)]);
        if (!quantiser.Exact)
            losses.Add(new(null, "it was played, not written: each note is brought to the nearest count of its beat."));
        var sounded = Sounded(notes, quantiser);
        var end = sounded.Select(n => n.End).DefaultIfEmpty(Rational.Zero).Aggregate(Rational.Max);
        var bars = Bars(scan, quantiser, end, losses);
        Spell(sounded, bars, losses);
        return new(new()
        {
            Title = scan.Names.GetValueOrDefault(0) is { Length: > 0 } title && title != "Untitled" && !scan.Notes.Any(n => n.Track == 0) ? title : null,
            Bars = [.. Lanes.Fill(bars, sounded, losses, MostVoices).Select(b => b.Voices.IsEmpty && sounded.Count > 0 ? b with { Voices = [new(null, [])] } : b)],
        }, [.. losses.OrderBy(l => l.Bar ?? -1)]);
    }

    private static List<TickNote> Chosen(MidiScan scan, int? part, List<Loss> losses)
    {
        if (scan.Notes.Any(n => n.Channel == Drums))
            losses.Add(new(null, "drums (channel 10) are not carried."));
        var tracks = scan.Notes.Where(n => n.Channel != Drums).GroupBy(n => n.Track).OrderBy(g => g.Key).ToList();
        if (part is { } p)
            return p <= tracks.Count ? [.. tracks[p - 1]] : throw new UnreadableScoreException($"it has {tracks.Count} tracks with notes, and no number {p}");
        bool Guitar(IGrouping<int, TickNote> t) => t.Any(n => scan.Programs.GetValueOrDefault((n.Track, n.Channel), -1) is >= FirstGuitar and <= LastGuitar);
        var taken = tracks.Any(Guitar) ? [.. tracks.Where(Guitar)] : tracks;
        if (taken.Count > MostTracks)
            taken = [taken[0]];
        for (var i = 0; i < tracks.Count; i++)
            if (!taken.Contains(tracks[i]))
                losses.Add(new(null, $"track {i + 1} ({scan.Names.GetValueOrDefault(tracks[i].Key, "without a name")}) is not carried: an arrangement is one guitar. --part {i + 1} takes it instead."));
        return [.. taken.SelectMany(t => t)];
    }

    private static List<SoundedNote> Sounded(List<TickNote> notes, Quantiser quantiser)
    {
        var sounded = new List<SoundedNote>();
        foreach (var track in notes.GroupBy(n => n.Track))
        {
            var onsets = track.Select(n => quantiser.Of(n.On)).Distinct().Order().ToList();
            foreach (var n in track)
            {
                var (on, off) = (quantiser.Of(n.On), quantiser.Of(n.Off));
                var at = onsets.BinarySearch(on) + 1;
                var next = at < onsets.Count ? onsets[at] : (Rational?)null;
                // Players let go a little early: what ends less than a sixteenth before the next note reaches to it.
                if (!quantiser.Exact && next is { } n1 && off < n1 && n1 - off < Rational.Of(1, 16) || off <= on)
                    off = next is { } n2 && n2 - on <= Rational.Of(1, 4) ? n2 : on + Rational.Of(1, 16);
                if (n.Midi >= 12)     // what lies below has no octave number that the notation writes
                {
                    var note = new SoundedNote { Onset = on, End = off, Pitch = Pitch.Nearest(n.Midi), Source = track.Key };
                    if (Math.Round(n.Bend) is >= 1 and <= 12 and var by)
                        note.Own.Add(by switch { 1 => new("bend", "half"), 2 => new("bend", "full"), _ => new("bend", "to " + Pitch.Nearest(n.Midi + (int)by)) });
                    sounded.Add(note);
                }
            }
        }
        // The same key struck twice at once is one note.
        return [.. sounded.GroupBy(n => (n.Source, n.Onset, n.Pitch.Midi)).Select(g => g.MaxBy(n => n.End)!).OrderBy(n => n.Onset)];
    }

    private static List<ScoreBar> Bars(MidiScan scan, Quantiser quantiser, Rational end, List<Loss> losses)
    {
        Rational Time(long tick) => quantiser.Exact ? quantiser.Of(tick) : Rational.Of((long)Math.Round(16.0 * tick / scan.TicksPerQuarter), 64);
        var meters = scan.Meters.OrderBy(m => m.At).Select(m => (At: Time(m.At), Meter: Meter(m.Counts, m.Unit))).Where(m => m.Meter is not null).ToList();
        var keys = scan.Keys.OrderBy(k => k.At).Select(k => (At: Time(k.At), Key: Key.Of(PitchName.FromFifths(k.Fifths + (k.Minor ? 3 : 0)), k.Minor ? Mode.Minor : Mode.Major))).ToList();
        var tempos = scan.Tempos.OrderBy(t => t.At).Select(t => (At: Time(t.At), t.Micros)).ToList();
        var bars = new List<ScoreBar>();
        var (at, meter, pickup) = (Rational.Zero, new Meter(4, 4), 0);
        var from = Rational.Zero;
        while (bars.Count == 0 || at < end)
        {
            if (bars.Count >= MostBars)
                throw new UnreadableScoreException($"it is longer than {MostBars} bars");
            meter = meters.LastOrDefault(m => m.At <= at).Meter ?? meter;
            // A first bar that is shorter than all others is a pickup.
            if (bars.Count == 0 && meters.FirstOrDefault(m => m.At > at) is { Meter: { } second } change && meter.Length < second.Length && change.At == meter.Length)
                (from, meter, pickup) = ((second.Length - meter.Length) / second.Count, second, 1);
            var bar = new ScoreBar { Number = bars.Count + 1 - pickup, Meter = meter, Start = at, From = bars.Count == 0 ? from : Rational.Zero };
            bool Here(Rational time) => time == bar.Start || time > bar.Start && time < bar.End;
            var tempo = tempos.Where(t => Here(t.At)).ToList();
            if (tempo.Count > 1 || tempo.Count == 1 && tempo[0].At > at)
                losses.Add(new(bar.Number, "the tempo changes inside the bar: the last one is taken for the whole."));
            bars.Add(bar with
            {
                Key = keys.LastOrDefault(k => Here(k.At)).Key,
                Tempo = tempo.Count > 0 ? Math.Clamp(Math.Round(60_000_000.0 / tempo[^1].Micros / (4 * meter.Beat.Value), 1), 1, 999).ToString(CultureInfo.InvariantCulture) : null,
                Section = scan.Markers.Where(m => Here(Time(m.At)) && m.Text.Length > 0).Select(m => m.Text).FirstOrDefault(),
            });
            at = bars[^1].End;
        }
        var names = new Dictionary<string, int>(StringComparer.Ordinal);
        return [.. bars.Select(b => b.Section is { } name && (names[name] = names.GetValueOrDefault(name) + 1) > 1 ? b with { Section = $"{name} {names[name]}" } : b)];
    }

    private static Meter? Meter(int counts, int unit) => MusicXml.PartReader.MeterOf(Rational.Of(counts, unit), unit);

    // The speller of the Harmony room names the notes; where no key is given it tells the signature too.
    private static void Spell(List<SoundedNote> notes, List<ScoreBar> bars, List<Loss> losses)
    {
        if (notes.Count == 0)
            return;
        Key? KeyAt(Rational time) => bars.LastOrDefault(b => b.Key is not null && b.Start <= time)?.Key;
        var spelled = Speller.Spell([.. notes.Select(n => new NoteToSpell(n.Onset.Value, n.Pitch.Midi, n.Source, KeyAt(n.Onset), null))]);
        for (var i = 0; i < notes.Count; i++)
            notes[i].Pitch = Pitch.Of(notes[i].Pitch.Midi, spelled[i].Name);
        if (bars.All(b => b.Key is null))
        {
            bars[0] = bars[0] with { Key = Key.Signature(spelled.GroupBy(s => s.Signature).MaxBy(g => g.Count())!.Key) };
            losses.Add(new(null, $"no key is written in the file; the notes have {bars[0].Key}."));
        }
    }
}
