// The staff of one line: clef, signature and notes on the columns of the strings below it.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Sheet;

/// <summary>Draws a staff under a treble clef an octave down; the top line is y 0.</summary>
internal sealed class StaffPart
{
    /// <summary>From line to line.</summary>
    public const double Space = 7;

    private readonly SystemPlan system;
    private readonly Canvas notes = new();
    private readonly StaffJoins joins;

    public StaffPart(SystemPlan system, Neighbours voices, SheetOptions options)
    {
        this.system = system;
        Sky = new(system.Width, -2, 4 * Space + 2);
        Sky.Fill(SystemPlan.Names, -1.6 * Space, SystemPlan.Names + 22, 6.5 * Space);
        joins = new(notes, Sky, system, voices);
        foreach (var bar in system.Bars)
            Bar(bar);
        joins.Draw();
        if (options.Staves == Staves.Staff)
        {
            var marks = new TabMarks(notes, Sky, false);
            foreach (var bar in system.Bars)
                foreach (var stroke in bar.Plan.Strands.SelectMany(s => s.Strokes).Where(s => s.Struck))
                    foreach (var e in stroke.Events)
                    {
                        marks.Of(e, bar.X(stroke.Start));
                        Fretted(e, bar.X(stroke.Start));
                    }
        }
    }

    // What tablature would show at the strings has words here.
    private void Fretted(Event e, double x)
    {
        foreach (var n in e.Notes.Where(n => n.BendTo is not null).Take(1))
            Above($"bend {TabJoins.BendWords(n.BendTo!.Value.Midi - n.Midi)}", x);
        if (e.Has(MarkKind.Vibrato))
            notes.Path(Waves.Along(x - 4, Sky.Above(x - 4, x + 9, 4, 3) - 2, 12), "wave");
        foreach (var mark in (MarkKind[])[MarkKind.Hammer, MarkKind.Pull])
            if (e.Has(mark))
                Above(mark == MarkKind.Hammer ? "H" : "P", x);
    }

    private void Above(string words, double x) => notes.Text(x - 4, Sky.Above(x - 4, x - 4 + Face.Plain.Width(words), 8, 3) - 1, words, Face.Plain);

    /// <summary>What it fills.</summary>
    public Skyline Sky { get; }

    /// <summary>Where a step above the bottom line lies.</summary>
    public static double Y(int step) => 4 * Space - step * Space / 2;

    public void Draw(Canvas canvas)
    {
        var lines = "";
        for (var i = 0; i < 5; i++)
            lines += $"M{Canvas.N(SystemPlan.Names)} {Canvas.N(i * Space)}H{Canvas.N(system.Right)}";
        canvas.Path(lines, "sl");
        canvas.Glyph("gClef8vb", SystemPlan.Names + 4, 3 * Space, Space);
        var x = SystemPlan.Names + 27;
        Signature(canvas, system.Settings.Key, null, x);
        if (system.Meter)
            Meters.Draw(canvas, x + KeySignature.Width(system.Settings.Key, null), 2 * Space, system.Settings.Meter, Space);
        for (var i = 1; i < system.Bars.Length; i++)
            if (system.Bars[i] is { Plan.Change: > 0 } bar)
            {
                var before = system.Bars[i - 1].Bar.Settings;
                var at = bar.Left + 5;
                if (before.Key != bar.Bar.Settings.Key)
                {
                    Signature(canvas, bar.Bar.Settings.Key, before.Key, at);
                    at += KeySignature.Width(bar.Bar.Settings.Key, before.Key);
                }
                if (before.Meter != bar.Bar.Settings.Meter)
                    Meters.Draw(canvas, at, 2 * Space, bar.Bar.Settings.Meter, Space);
            }
        canvas.Add(notes, 0, 0, "nt");
    }

    private static void Signature(Canvas canvas, Theory.Keys.Key? key, Theory.Keys.Key? before, double x)
    {
        foreach (var (glyph, step) in KeySignature.Of(key, before))
        {
            canvas.Glyph(glyph, x, Y(step), Space);
            x += 7;
        }
    }

