// One note element: pitch, place on the neck, and its marks in the words of our notation.
using System.Globalization;
using System.Xml.Linq;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Scores;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.MusicXml;

/// <summary>Reads notes, in the order of the document.</summary>
internal sealed class NoteReader(Func<Pitch, Pitch> transpose)
{
    private readonly Dictionary<int, List<ScoreMark>> graces = [];
    private readonly HashSet<(int Source, string Slur)> slurs = [];

    /// <summary>Adds a note to its measure; null where the element is no sounding note.</summary>
    public RawNote? Read(XElement note, RawMeasure raw, Rational at, Rational length, long divisions)
    {
        var staff = Math.Clamp(PartReader.Int(note.Element("staff")?.Value) ?? 1, 1, 99);
        var source = staff * 1000 + Voice(note.Element("voice")?.Value);
        if (note.Element("lyric") is not null)
            raw.Lose("sung words are not carried.");
        if (note.Element("rest") is not null)
            return null;
        if (note.Element("cue") is not null || note.Element("unpitched") is not null)
        {
            raw.Lose(note.Element("cue") is not null ? "cue notes are not carried." : "notes without a pitch are not carried.");
            return null;
        }
        var p = note.Element("pitch");
        if (p is not null && PartReader.Int(p.Element("alter")?.Value) is null && p.Element("alter") is not null)
            raw.Lose("a quarter tone is brought to the nearest semitone.");
        if (Pitch(p?.Element("step")?.Value, p?.Element("alter")?.Value, p?.Element("octave")?.Value) is not { } written || transpose(written) is not { Octave: >= 0 and <= 9, Midi: >= 0 and <= 127 } pitch)
        {
            raw.Lose("a note has no pitch that can be read, or one out of all hearing: it is not carried.");
            return null;
        }
        var technical = note.Elements("notations").Elements("technical").Elements().ToLookup(t => t.Name.LocalName);
        int? guitar = PartReader.Int(technical["string"].FirstOrDefault()?.Value) is >= 1 and <= 9 and var s ? s : null;
        int? fret = PartReader.Int(technical["fret"].FirstOrDefault()?.Value) is >= 0 and <= 36 and var f ? f : null;
        if (note.Element("grace") is not null)
        {
            if (!graces.TryGetValue(source, out var list))
                graces[source] = list = [];
            list.Add(new("grace", pitch + (guitar is { } on ? $"@{on}" : "")));
            return null;
        }
        if (length <= Rational.Zero)
            return null;
        var result = new RawNote { At = at, Length = length, Pitch = pitch, Staff = staff, Source = source, String = guitar, Fret = fret };
        if (graces.Remove(source, out var before))
            result.Marks.AddRange(before);
        result.TieStart = note.Elements("tie").Any(t => (string?)t.Attribute("type") == "start");
        result.TieStop = note.Elements("tie").Any(t => (string?)t.Attribute("type") == "stop");
        result.Dead = note.Element("notehead")?.Value.Trim() == "x";
        if (note.Descendants("mute").Any(m => m.Value.Trim() == "palm"))
            result.Marks.Add(new("palm-mute"));
        var open = slurs.Any(x => x.Source == source) && note.Element("chord") is null;
        foreach (var notation in note.Elements("notations").Elements())
            Notation(notation, result, raw, ref open);
        if (open && !result.TieStop && !result.Marks.Contains(new("slur")))
            result.Marks.Add(new("slur"));
        // How much longer or shorter it sounds than its value (MusicXML 4.0, release). Small differences are a way of playing, not a ring.
        if (double.TryParse((string?)note.Attribute("release"), NumberStyles.Float, CultureInfo.InvariantCulture, out var release) && Math.Abs(release) is > 0 and < 1e9
            && PartReader.Grid(Rational.Of((long)Math.Round(release * 1000), 4000 * divisions)) is var beyond && (release > 0 && result.Ring.Rings || release < 0 && beyond <= Rational.Of(-1, 16) && beyond.Denominator <= 48))
            result.Ring = (true, beyond);
        raw.Notes.Add(result);
        return result;
    }

    /// <summary>What is left over at the end of a measure.</summary>
    public void EndMeasure(RawMeasure raw)
    {
        // A grace note at the end of a bar belongs to the first note of the next.
        if (graces.Values.Sum(g => g.Count) > 32)
        {
            raw.Lose("grace notes before no note are not carried.");
            graces.Clear();
        }
    }

    /// <summary>A loudness as a mark; those that our notation has no word for come to the nearest.</summary>
    public static void Loudness(string loud, RawMeasure raw, Action<ScoreMark> add)
    {
        if (loud is "p" or "mp" or "mf" or "f")
        {
            add(new(loud));
            return;
        }
        var near = loud.Length > 1 && loud.All(c => c == 'p') ? "p" : loud.Length > 1 && loud.All(c => c == 'f') ? "f" : null;
        raw.Lose(near is null ? $"the loudness {LessonWriter.Line(loud)} is not carried." : $"the loudness {loud} becomes {near}.");
        if (near is not null)
            add(new(near));
    }

