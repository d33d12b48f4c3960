// Reads MusicXML, partwise or timewise, plain or compressed, into a score that our notation can say.
using System.Collections.Immutable;
using System.Xml.Linq;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Necks;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Scores;

namespace ChordLang.Interchange.MusicXml;

/// <summary>Reads MusicXML (4.0 and what came before it, which it contains).</summary>
public static class ScoreReader
{
    /// <summary>The score of a file.</summary>
    /// <param name="bytes">The file, .musicxml or .mxl.</param>
    /// <param name="part">Which part, from 1; null for the first with a tablature or strings, else the first with notes.</param>
    /// <exception cref="UnreadableScoreException">It is no score, or not one that is safe to read.</exception>
    public static Imported Read(byte[] bytes, int? part = null)
    {
        var root = SafeXml.Read(CompressedScore.Is(bytes) ? CompressedScore.Unpack(bytes) : bytes);
        var parts = root.Name.LocalName switch
        {
            "score-partwise" => root.Elements("part").Select(p => (Id: (string?)p.Attribute("id"), Measures: p.Elements("measure").ToList())).ToList(),
            "score-timewise" => Timewise(root),
            var other => throw new UnreadableScoreException($"its first element is {LessonWriter.Line(other)}, not score-partwise or score-timewise, so it is no MusicXML score"),
        };
        if (parts.Count == 0)
            throw new UnreadableScoreException("it holds no part");
        if (part > parts.Count || part < 1)
            throw new UnreadableScoreException($"it has {parts.Count} parts, and no number {part}");
        var chosen = part - 1 ?? Enumerable.Range(0, parts.Count).MaxBy(i => (OnStrings(parts[i].Measures) ? 2 : 0) + (parts[i].Measures.SelectMany(m => m.Elements("note")).Any(n => n.Element("pitch") is not null) ? 1 : 0));
        var losses = new List<Loss>();
        for (var i = 0; i < parts.Count; i++)
            if (i != chosen && parts[i].Measures.SelectMany(m => m.Elements("note")).Any(n => n.Element("rest") is null))
                losses.Add(new(null, $"part {i + 1} ({Name(root, parts[i].Id)}) is not carried: an arrangement is one guitar. --part {i + 1} takes it instead."));
        var reader = new PartReader();
        reader.Read(parts[chosen].Measures);
        return Assemble(root, reader, losses);
    }

    private static Imported Assemble(XElement root, PartReader reader, List<Loss> losses)
    {
        var measures = FormReading.Of(reader.Measures);
        var bars = Bars(measures, losses);
        var tuning = reader.Tuning ?? Tuning.Standard;
        var notes = NeckNotes.Of(measures, bars, reader.TabStaves, tuning, reader.Capo, losses);
        var filled = Lanes.Fill(bars, notes, losses);
        var highest = notes.Select(n => n.Fret ?? 0).DefaultIfEmpty(0).Max();
        var score = new Score
        {
            Title = Text(root.Element("work")?.Element("work-title")) ?? Text(root.Element("movement-title")),
            By = root.Element("identification")?.Elements("creator").OrderBy(c => (string?)c.Attribute("type") == "arranger" ? 0 : 1).Select(Text).FirstOrDefault(t => t is not null),
            Prose = [.. Credits(root)], Tuning = tuning, Capo = reader.Capo, Frets = highest > Neck.Standard.Frets - reader.Capo ? Math.Min(36, highest + reader.Capo) : null,
            Bars = Silent(filled, notes.Count > 0),
        };
        return new(score, [.. losses.OrderBy(l => l.Bar ?? -1)]);
    }