    private void Bar(PlacedBar bar)
    {
        if (bar.Plan.Face == BarFace.RepeatSign)
            notes.Glyph("repeat1Bar", (bar.First - 4 + bar.Right) / 2 - 7.5, 2 * Space, Space);
        else if (bar.Plan.Face == BarFace.Slashes)
            foreach (var time in bar.Plan.Times.Where(t => ((t - bar.Bar.Start) / bar.Bar.Settings.Meter.Count).IsWhole))
                notes.Glyph("noteheadSlash", bar.X(time) - 4, 2 * Space, Space);
        var alone = bar.Plan.Strands.Length == 1;
        var chords = bar.Plan.Strands.Select(s => s.Strokes.Where(k => !k.Rest).Select(k => new StaffChord(k, s.Up) { X = bar.X(k.Start) }).ToList()).ToList();
        foreach (var chord in chords.SelectMany(c => c).Where(_ => alone))
            chord.Up = StaffChord.UpAlone(chord.Low, chord.High);
        var beams = bar.Plan.Strands.Select((s, i) => Groups.Beamed(bar.Bar, s).Select(g => g.Select(k => chords[i].First(c => c.Stroke == k)).ToList()).ToList()).ToList();
        foreach (var beam in beams.SelectMany(b => b).Where(_ => alone))
        {
            var up = StaffChord.UpAlone(beam.Min(c => c.Low), beam.Max(c => c.High));
            beam.ForEach(c => c.Up = up);
        }
        Apart(chords);
        foreach (var chord in chords.SelectMany(c => c))
        {
            chord.StepAside();
            chord.Tip = chord.OwnTip();
        }
        foreach (var beam in beams.SelectMany(b => b))
            StaffBeams.Draw(notes, Sky, beam);
        var beamed = beams.SelectMany(b => b).SelectMany(b => b).ToHashSet();
        var dots = new HashSet<(double, double)>();
        foreach (var chord in chords.SelectMany(c => c))
            Chord(bar, chord, !beamed.Contains(chord), dots);
        foreach (var strand in bar.Plan.Strands)
            foreach (var rest in strand.Strokes.Where(s => s.Rest))
                Rest(bar, rest, alone, strand.Up, chords);
        var room = StaffAccidentals.Draw(notes, Sky, bar.Plan.Accidentals, chords.SelectMany(c => c).Where(c => c.Stroke.First));
        foreach (var chord in chords.SelectMany(c => c).OrderBy(c => c.Stroke.Start))
            joins.Add(bar, chord, alone, room.GetValueOrDefault(chord.Stroke.Start, chord.X - Measure.Head));
        for (var i = 0; i < bar.Plan.Strands.Length; i++)
            foreach (var tuplet in Groups.Tuplets(bar.Bar, bar.Plan.Strands[i]))
                Tuplet(bar, tuplet, chords[i], beams[i]);
        foreach (var chord in chords.SelectMany(c => c).Where(c => c.Stroke.First))
            foreach (var e in chord.Stroke.Events)
                Articulations.Above(notes, Sky, e, chord.X);
    }

    // Two voices on one column: a second, a crossing or unlike heads on one step send the lower voice to the right.
    private static void Apart(List<List<StaffChord>> chords)
    {
        foreach (var column in chords.SelectMany(c => c).GroupBy(c => c.Stroke.Start))
        {
            var (ups, downs) = (column.Where(c => c.Up).ToList(), column.Where(c => !c.Up).ToList());
            foreach (var up in ups)
                for (var i = 0; i < downs.Count; i++)
                    if (up.Low - downs[i].High is var d && (d == 1 || d < 0 && up.High >= downs[i].Low - 1 || d == 0 && up.Glyph(up.Heads[0]) != downs[i].Glyph(downs[i].Heads[^1])))
                        downs[i].X += 2 * Measure.Head + 0.6;
            for (var i = 1; i < downs.Count; i++)
                downs[i].X += 2 * Measure.Head + 0.6;
        }
    }

