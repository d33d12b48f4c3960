// Walks through the measures of one part: time, attributes, chords, directions, bar lines.
using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Necks;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Scores;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.MusicXml;

/// <summary>Reads one part of a score.</summary>
internal sealed partial class PartReader
{
    private const int MostNotes = 200_000, MostMeasures = 4_000;

    private readonly NoteReader notes;
    private long divisions = 1;
    private Meter meter = new(4, 4);
    private bool free;
    private int count;

    public PartReader() => notes = new(Transposed);

    /// <summary>The measures.</summary>
    public List<RawMeasure> Measures { get; } = [];

    /// <summary>Staves that are tablature.</summary>
    public HashSet<int> TabStaves { get; } = [];

    /// <summary>The open strings, or null where none are given.</summary>
    public Tuning? Tuning { get; private set; }

    /// <summary>The capo.</summary>
    public int Capo { get; private set; }

    private (int Steps, int Semitones) transposition;

    /// <summary>Reads all measures of a part.</summary>
    public void Read(IEnumerable<XElement> measures)
    {
        foreach (var measure in measures)
        {
            if (Measures.Count >= MostMeasures)
                throw new UnreadableScoreException($"it has more than {MostMeasures} bars");
            Measures.Add(Measure(measure));
        }
    }

    private RawMeasure Measure(XElement element)
    {
        var raw = new RawMeasure { Meter = meter, Free = free, Implicit = (string?)element.Attribute("implicit") == "yes" };
        var (at, chordAt) = (Rational.Zero, Rational.Zero);
        var words = new List<(Rational At, string Text, bool Below)>();
        var pending = new List<(Rational At, ScoreMark Mark)>();
        foreach (var child in element.Elements())
        {
            switch (child.Name.LocalName)
            {
                case "attributes":
                    Attributes(child, raw, at);
                    break;
                case "backup":
                    at = Rational.Max(Rational.Zero, at - Duration(child));
                    break;
                case "forward":
                    at += Duration(child);
                    break;
                case "note":
                    if (++count > MostNotes)
                        throw new UnreadableScoreException($"it has more than {MostNotes} notes");
                    var length = child.Element("grace") is null ? Duration(child) : Rational.Zero;
                    var start = child.Element("chord") is null ? at : chordAt;
                    if (notes.Read(child, raw, start, length, divisions) is { } note)
                    {
                        foreach (var (_, mark) in pending.Where(p => p.At == start))
                            note.Marks.Add(mark);
                        pending.RemoveAll(p => p.At == start);
                        if (words.RemoveAll(w => w.At == start && !w.Below && !note.Marks.Any(m => m.Word[0] == '"') && LessonWriter.Remark(w.Text) is { } remark && Mark(note, remark)) > 0)
                            chordAt = start;
                    }
                    if (child.Element("chord") is null && child.Element("grace") is null)
                        (chordAt, at) = (at, at + length);
                    break;
                case "harmony":
                    Harmony(child, raw, at);
                    break;
                case "direction":
                    Direction(child, raw, at, words, pending);
                    break;
                case "sound":
                    Sound(child, "", raw, at);
                    break;
                case "barline":
                    BarLine(child, raw);
                    break;
                case "figured-bass":
                    raw.Lose("figured bass is not carried.");
                    break;
            }
            raw.Reached = Rational.Max(raw.Reached, at);
            if (raw.Reached > Rational.Of(32))
                throw new UnreadableScoreException($"bar {Measures.Count + 1} of it is longer than 32 whole notes");
        }
        notes.EndMeasure(raw);
        raw.Prose.AddRange(words.Select(w => w.Text));
        foreach (var (when, mark) in pending)
            if (raw.Notes.Where(n => n.At >= when).MinBy(n => n.At) is { } next)
                next.Marks.Add(mark);
            else
                raw.Lose($"{mark} stands where no note begins, so it is not carried.");
        return raw;

        static bool Mark(RawNote note, string remark)
        {
            note.Marks.Add(new(remark));
            return true;
        }
    }

    // Thousandths of a division, so that decimals stay exact enough and sums stay bounded.
    private Rational Duration(XElement element) =>
        decimal.TryParse(element.Element("duration")?.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var d) && d > 0 && d <= 100_000_000
            ? Grid(Rational.Of((long)Math.Round(d * 1000), 4000 * divisions)) : Rational.Zero;

