// An arrangement as plain tablature text: a line a string, chord names above, counts below; no line is cut inside a bar.
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.TabText;

/// <summary>Writes tablature as people paste it into mails: six lines (or as many as there are strings), highest string on top.</summary>
public static class TabWriter
{
    /// <summary>The width that most mail programs leave whole.</summary>
    public const int UsualWidth = 78;

    /// <summary>The text of a piece.</summary>
    /// <param name="piece">The piece, as written.</param>
    /// <param name="placed">Its notes on strings.</param>
    /// <param name="width">Most characters a line; one bar that is wider has a line of its own.</param>
    public static string Write(Piece piece, PlacedPiece placed, int width = UsualWidth)
    {
        var text = new StringBuilder();
        if (piece.Title is { } title)
            text.Append(title).Append(piece.By is { } by ? $", {by}" : "").Append('\n');
        foreach (var line in Order(piece, width))
            text.Append(line).Append('\n');
        var columns = placed.Events.Where(e => e.Notes.Length > 0).ToLookup(e => e.Event.Bar);
        for (var i = 0; i < piece.Bars.Length;)
        {
            var neck = piece.Bars[i].Settings.Neck;
            var names = Names(neck);
            var system = new List<BarText>();
            var used = names.Max(n => n.Length) + 1;
            for (; i < piece.Bars.Length && piece.Bars[i].Settings.Neck == neck; i++)
            {
                if (system.Count > 0 && (piece.Sections.Any(s => !s.Again && s.FirstBar == i) || piece.Bars[i].Settings.Meter != piece.Bars[i - 1].Settings.Meter))
                    break;
                var bar = new BarText(piece.Bars[i], [.. columns[i]], [.. columns[i - 1]]);
                if (system.Count > 0 && used + bar.Width + 1 > width)
                    break;
                used += bar.Width + 1;
                system.Add(bar);
            }
            Append(text, piece, system, names, neck.Capo);
        }
        return text.ToString();
    }

    // Tablature text has no repeat signs: where the bars are not played as they stand, their numbers say how.
    private static IEnumerable<string> Order(Piece piece, int width)
    {
        var (runs, order) = (new List<string>(), piece.PlayOrder);
        if (order.SequenceEqual(Enumerable.Range(0, piece.Bars.Length)))
            yield break;
        for (var i = 0; i < order.Length;)
        {
            var from = i;
            while (++i < order.Length && order[i] == order[i - 1] + 1)
                continue;
            var (first, last) = (piece.Bars[order[from]].Number, piece.Bars[order[i - 1]].Number);
            runs.Add(first == last ? $"{first}" : $"{first} to {last}");
        }
        var line = "Play bars ";
        for (var i = 0; i < runs.Count; i++)
        {
            if (i > 0 && line.Length + runs[i].Length + 1 > width)
            {
                yield return line.TrimEnd();
                line = "then bars ";
            }
            line += runs[i] + (i + 1 < runs.Count ? ", " : ".");
        }
        yield return line;
    }

    private static string[] Names(Fretboard.Necks.Neck neck)
    {
        var names = neck.Tuning.Open.Reverse().Select(p => p.Name.ToString()).ToArray();
        if (names[0] == names[^1])     // the high string in small letters, as tablature has it
            names[0] = names[0].ToLowerInvariant();
        var wide = names.Max(n => n.Length);
        return [.. names.Select(n => n.PadRight(wide))];
    }

    private static void Append(StringBuilder text, Piece piece, List<BarText> system, string[] names, int capo)
    {
        var first = system[0].Bar;
        text.Append('\n');
        foreach (var section in piece.Sections.Where(s => !s.Again && s.FirstBar == first.Index))
            text.Append('[').Append(section.Name).Append("]\n");
        if (first.Index == 0 || piece.Bars[first.Index - 1].Settings.Meter != first.Settings.Meter)
            text.Append(first.Settings.Meter).Append(first.Settings.BeatsPerMinute is { } tempo ? $", {(first.Settings.Rubato ? "free time, around " : "")}{tempo.ToString(CultureInfo.InvariantCulture)} beats a minute" : "").Append('\n');
        if (first.Index == 0 && first.From > Rational.Zero)
            text.Append("Pickup from count ").Append(CountSyntax.Write(first.From)).Append(".\n");
        if (first.Index == 0 && capo > 0)
            text.Append("Capo at fret ").Append(capo).Append("; frets count from it.\n");
        var margin = new string(' ', names[0].Length + 1);
        Line(text, margin, system.Select(b => b.Chords), ' ');
        for (var s = 0; s < names.Length; s++)
            Line(text, names[s] + "|", system.Select(b => b.Strings[s]), '|');
        Line(text, margin, system.Select(b => b.Counts), ' ');
    }

    private static void Line(StringBuilder text, string margin, IEnumerable<string> bars, char between) =>
        text.Append((margin + string.Concat(bars.Select(b => b + between))).TrimEnd(' ')).Append('\n');