    private void Chord(PlacedBar bar, StaffChord chord, bool own, HashSet<(double, double)> dots)
    {
        foreach (var head in chord.Heads)
        {
            var name = chord.Glyph(head);
            var half = GlyphTable.All[name].Right * Space / GlyphTable.Space / 2;
            notes.Glyph(name, head.X - half, head.Y, Space, chord.Stroke.Struck ? TabPart.Data(bar, head.Event, head.Note, null) : "");
            Sky.Fill(head.X - half, head.Y - 4, head.X + half, head.Y + 4);
            for (var step = head.Step; step >= 10; step--)
                Ledger(head.X, half, step);
            for (var step = head.Step; step <= -2; step++)
                Ledger(head.X, half, step);
        }
        var right = chord.Heads.Max(h => h.X) + Measure.Head + (chord.Stroke.Whole ? 2 : 0) + 2.6;
        for (var i = 0; i < chord.Stroke.Value.Dots; i++)
            foreach (var head in chord.Heads)
            {
                // A dot stands in a space: beside a line it goes up, for the lower voice down.
                var y = head.Step % 2 != 0 ? head.Y : head.Y + (chord.Up || chord.Heads.Length > 1 ? -Space / 2 : Space / 2);
                if (!dots.Add((Math.Round(right + 3 * i), y)) && dots.Add((Math.Round(right + 3 * i), y + Space)))
                    y += Space;
                notes.Circle(right + 3 * i, y, 1.2, "ink");
            }
        if (chord.Stroke.Whole)
            return;
        var begin = chord.Root.Y + (chord.Up ? -1.2 : 1.2);
        notes.Line(chord.StemX, begin, chord.StemX, chord.Tip, "stem");
        Sky.Fill(chord.StemX - 1, Math.Min(begin, chord.Tip), chord.StemX + 1, Math.Max(begin, chord.Tip));
        if (own && chord.Stroke.Flags > 0)
        {
            notes.Glyph((chord.Stroke.Flags switch { 1 => "flag8th", 2 => "flag16th", _ => "flag32nd" }) + (chord.Up ? "Up" : "Down"), chord.StemX - 0.4, chord.Tip, Space);
            Sky.Fill(chord.StemX, Math.Min(chord.Tip, begin), chord.StemX + 8, Math.Max(chord.Tip, begin));
        }
    }

    private void Ledger(double x, double half, int step)
    {
        if (step % 2 == 0)
            notes.Line(x - half - 2, Y(step), x + half + 2, Y(step), "ledger");
    }

    private void Rest(PlacedBar bar, Stroke rest, bool alone, bool up, List<List<StaffChord>> chords)
    {
        var x = Rests.WholeBar(bar.Bar, rest) ? (bar.First - 4 + bar.Right) / 2 : bar.X(rest.Start);
        var name = Rests.Name(rest);
        var y = name == "restWhole" ? Space : 2 * Space;
        if (!alone)
        {
            y += up ? -2 * Space : 2 * Space;
            // Out of the way of what the other voice plays meanwhile, line by line.
            foreach (var other in chords.SelectMany(c => c).Where(c => c.Stroke.Start < rest.End && c.Stroke.End > rest.Start && c.Up != up && (c.Stroke.Start >= rest.Start || rest.Value.Type == "whole")))
                y = up ? Math.Min(y, Math.Floor((StaffPart.Y(other.High) - 13) / Space) * Space) : Math.Max(y, Math.Ceiling((StaffPart.Y(other.Low) + 13) / Space) * Space);
        }
        var glyph = GlyphTable.All[name];
        var scale = Space / GlyphTable.Space;
        notes.Glyph(name, x - glyph.Right * scale / 2, y, Space);
        Sky.Fill(x - 5, y + glyph.Top * scale, x + 5, y + glyph.Bottom * scale);
        if (name is "restWhole" or "restHalf" && (y < 0 || y > 4 * Space))
            notes.Line(x - 7, y, x + 7, y, "ledger");
        for (var i = 0; i < rest.Value.Dots; i++)
            notes.Circle(x + glyph.Right * scale / 2 + 3 + 3 * i, y - Space / 2, 1.2, "ink");
    }

    private void Tuplet(PlacedBar bar, List<Stroke> tuplet, List<StaffChord> chords, List<List<StaffChord>> beams)
    {
        var own = chords.Where(c => tuplet.Contains(c.Stroke)).ToList();
        var up = own.Count == 0 || own[0].Up;
        var words = tuplet[0].Value.Actual.ToString(System.Globalization.CultureInfo.InvariantCulture);
        var (left, right) = (bar.X(tuplet[0].Start), bar.X(tuplet[^1].Start));
        if (!beams.Any(b => tuplet.All(t => b.Any(c => c.Stroke == t))))
        {
            Brackets.Draw(notes, Sky, left - 4, right + 5, words, up ? -1 : 1);
            return;
        }
        var middle = (own[0].StemX + own[^1].StemX) / 2;
        notes.Text(middle, up ? Sky.Above(middle - 4, middle + 4, 7, 2) : Sky.Below(middle - 4, middle + 4, 7, 2) + 7, words, Face.Tuplet, true);
    }
}
