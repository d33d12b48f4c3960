// An arrangement as MusicXML 4.0: staff and tablature, chords, form, and the teaching words.
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Xml;
using System.Xml.Linq;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Scores;
using ChordLang.Theory.Keys;

namespace ChordLang.Interchange.MusicXml;

/// <summary>Writes MusicXML 4.0, partwise (W3C Community Final Specification). Pitches are sounding pitch under a treble clef an octave down.</summary>
public static class ScoreWriter
{
    // Beyond this, lengths are rounded to the nearest division; only nested odd fractions get there.
    private const long MostDivisions = 1_000_000;

    /// <summary>The document of a piece.</summary>
    /// <param name="piece">The piece, as written: repeats are signs, not copies.</param>
    /// <param name="placed">Its notes on strings.</param>
    public static string Write(Piece piece, PlacedPiece placed)
    {
        var part = new PartWriter(piece, placed);
        var score = new XElement("score-partwise", new XAttribute("version", "4.0"),
            piece.Title is { } title ? new XElement("work", new XElement("work-title", Clean(title))) : null,
            new XElement("identification", piece.By is { } by ? new XElement("creator", new XAttribute("type", "arranger"), Clean(by)) : null,
                new XElement("encoding", new XElement("software", "ChordLang"))),
            piece.Prose.Select(line => new XElement("credit", new XAttribute("page", 1), new XElement("credit-words", Clean(line)))),
            new XElement("part-list", new XElement("score-part", new XAttribute("id", "P1"), new XElement("part-name", "Guitar"),
                new XElement("score-instrument", new XAttribute("id", "P1-I1"), new XElement("instrument-name", "Guitar")))),
            new XElement("part", new XAttribute("id", "P1"), part.Measures()));
        var text = new StringBuilder("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        using (var writer = XmlWriter.Create(text, new() { OmitXmlDeclaration = true, Indent = true, NewLineChars = "\n" }))
            score.WriteTo(writer);
        return text.Append('\n').ToString();
    }

    /// <summary>What of a piece a score has no sign for.</summary>
    public static ImmutableArray<Loss> Losses(Piece piece) =>
    [
        .. piece.Sections.Where(s => s.Again).Select(s => new Loss(piece.Bars.LastOrDefault(b => b.Line < s.Line)?.Number, $"section {s.Name} again has no sign in a score: it stands there once.")),
        .. piece.Events.Where(e => e.Has(MarkKind.Unsure)).Select(e => piece.Bars[e.Bar].Number).Distinct().Select(bar => new Loss(bar, "how unsure a note is has no sign in a score.")),
    ];

    /// <summary>Text as XML can carry it: control characters and lone surrogates become U+FFFD.</summary>
    internal static string Clean(string text)
    {
        var clean = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())     // a lone surrogate comes as U+FFFD
            clean.Append(rune.Value > 0xFFFF || XmlConvert.IsXmlChar((char)rune.Value) ? rune.ToString() : "\uFFFD");
        return clean.ToString();
    }

    private sealed class PartWriter
    {
        private readonly Piece piece;
        private readonly FormMarks form;
        private readonly NoteWriter notes;
        private readonly List<string> voices = [];
        private readonly Dictionary<string, List<Event>> byVoice = [];
        private readonly long divisions;

        public PartWriter(Piece piece, PlacedPiece placed)
        {
            this.piece = piece;
            form = new(piece);
            foreach (var row in piece.Bars.SelectMany(b => b.Rows))
            {
                if (!byVoice.TryGetValue(row.VoiceKey, out var events))
                {
                    voices.Add(row.VoiceKey);
                    byVoice[row.VoiceKey] = events = [];
                }
                events.AddRange(row.Events);
            }
            divisions = Divisions();
            var places = new Dictionary<(string, Rational, int), NotePlace>();
            foreach (var e in placed.Events)
                foreach (var n in e.Notes)
                    places.TryAdd((e.Event.VoiceKey, n.Note.Onset, n.Note.Midi), n);
            notes = new((e, n) => places.TryGetValue((e.VoiceKey, n.Onset, n.Midi), out var at) ? (at.String, at.Fret) : (n.String, n.Fret), Ticks);
        }

        public IEnumerable<XElement> Measures()
        {
            if (piece.Bars.IsEmpty)     // the standard wants a measure
            {
                yield return new("measure", new XAttribute("number", 1), Attributes(piece.Settings, null),
                    new XElement("note", new XElement("rest", new XAttribute("measure", "yes")), new XElement("duration", Ticks(piece.Settings.Meter.Length)), new XElement("voice", 1), new XElement("staff", 1)));
                yield break;
            }
            Settings? before = null;
            foreach (var bar in piece.Bars)
            {
                yield return new("measure", new XAttribute("number", bar.Number), bar.From > Rational.Zero && bar.Number == 0 ? new XAttribute("implicit", "yes") : null,
                    form.Left(bar.Index), Attributes(bar.Settings, before), Opening(bar, before), Music(bar), form.After(bar.Index), form.Right(bar.Index, bar.Index == piece.Bars.Length - 1));
                before = bar.Settings;
            }
        }