    // What no count can say is brought to the nearest 1920th of a whole note.
    internal static Rational Grid(Rational time) => time.Denominator <= 3360 ? time : Rational.Of((long)Math.Round(time.Value * 1920), 1920);

    private void Attributes(XElement element, RawMeasure raw, Rational at)
    {
        if (decimal.TryParse(element.Element("divisions")?.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var d) && d >= 1 && d <= 1_000_000)
            divisions = (long)Math.Round(d);
        if (element.Element("transpose") is { } transpose)
            transposition = (Whole(transpose.Element("diatonic")) + 7 * Whole(transpose.Element("octave-change")),
                Whole(transpose.Element("chromatic")) + 12 * Whole(transpose.Element("octave-change")));
        if (element.Element("key") is { } key && int.TryParse(key.Element("fifths")?.Value, out var fifths) && fifths is >= -7 and <= 7)
        {
            var tonic = Transposed(PitchName.FromFifths(fifths));
            var moved = Key.Of(tonic, Mode.Major).Fifths;
            var found = key.Element("mode")?.Value.Trim() is { } mode && Enum.TryParse<Mode>(mode, true, out var m) && char.IsAsciiLetter(mode[0])
                ? Key.Of(PitchName.FromFifths(moved + Key.Of(new(Letter.C, 0), m).Fifths * -1), m) : Key.Signature(moved);
            // A score without a key is written in no sharps: that says nothing.
            if (found.Fifths is >= -7 and <= 7 && !(found.Tonic is null && found.Fifths == 0 && Measures.Count == 0))
                raw.Key = found;
        }
        if (element.Element("time") is { } time)
            Time(time, raw, at);
        foreach (var clef in element.Elements("clef"))
            if (clef.Element("sign")?.Value.Trim() == "TAB")
                TabStaves.Add((int?)Int((string?)clef.Attribute("number")) ?? 1);
        foreach (var details in element.Elements("staff-details"))
            Strings(details, raw);
    }

    private void Time(XElement time, RawMeasure raw, Rational at)
    {
        free = time.Element("senza-misura") is not null;
        raw.Free = free;
        var beats = time.Elements("beats").Zip(time.Elements("beat-type")).Select(p => (Sum: p.First.Value.Split('+').Sum(x => Int(x) ?? 0), Unit: Int(p.Second.Value) ?? 0)).ToList();
        if (free || beats.Count == 0 || beats.Any(b => b.Sum < 1 || b.Unit is not (1 or 2 or 4 or 8 or 16 or 32)))
            return;
        if (at > Rational.Zero)
            raw.Lose("the meter changes inside the bar: it is taken from the next bar on.");
        var length = beats.Select(b => Rational.Of(b.Sum, b.Unit)).Aggregate((a, b) => a + b);
        if (MeterOf(length, beats.Max(b => b.Unit)) is { } found)
            meter = found;
        else
            raw.Lose("the meter cannot be said.");
        if (at == Rational.Zero)
            raw.Meter = meter;
    }

    /// <summary>A meter of a length, in the unit asked for or the nearest finer one; null where there is none.</summary>
    internal static Meter? MeterOf(Rational length, int unit)
    {
        for (var u = Math.Clamp(unit, 2, 16); u <= 16; u *= 2)
            if (length * Rational.Of(u) is { IsWhole: true, Numerator: >= 1 and <= 32 } counts)
                return new((int)counts.Numerator, u);
        return null;
    }

    private void Strings(XElement details, RawMeasure raw)
    {
        var open = details.Elements("staff-tuning").Select(t => (Line: Int((string?)t.Attribute("line")) ?? 0,
            Pitch: NoteReader.Pitch(t.Element("tuning-step")?.Value, t.Element("tuning-alter")?.Value, t.Element("tuning-octave")?.Value))).OrderBy(t => t.Line).ToList();
        if (open.Count is >= 4 and <= 9 && open.All(t => t.Pitch is not null))
        {
            var tuning = new Tuning([.. open.Select(t => t.Pitch!.Value)]);
            if (Tuning is not null && Tuning != tuning)
                raw.Lose("the tuning changes here: the first one is kept.");
            Tuning ??= tuning;
        }
        else if (open.Count > 0)
            raw.Lose("its tuning has fewer than 4 or more than 9 strings, or strings without a pitch: it is not carried.");
        if (Int(details.Element("capo")?.Value) is >= 0 and <= 24 and var fret)
            Capo = fret;
    }