    /// <summary>A pitch as the file writes it, or null.</summary>
    public static Pitch? Pitch(string? step, string? alter, string? octave)
    {
        var by = double.TryParse(alter, NumberStyles.Float, CultureInfo.InvariantCulture, out var a) && Math.Abs(a) <= 3 ? (int)Math.Round(a) : 0;
        return step?.Trim() is [>= 'A' and <= 'G' and var letter] && PartReader.Int(octave) is >= -1 and <= 9 and var o ? new(new(Enum.Parse<Letter>(letter.ToString()), by), o) : null;
    }

    private static int Voice(string? voice) => PartReader.Int(voice) is >= 0 and <= 99 and var n ? n : string.IsNullOrEmpty(voice) ? 1 : 100 + (voice.Aggregate(7, (h, c) => (h * 31 + c) & 0x3FF) % 800);

    private void Notation(XElement notation, RawNote note, RawMeasure raw, ref bool slurred)
    {
        var type = (string?)notation.Attribute("type");
        switch (notation.Name.LocalName)
        {
            case "tied" when type == "let-ring":
                note.Ring = (true, null);
                break;
            case "tied":
                note.TieStart |= type == "start";
                note.TieStop |= type == "stop";
                break;
            case "slur" when type == "start":
                slurs.Add((note.Source, (string?)notation.Attribute("number") ?? "1"));
                break;
            case "slur" when type == "stop" && slurs.Remove((note.Source, (string?)notation.Attribute("number") ?? "1")):
                note.Marks.Add(new("slur"));
                slurred = false;
                break;
            case "slide" or "glissando" when type == "stop":
                note.Marks.Add(new("slide"));
                break;
            case "arpeggiate":
                note.Marks.Add(new("roll"));
                break;
            case "fermata":
                note.Marks.Add(new("fermata"));
                break;
            case "dynamics":
                foreach (var loud in notation.Elements())
                    Loudness(loud.Name.LocalName, raw, note.Marks.Add);
                break;
            case "articulations" or "ornaments" or "technical":
                foreach (var sign in notation.Elements())
                    Sign(sign, note, raw);
                break;
        }
    }

    private static void Sign(XElement sign, RawNote note, RawMeasure raw)
    {
        var type = (string?)sign.Attribute("type");
        switch (sign.Name.LocalName)
        {
            case "string" or "fret" or "open-string" or "accidental-mark" or "down-bow" or "up-bow":
                break;
            case "accent" or "strong-accent":
                note.Marks.Add(new("accent"));
                break;
            case "staccato" or "staccatissimo":
                note.Marks.Add(new("short"));
                break;
            case "scoop":
                note.Marks.Add(new("slide", "from below"));
                break;
            case "plop":
                note.Marks.Add(new("slide", "from above"));
                break;
            case "wavy-line":
                if (type is "start" or null)
                    note.Marks.Add(new("vibrato"));
                break;
            case "hammer-on" or "pull-off":
                if (type == "stop")
                    note.Marks.Add(new(sign.Name.LocalName == "hammer-on" ? "hammer" : "pull"));
                break;
            case "fingering":
                if (sign.Value.Trim().ToUpperInvariant() is "0" or "1" or "2" or "3" or "4" or "T")
                    note.Finger = sign.Value.Trim().ToUpperInvariant();
                else
                    raw.Lose($"the fingering {LessonWriter.Line(sign.Value)} cannot be said.");
                break;
            case "pluck":
                if (sign.Value.Trim().ToLowerInvariant() is { Length: > 0 } pluck && pluck.Split('-').All(p => p is "p" or "i" or "m" or "a" or "c"))
                    note.Marks.Add(new("pluck", pluck));
                else
                    raw.Lose($"the right-hand finger {LessonWriter.Line(sign.Value)} cannot be said.");
                break;
            case "harmonic":
                note.Harmonic = true;
                if (sign.Element("artificial") is not null)
                    raw.Lose("a harmonic is written as one of the open string.");
                break;
            case "bend":
                if (double.TryParse(sign.Element("bend-alter")?.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var by) && by is >= 0.5 and <= 12)
                    note.Bend = Math.Max(note.Bend ?? 0, by);
                if (sign.Element("pre-bend") is not null || sign.Element("release") is not null)
                    raw.Lose("how a bend begins or is let go is not carried.");
                break;
            default:
                raw.Lose($"{sign.Name.LocalName.Replace('-', ' ')} is not carried.");
                break;
        }
    }
}