        private IEnumerable<XElement> Opening(Bar bar, Settings? before)
        {
            foreach (var section in piece.Sections.Where(s => !s.Again && s.FirstBar == bar.Index))
                yield return new("direction", new XAttribute("placement", "above"), new XElement("direction-type", new XElement("rehearsal", Clean(section.Name))));
            var s = bar.Settings;
            if (before is null || before.BeatsPerMinute != s.BeatsPerMinute || before.Rubato != s.Rubato)
            {
                var words = s.Rubato ? s.BeatsPerMinute is { } around ? $"rubato, around {around}" : "rubato" : null;
                if (words is not null)
                    yield return FormMarks.Words(words, s.BeatsPerMinute is { } b ? Sounding(b, s.Meter) : null);
                else if (s.BeatsPerMinute is { } tempo)
                    yield return new("direction", new XAttribute("placement", "above"),
                        new XElement("direction-type", new XElement("metronome", new XElement("beat-unit", BeatUnit(s.Meter)), s.Meter.Compound ? new XElement("beat-unit-dot") : null,
                            new XElement("per-minute", tempo.ToString(CultureInfo.InvariantCulture)))), new XElement("sound", Sounding(tempo, s.Meter)));
            }
            if (s.Feel is { } feel && feel != before?.Feel)
                yield return FormMarks.Words(Clean(feel));
            foreach (var line in piece.Sections.Where(x => !x.Again && x.FirstBar == bar.Index).SelectMany(x => x.Prose).Concat(bar.Prose))
                yield return FormMarks.Words(Clean(line), null, "below");
            foreach (var mark in form.Before(bar.Index))
                yield return mark;
            foreach (var span in bar.Chords.Where(c => !c.Carried || bar.Repeats is not null))
                if (HarmonyWriter.Of(span, Ticks(span.Start - bar.Start)) is { } harmony)
                    yield return harmony;
        }

        // The standard counts sounding tempo in quarters a minute.
        private static XAttribute Sounding(double beats, Meter meter) => new("tempo", beats * 4 * meter.Beat.Value);

        private static string BeatUnit(Meter meter) => (meter.Compound ? meter.Unit / 2 : meter.Unit) switch { 2 => "half", 4 => "quarter", 8 => "eighth", _ => "16th" };

        private IEnumerable<XElement> Music(Bar bar)
        {
            var written = 0;
            for (var staff = 1; staff <= 2; staff++)
                for (var v = 0; v < voices.Count || v == 0; v++)
                {
                    var row = voices.Count == 0 ? null : bar.Rows.FirstOrDefault(r => r.VoiceKey == voices[v]);
                    if (row is null && (v > 0 || bar.Rows.Length > 0))
                        continue;
                    if (written++ > 0)
                        yield return new("backup", new XElement("duration", Ticks(bar.Length)));
                    foreach (var element in Voice(bar, row, (staff - 1) * Math.Max(1, voices.Count) + v + 1, staff))
                        yield return element;
                }
        }

        private IEnumerable<XElement> Voice(Bar bar, Row? row, int voice, int staff)
        {
            var events = row?.Events.Where(e => e.End > e.Onset && e.Onset >= bar.Start).OrderBy(e => e.Onset).ToList() ?? [];
            if (events.Count == 0 || events.All(e => e.Kind is EventKind.Rest or EventKind.Unbound))
            {
                yield return notes.Rest(new(Rational.Zero, bar.Length, null, 0, 1, 1), voice, staff, true);
                yield break;
            }
            var at = bar.Start;
            foreach (var e in events)
            {
                var start = Rational.Max(e.Onset, at);
                var end = Rational.Min(e.End, bar.End);
                if (start > at)
                    foreach (var rest in Values(bar, at, start))
                        yield return notes.Rest(rest, voice, staff, false);
                if (end <= start)
                    continue;
                var values = Values(bar, start, end);
                for (var i = 0; i < values.Length; i++)
                    if (e.Kind is EventKind.Rest or EventKind.Unbound || e.Notes.IsEmpty)
                        yield return notes.Rest(values[i], voice, staff, false);
                    else
                    {
                        if (i == 0 && staff == 1)
                            foreach (var said in Said(e))
                                yield return said;
                        foreach (var note in notes.Notes(e, values[i], (i == 0, i == values.Length - 1), Tuplet(bar, values, i), Setting(e), voice, staff))
                            yield return note;
                    }
                at = end;
            }
            if (at < bar.End)
                foreach (var rest in Values(bar, at, bar.End))
                    yield return notes.Rest(rest, voice, staff, false);
        }

