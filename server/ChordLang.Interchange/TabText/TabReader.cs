// Typed tablature as a score: frets on their strings, counts from the line below or from the spacing, one finding a bar for what was guessed.
using System.Text.RegularExpressions;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Necks;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Scores;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.TabText;

/// <summary>Reads tablature as people paste it: uneven columns, bar lines left out, letters between the numbers, chord names above, counts below.</summary>
public sealed partial class TabReader
{
    private const int MostBars = 2_000;

    private readonly List<Loss> losses = [];
    private readonly List<ScoreBar> bars = [];
    private readonly List<SoundedNote> notes = [];
    private readonly List<string> prose = [];
    private Meter meter = new(4, 4);
    private bool meterGiven;
    private int capo;
    private string? title, by, tempo, section;
    private Rational from = Rational.Zero;

    private TabReader()
    {
    }

    /// <summary>The score of a text.</summary>
    /// <exception cref="UnreadableScoreException">There is no tablature in it.</exception>
    public static Imported Read(string text)
    {
        var reader = new TabReader();
        reader.All(text);
        return new(reader.score!, [.. reader.losses.OrderBy(l => l.Bar ?? -1)]);
    }

    private Score? score;

    private void All(string text)
    {
        // A blank of any other kind parts words as well.
        var plain = string.Concat(text.Replace("\r\n", "\n", StringComparison.Ordinal).Replace('\r', '\n').Select(c => char.IsWhiteSpace(c) && c is not ('\n' or '\t') ? ' ' : c));
        var (systems, rest) = TabLines.Of(plain.Split('\n'));
        if (systems.Count == 0)
            throw new UnreadableScoreException("no tablature is in it: four or more lines of dashes and frets that follow each other");
        var strings = systems.GroupBy(s => s.Strings.Length).MaxBy(g => g.Count())!.Key;
        var tuning = TuningOf(systems.First(s => s.Strings.Length == strings).Labels, strings);
        foreach (var system in systems)
        {
            Words(system.Words);
            if (system.Strings.Length != strings)
                losses.Add(new(bars.Count + 1, $"the lines from line {system.Line} on are {system.Strings.Length} strings, not {strings}: they are not carried."));
            else
                foreach (var bar in TabBars.Of(system))
                    Bar(bar, new(tuning, 36, Neck.Standard.ScaleLength, capo));
        }
        Words(rest);
        if (!meterGiven)
            losses.Add(new(null, $"no meter is written: {meter} is a guess."));
        var highest = notes.Select(n => n.Fret ?? 0).DefaultIfEmpty(0).Max();
        score = new()
        {
            Title = title, By = by, Tuning = tuning, Capo = capo, Prose = [.. prose],
            Frets = highest > Neck.Standard.Frets - capo ? Math.Min(36, highest + capo) : null,
            Bars = [.. Lanes.Fill(bars, notes, losses).Select(b => b.Voices.IsEmpty && notes.Count > 0 ? b with { Voices = [new(null, [])] } : b)],
        };
    }

    // What stands between the systems: a title first, then sections, meters, capo; all else is teaching text.
    private void Words(List<string> lines)
    {
        foreach (var raw in lines)
        {
            var line = LessonWriter.Line(raw);
            if (SectionWords().Match(line) is { Success: true } s)
                section = s.Groups["name"].Value.Trim();
            else if (MeterWords().Match(line) is { Success: true } m && PartMeter(m) is { } found)
            {
                (meter, meterGiven) = (found, true);
                if (m.Groups["tempo"].Success)
                    tempo = (m.Groups["free"].Success ? "rubato around " : "") + m.Groups["tempo"].Value;
            }
            else if (bars.Count == 0 && PickupWords().Match(line) is { Success: true } p && CountOf(p.Groups["count"].Value) is { } begins)
                from = begins;
            else if (CapoWords().Match(line) is { Success: true } c && int.TryParse(c.Groups["fret"].Value, out var fret) && fret <= 24)
                capo = fret;
            else if (bars.Count == 0 && OrderWords().IsMatch(line))
                prose.Add(line);
            else if (bars.Count == 0 && title is null && line.Length <= 120)
                (title, by) = line.LastIndexOf(", ", StringComparison.Ordinal) is > 0 and var cut ? (line[..cut], line[(cut + 2)..]) : (line, null);
            else if (bars.Count == 0)
                prose.Add(line);
            else
                bars[^1] = bars[^1] with { Prose = bars[^1].Prose.Add(line) };
        }
    }

    private static Meter? PartMeter(Match m) =>
        int.TryParse(m.Groups["counts"].Value, out var counts) && int.TryParse(m.Groups["unit"].Value, out var unit) && counts is >= 1 and <= 32 && unit is 2 or 4 or 8 or 16 ? new(counts, unit) : null;