    /// <summary>One bar as equally long lines.</summary>
    private sealed class BarText
    {
        private readonly ImmutableArray<EventPlace> near;

        public BarText(Bar bar, ImmutableArray<EventPlace> events, ImmutableArray<EventPlace> before)
        {
            (Bar, near) = (bar, [.. before, .. events]);
            var strings = bar.Settings.Neck.Tuning.Strings;
            var times = events.Select(e => e.Event.Onset).Concat(bar.Chords.Where(Named).Select(c => c.Start)).Append(bar.Start).Distinct().Order().ToList();
            var dead = bar.Rows.SelectMany(r => r.Events).SelectMany(e => e.Notes.Where(n => n.Dead && n.String is not null).Select(n => (e.Onset, String: n.String!.Value, Text: "x"))).ToList();
            times = [.. times.Concat(dead.Select(d => d.Onset)).Distinct().Order()];
            var cells = times.Select(t => events.Where(e => e.Event.Onset == t).SelectMany(e => e.Notes.Where(n => n.String is not null).Select(n => (n.String!.Value, Text: Fret(e.Event, n))))
                .Concat(dead.Where(d => d.Onset == t).Select(d => (d.String, d.Text))).ToList()).ToList();
            var names = times.Select(t => bar.Chords.FirstOrDefault(c => c.Start == t && Named(c)) is { } c ? c.Symbol?.Text ?? "N.C." : "").ToList();
            var said = -1L;
            var counts = times.Select((t, i) => cells[i].Count > 0 ? Spoken(bar.OffsetOf(t), ref said) : "").ToList();
            // A column is as wide as what stands in it asks for, and as its share of the bar: what lasts longer looks longer.
            var shortest = times.Zip(times.Skip(1).Append(bar.End), (a, b) => (b - a).Value).Where(d => d > 0).DefaultIfEmpty(1).Min();
            var lines = Enumerable.Range(0, strings + 2).Select(_ => new StringBuilder()).ToArray();
            foreach (var line in lines[1..^1])
                line.Append('-');
            lines[0].Append(' ');
            lines[^1].Append(' ');
            for (var i = 0; i < times.Count; i++)
            {
                var length = ((i + 1 < times.Count ? times[i + 1] : bar.End) - times[i]).Value;
                var share = (int)Math.Round(3 * Math.Min(4, length / shortest));
                var wide = new[] { share, names[i].Length + 1, counts[i].Length + 1, cells[i].Select(c => c.Text.Length).DefaultIfEmpty(1).Max() + 1 }.Max();
                lines[0].Append(names[i].PadRight(wide));
                lines[^1].Append(counts[i].PadRight(wide));
                for (var s = 1; s <= strings; s++)
                    lines[s].Append(cells[i].Where(c => c.Item1 == s).Select(c => c.Text).FirstOrDefault("").PadRight(wide, '-'));
            }
            (Chords, Counts, Strings) = (lines[0].ToString(), lines[^1].ToString(), [.. lines[1..^1].Select(l => l.ToString())]);
        }

        public Bar Bar { get; }

        // Chords that are written here, or that a bar again repeats.
        private bool Named(ChordSpan chord) => !chord.Carried || Bar.Repeats is not null;

        public string Chords { get; }

        public string Counts { get; }

        public ImmutableArray<string> Strings { get; }

        public int Width => Counts.Length;

        // The usual signs of tablature text, before the fret arrived at; the stroke of a slide rises or falls as the sound does.
        private string Sign(Event e, NotePlace n) => e.Has(MarkKind.Hammer) ? "h" : e.Has(MarkKind.Pull) ? "p"
            : e.Has(MarkKind.Slide) || e.Has(MarkKind.SlideFrom) ? Falls(e, n) ? "\\" : "/" : "";

        private bool Falls(Event e, NotePlace n)
        {
            if (e.Marks.FirstOrDefault(m => m.Kind == MarkKind.SlideFrom) is { } from)
                return from.Operand is WordOperand { Word: "above" } || e.SlideFrom.Any(f => f.Midi > n.Note.Midi);
            var last = near.Where(p => p.Event.VoiceKey == e.VoiceKey && p.Event.Onset < e.Onset).MaxBy(p => p.Event.Onset);
            return last is not null && (last.Notes.FirstOrDefault(o => o.String == n.String) ?? last.Notes[^1]).Note.Midi > n.Note.Midi;
        }

        private string Fret(Event e, NotePlace n) => Sign(e, n) + (n.Note.Harmonic ? $"<{n.Fret}>" : n.Fret)
            + (n.Note.BendTo is { } to ? $"b{n.Fret + to.Midi - n.Note.Midi}" : "") + (e.Has(MarkKind.Vibrato) ? "~" : "");

        // Behind its own number only what is said there: 1 & 2 & 3 e & a; behind another the whole count.
        private static string Spoken(Rational offset, ref long said)
        {
            var (count, before) = (CountSyntax.Write(offset), said);
            said = offset.Floor;
            return said == before && count[^1] is '&' or 'e' or 'a' ? count[^1..] : count;
        }
    }
}