        private static IEnumerable<XElement> Said(Event e)
        {
            foreach (var mark in e.Marks)
                if (mark is { Kind: MarkKind.Loudness, Operand: WordOperand loud })
                    yield return new("direction", new XAttribute("placement", "below"), new XElement("direction-type", new XElement("dynamics", new XElement(loud.Word))));
                else if (mark is { Kind: MarkKind.Remark, Operand: WordOperand remark })
                    yield return FormMarks.Words(Clean(remark.Word));
                else if (mark is { Kind: MarkKind.Is, Operand: SymbolOperand named })
                    yield return FormMarks.Words("is " + Clean(named.Symbol.Text), null, "below");
        }

        private NoteSetting Setting(Event e)
        {
            var events = byVoice[e.VoiceKey];
            var i = events.IndexOf(e);
            var next = i >= 0 && i + 1 < events.Count ? events[i + 1] : null;
            return new(e.Kind == EventKind.Tied, next is { Kind: EventKind.Tied } && next.Onset == e.End, next);
        }

        // A tuplet's bracket goes round the values of one count that share its ratio.
        private static (bool, bool) Tuplet(Bar bar, ImmutableArray<NoteValue> values, int i)
        {
            var count = bar.Settings.Meter.Count;
            var v = values[i];
            if (!v.InTuplet)
                return (false, false);
            return ((v.Start / count).IsWhole, ((v.Start + v.Length) / count).IsWhole);
        }

        // Values are cut on counts from the bar line, in a pickup too, where the bar begins behind it.
        private static ImmutableArray<NoteValue> Values(Bar bar, Rational from, Rational to)
        {
            var shift = bar.From * bar.Settings.Meter.Count - bar.Start;
            return NoteValues.Split(from + shift, to + shift, bar.Settings.Meter.Count);
        }

        private XElement? Attributes(Settings s, Settings? before)
        {
            var (first, key, meter) = (before is null, s.Key is not null && s.Key != before?.Key, before?.Meter != s.Meter);
            var neck = before?.Neck != s.Neck;
            if (!first && !key && !meter && !neck)
                return null;
            return new("attributes", first ? new XElement("divisions", divisions) : null, key || first ? KeyOf(s.Key) : null,
                meter ? new XElement("time", new XElement("beats", s.Meter.Counts), new XElement("beat-type", s.Meter.Unit)) : null,
                first ? new XElement("staves", 2) : null,
                first ? new XElement("clef", new XAttribute("number", 1), new XElement("sign", "G"), new XElement("line", 2), new XElement("clef-octave-change", -1)) : null,
                first ? new XElement("clef", new XAttribute("number", 2), new XElement("sign", "TAB"), new XElement("line", s.Neck.Tuning.Strings - 1)) : null,
                neck ? new XElement("staff-details", new XAttribute("number", 2), new XElement("staff-lines", s.Neck.Tuning.Strings),
                    s.Neck.Tuning.Open.Select((p, i) => new XElement("staff-tuning", new XAttribute("line", i + 1), new XElement("tuning-step", p.Name.Letter.ToString()),
                        p.Name.Alteration == 0 ? null : new XElement("tuning-alter", p.Name.Alteration), new XElement("tuning-octave", p.Octave))),
                    s.Neck.Capo > 0 ? new XElement("capo", s.Neck.Capo) : null) : null);
        }

        private static XElement KeyOf(Key? key) => new("key", new XElement("fifths", key?.Fifths ?? 0),
            key?.Tonic is null ? null : new XElement("mode", key.Mode.ToString().ToLowerInvariant()));

        private long Ticks(Rational length) => (long)Math.Round((length * Rational.Of(4 * divisions)).Value);

        private long Divisions()
        {
            var common = 4L;
            foreach (var bar in piece.Bars)
                foreach (var time in bar.Rows.SelectMany(r => r.Events).SelectMany(e => Values(bar, e.Onset, Rational.Min(e.End, bar.End))).Select(v => v.Length)
                    .Append(bar.Length).Concat(bar.Chords.Select(c => c.Start - bar.Start)))
                {
                    var d = (time * Rational.Of(4)).Denominator;
                    var next = common / Divisor(common, d) * d;
                    if (next <= MostDivisions)
                        common = next;
                }
            return common;
        }

        private static long Divisor(long a, long b)
        {
            while (b != 0)
                (a, b) = (b, a % b);
            return a;
        }
    }
}