    private void Bar(TabBar tab, Neck neck)
    {
        if (bars.Count >= MostBars)
            throw new UnreadableScoreException($"it has more than {MostBars} bars");
        var pickup = bars.Count == 0 ? from : Rational.Zero;
        var number = bars.Count + (from > Rational.Zero ? 0 : 1);
        var places = TabRhythm.Of(tab, meter.Counts);
        if (places.Counts > meter.Counts && !meterGiven)
            (meter, meterGiven) = (new(places.Counts, meter.Unit), true);
        var bar = new ScoreBar
        {
            Number = number, Meter = meter, Start = bars.Count == 0 ? Rational.Zero : bars[^1].End, From = pickup < meter.Counts ? pickup : Rational.Zero, Section = section, Tempo = tempo,
            Before = tab.Repeats ? ["repeat 2"] : [], After = tab.RepeatEnds ? ["end"] : [],
            Chords = [.. tab.Chords.Select(c => (Offset: places.Of(c.Column, true), Symbol: c.Symbol is "N.C." or "NC" ? null : c.Symbol)).Where(c => c.Offset < meter.Counts && c.Symbol != "%").GroupBy(c => c.Offset).Select(g => g.First())],
        };
        section = null;
        var columns = tab.Signs.Select(s => s.Column).Distinct().Select(c => (Column: c, At: places.Of(c, false))).OrderBy(c => c.At).ToList();
        foreach (var (guitar, sign, column) in tab.Signs)
        {
            var onset = bar.TimeOf(places.Of(column, false));
            var later = columns.Where(c => bar.TimeOf(c.At) > onset).Select(c => bar.TimeOf(c.At)).DefaultIfEmpty(bar.End).Min();
            var fret = Math.Min(sign.Fret ?? 0, neck.HighestFret);
            var note = new SoundedNote { Onset = onset, End = later, Pitch = Pitch.Nearest(Sounds(neck, guitar, fret, sign.Harmonic)), Source = 0, String = guitar, Fret = fret, Dead = sign.Fret is null, Harmonic = sign.Harmonic };
            note.Marks.AddRange(sign.Marks);
            if (sign.Bend > 0)
                note.Own.Add(sign.Bend switch { 1 => new("bend", "half"), 2 => new("bend", "full"), _ => new("bend", "to " + Pitch.Nearest(note.Pitch.Midi + sign.Bend)) });
            notes.Add(note);
        }
        var guessed = tab.Guesses.Concat(places.Guess is { } guess ? [guess] : []).ToList();
        if (guessed.Count > 0)
            losses.Add(new(number, string.Join("; ", guessed) + "."));
        bars.Add(bar);
    }

    // A harmonic is told by where the string is touched; what sounds the binder works out again from the fret.
    private static int Sounds(Neck neck, int guitar, int fret, bool harmonic) => neck.Midi(guitar, harmonic ? 12 : fret);

    // Labels name no octave: each string takes the one nearest to where the standard tuning has it.
    private static Tuning TuningOf(string?[] labels, int strings)
    {
        var usual = Tuning.Standard.Open.Reverse().ToList();
        while (usual.Count < strings)
            usual.Add(Pitch.Nearest(usual[^1].Midi - 5));
        var open = new List<Pitch>();
        for (var i = 0; i < strings; i++)
        {
            var name = labels[i] is { } label && PitchName.TryParse(char.ToUpperInvariant(label[0]) + label[1..], out var read) ? read : usual[i].Name;
            var octave = Enumerable.Range(0, 7).MinBy(o => Math.Abs(new Pitch(name, o).Midi - usual[i].Midi));
            open.Add(new(name, octave));
        }
        open.Reverse();
        return new([.. open]);
    }

    private static Rational? CountOf(string text) =>
        SyntaxTree.Parse($"pickup from {text}").Lines[0] is FormLine { Count: { } count } ? count.Offset : null;

    [GeneratedRegex("^(Play|then) bars [0-9]")]
    private static partial Regex OrderWords();

    [GeneratedRegex(@"^pickup from count (?<count>[0-9][0-9a-z&+/]*)\.?$", RegexOptions.IgnoreCase)]
    private static partial Regex PickupWords();

    [GeneratedRegex(@"^[\[(](?<name>[^\]\)]+)[\])]:?$")]
    private static partial Regex SectionWords();

    [GeneratedRegex(@"^(?<counts>\d{1,2})/(?<unit>\d{1,2})(,? (?<free>free time, around |rubato, around )?(?<tempo>\d{1,3}(\.\d+)?) ?(beats a minute|bpm))?\.?$", RegexOptions.IgnoreCase)]
    private static partial Regex MeterWords();

    [GeneratedRegex(@"^capo\b\D*(?<fret>\d{1,2})", RegexOptions.IgnoreCase)]
    private static partial Regex CapoWords();
}