    private void Harmony(XElement element, RawMeasure raw, Rational at)
    {
        var offset = decimal.TryParse(element.Element("offset")?.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var d) && Math.Abs(d) <= 100_000_000
            ? Grid(Rational.Of((long)Math.Round(d * 1000), 4000 * divisions)) : Rational.Zero;
        var reading = HarmonyReader.Of(element, Transposed);
        if (!reading.Known)
            raw.Lose($"a chord ({LessonWriter.Line((string?)element.Element("kind")?.Attribute("text") ?? element.Element("kind")?.Value ?? "without a kind")}) cannot be said as a symbol.");
        else
            raw.Chords.Add((Rational.Max(Rational.Zero, at + offset), reading.Symbol));
        if (element.Element("frame") is not null)
            raw.Lose("a chord diagram is not carried.");
    }

    private static void Direction(XElement element, RawMeasure raw, Rational at, List<(Rational, string, bool)> words, List<(Rational, ScoreMark)> pending)
    {
        var below = (string?)element.Attribute("placement") == "below";
        var said = "";
        foreach (var type in element.Elements("direction-type").Elements())
            switch (type.Name.LocalName)
            {
                case "rehearsal":
                    raw.Section ??= LessonWriter.Line(type.Value);
                    break;
                case "words":
                    said += (said.Length > 0 ? " " : "") + LessonWriter.Line(type.Value);
                    break;
                case "metronome":
                    Metronome(type, raw, at);
                    break;
                case "dynamics":
                    foreach (var loud in type.Elements())
                        NoteReader.Loudness(loud.Name.LocalName, raw, m => pending.Add((at, m)));
                    break;
                case "segno" or "coda":
                    raw.Before.Add(type.Name.LocalName);
                    break;
                case "wedge":
                    raw.Lose("growing or fading loudness is not carried.");
                    break;
                case "pedal" or "harp-pedals" or "accordion-registration" or "percussion" or "scordatura" or "string-mute":
                    raw.Lose($"{type.Name.LocalName.Replace('-', ' ')} is not carried.");
                    break;
            }
        var leaps = Sound(element.Element("sound"), said, raw, at);
        if (said.Length == 0 || leaps || Leap(said, raw))
            return;
        if (RubatoWords().Match(said) is { Success: true } rubato)
            raw.Tempo = rubato.Groups["n"].Success ? $"rubato around {rubato.Groups["n"].Value}" : "rubato";
        else if (!below && at == Rational.Zero && FeelWords().IsMatch(said))
            raw.Feel = said.ToLowerInvariant();
        else if (below && said.StartsWith("is ", StringComparison.Ordinal) && Theory.Chords.ChordReader.Read(said[3..]).Chord is not null)
            pending.Add((at, new("is", said[3..])));
        else
            words.Add((at, said, below));
    }

    // Tempo and leaps of a sound element; true where it leaps.
    private static bool Sound(XElement? sound, string said, RawMeasure raw, Rational at)
    {
        if (sound is null)
            return false;
        if (raw.Tempo is null && double.TryParse((string?)sound.Attribute("tempo"), NumberStyles.Float, CultureInfo.InvariantCulture, out var quarters))
            Tempo(quarters, raw, at);
        var back = sound.Attribute("dacapo") is not null ? "da capo" : sound.Attribute("dalsegno") is not null ? "dal segno" : null;
        if (back is not null)
            raw.After.Add(back + (said.Contains("fine", StringComparison.OrdinalIgnoreCase) ? " al fine" : said.Contains("coda", StringComparison.OrdinalIgnoreCase) ? " al coda" : ""));
        else if (sound.Attribute("fine") is not null)
            raw.After.Add("fine");
        else if (sound.Attribute("tocoda") is not null)
            raw.After.Add("to coda");
        return back is not null || sound.Attribute("fine") is not null || sound.Attribute("tocoda") is not null;
    }