    private static List<ScoreBar> Bars(List<RawMeasure> measures, List<Loss> losses)
    {
        var bars = new List<ScoreBar>();
        var at = Rational.Zero;
        var pickup = 0;
        for (var i = 0; i < measures.Count; i++)
        {
            var m = measures[i];
            var (meter, from) = (m.Meter, Rational.Zero);
            var reached = m.Reached;
            if (i == 0 && reached > Rational.Zero && reached < meter.Length && (m.Implicit || measures.Count > 1))
            {
                // A bar too short or too long for that by a hair is whole.
                if (NeckNotes.Countable((meter.Length - reached) / meter.Count) is var late && late > Rational.Zero && late < Rational.Of(meter.Counts))
                    (from, pickup) = (late, 1);
            }
            else if (reached > meter.Length || reached > Rational.Zero && reached < meter.Length && (m.Implicit || m.Free))
            {
                if (PartReader.MeterOf(reached, meter.Unit) is { } own)
                    meter = own;
                else if (PartReader.MeterOf(Rational.Of((long)Math.Ceiling(reached.Value * 16), 16), meter.Unit) is { } longer)
                {
                    meter = longer;
                    m.Lose($"its length cannot be said: it is written in {longer}.");
                }
            }
            var number = i + 1 - pickup;
            bars.Add(new()
            {
                Number = number, Meter = meter, Start = at, From = from, Key = m.Key, Tempo = m.Tempo, Feel = m.Feel, Section = m.Section,
                Before = [.. m.Before], After = [.. m.After], Prose = [.. m.Prose], Chords = Chords(m, meter, from),
            });
            losses.AddRange(m.Losses.Select(l => new Loss(number, l)));
            at = bars[^1].End;
        }
        // Two sections of one name would be a finding.
        var names = new Dictionary<string, int>(StringComparer.Ordinal);
        return [.. bars.Select(b => b.Section is { } name && (names[name] = names.GetValueOrDefault(name) + 1) > 1 ? b with { Section = $"{name} {names[name]}" } : b)];
    }

    private static ImmutableArray<(Rational, string?)> Chords(RawMeasure m, Meter meter, Rational from)
    {
        var chords = new List<(Rational Offset, string? Symbol)>();
        foreach (var (at, symbol) in m.Chords.OrderBy(c => c.At))
        {
            var offset = NeckNotes.Countable(from + at / meter.Count);
            if (offset >= Rational.Of(meter.Counts) || chords.Any(c => c.Offset == offset))
                m.Lose($"a chord ({symbol ?? "N.C."}) stands outside the bar or on the place of another, so it is not carried.");
            else
                chords.Add((offset, symbol));
        }
        return [.. chords];
    }

    // A bar without a note in a piece that has some is a silence, and says so.
    private static ImmutableArray<ScoreBar> Silent(ImmutableArray<ScoreBar> bars, bool music) =>
        !music ? bars : [.. bars.Select(b => b.Voices.IsEmpty ? b with { Voices = [new(bars.SelectMany(x => x.Voices).FirstOrDefault()?.Label, [])] } : b)];

    private static List<(string? Id, List<XElement> Measures)> Timewise(XElement root)
    {
        var parts = new List<(string? Id, List<XElement> Measures)>();
        foreach (var measure in root.Elements("measure"))
            foreach (var part in measure.Elements("part"))
            {
                var id = (string?)part.Attribute("id");
                var at = parts.FindIndex(p => p.Id == id);
                if (at < 0)
                    (at, parts) = (parts.Count, [.. parts, (id, [])]);
                parts[at].Measures.Add(new("measure", measure.Attributes(), part.Elements()));
            }
        return parts;
    }

    // Words on the page that are neither title nor name: what the piece says of itself.
    private static IEnumerable<string> Credits(XElement root)
    {
        var known = root.Descendants("work-title").Concat(root.Descendants("movement-title")).Concat(root.Descendants("creator")).Concat(root.Descendants("rights")).Select(Text).ToHashSet();
        return root.Elements("credit").Where(c => c.Element("credit-type")?.Value.Trim() is null or "subtitle").Elements("credit-words").Select(Text).OfType<string>().Where(t => !known.Contains(t));
    }

    private static bool OnStrings(List<XElement> measures) => measures.Any(m => m.Descendants("sign").Any(s => s.Value.Trim() == "TAB") || m.Descendants("fret").Any());

    private static string Name(XElement root, string? id) =>
        Text(root.Element("part-list")?.Elements("score-part").FirstOrDefault(p => (string?)p.Attribute("id") == id)?.Element("part-name")) ?? "without a name";

    private static string? Text(XElement? element) => element is not null && LessonWriter.Line(element.Value) is { Length: > 0 } text ? text : null;
}