    // Words of the trade that leap without saying so in a sound element.
    private static bool Leap(string said, RawMeasure raw)
    {
        if (LeapWords().Match(said) is not { Success: true } m)
            return false;
        raw.After.Add(m.Groups["fine"].Success ? "fine" : m.Groups["to"].Success ? "to coda"
            : (m.Groups["segno"].Success ? "dal segno" : "da capo") + (m.Groups["al"].Success ? $" al {m.Groups["al"].Value.ToLowerInvariant()}" : ""));
        return true;
    }

    private static void Metronome(XElement metronome, RawMeasure raw, Rational at)
    {
        var unit = metronome.Element("beat-unit")?.Value.Trim() switch { "whole" => 4.0, "half" => 2, "quarter" => 1, "eighth" => 0.5, "16th" => 0.25, _ => 0 };
        if (metronome.Element("beat-unit-dot") is not null)
            unit *= 1.5;
        if (unit > 0 && double.TryParse(metronome.Element("per-minute")?.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var perMinute))
            Tempo(perMinute * unit, raw, at);
        else
            raw.Lose("a metronome mark cannot be read, so it is not carried.");
    }

    private static void Tempo(double quarters, RawMeasure raw, Rational at)
    {
        var beats = Math.Round(quarters / (4 * raw.Meter.Beat.Value), 1);
        if (beats is < 1 or > 999)
            return;
        if (at > Rational.Zero)
            raw.Lose("the tempo changes inside the bar, which is not carried.");
        else
            raw.Tempo = beats.ToString(CultureInfo.InvariantCulture);
    }

    private static void BarLine(XElement line, RawMeasure raw)
    {
        if (line.Element("repeat") is { } repeat)
            if ((string?)repeat.Attribute("direction") == "forward")
                raw.Forward = true;
            else
                raw.Backward = Int((string?)repeat.Attribute("times")) is >= 2 and <= 99 and var times ? times : 0;
        if (line.Element("ending") is { } ending)
            if ((string?)ending.Attribute("type") == "start")
                raw.Ending = [.. ((string?)ending.Attribute("number") ?? "").Split(',', StringSplitOptions.TrimEntries).Select(n => Int(n) ?? 0).Where(n => n is >= 1 and <= 20).Distinct().Order()];
            else
                raw.EndingStops = true;
        if (line.Element("segno") is not null)
            raw.Before.Add("segno");
        if (line.Element("coda") is not null)
            raw.Before.Add("coda");
    }

    private Pitch Transposed(Pitch pitch)
    {
        if (transposition == (0, 0))
            return pitch;
        var midi = pitch.Midi + transposition.Semitones;
        var name = Transposed(pitch.Name);
        return Pitch.Of(midi, name);
    }

    private PitchName Transposed(PitchName name)
    {
        if (transposition == (0, 0))
            return name;
        // Where the steps are not said, the plainest name near the old one stands for them.
        var moved = transposition.Steps == 0 && transposition.Semitones % 12 != 0 ? PitchName.Nearest(name.PitchClass + transposition.Semitones, name.Fifths)
            : name.Up(((transposition.Steps % 7) + 7) % 7, ((transposition.Semitones % 12) + 12) % 12);
        return Math.Abs(moved.Alteration) > 3 ? PitchName.Nearest(name.PitchClass + transposition.Semitones, 2) : moved;
    }

    internal static int? Int(string? text) => int.TryParse(text?.Trim(), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var n) ? n : null;

    private static int Whole(XElement? element) => Math.Clamp(Int(element?.Value) ?? 0, -48, 48);

    [GeneratedRegex("^rubato(, around (?<n>[0-9]+(\\.[0-9]+)?))?$", RegexOptions.IgnoreCase)]
    private static partial Regex RubatoWords();

    [GeneratedRegex("^(swing|straight|even|shuffle|latin|bossa|bossa nova|samba|waltz|ballad|jazz waltz|medium swing|slow swing)( feel| eighths)?$", RegexOptions.IgnoreCase)]
    private static partial Regex FeelWords();

    [GeneratedRegex("^((?<fine>fine)|(?<to>to coda)|(d\\. ?c\\.|da capo|(?<segno>d\\. ?s\\.|dal segno))( al (?<al>fine|coda))?)$", RegexOptions.IgnoreCase)]
    private static partial Regex LeapWords();
}
