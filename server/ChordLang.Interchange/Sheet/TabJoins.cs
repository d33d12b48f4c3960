// What joins numbers on the strings: ties, ringing, slurs, slides, hammers and pulls, bends, grace notes.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Sheet;

/// <summary>Draws the joins of one line.</summary>
internal sealed class TabJoins(Canvas canvas, Skyline sky, SystemPlan system, Places places, Neighbours voices, Stands stands)
{
    /// <summary>Where the last note's vibrato takes the place of its string.</summary>
    public (double From, double To)? Wave { get; private set; }

    /// <summary>What one struck note carries.</summary>
    public void Note(PlacedBar bar, Event e, Note n, Spot spot, double x, double half)
    {
        Wave = null;
        var y = Y(spot.String);
        var only = (MarkKind kind) => e.Marks.Any(m => m.Kind == kind && (m.String is null || m.String == spot.String));
        if (n.WantedEnd > e.End && voices.After(e)?.Kind != EventKind.Tied)
            canvas.Arc(x + half + 1.5, y + 1.5, x + half + 11.5, y + 1.5, 3.2);
        if (n.BendTo is { } to)
            Bend(x + half + 1, y, to.Midi - n.Midi);
        if (only(MarkKind.Vibrato))
        {
            var from = x + half + (n.BendTo is { } bent ? 13 + Face.Plain.Width(BendWords(bent.Midi - n.Midi)) : 2);
            canvas.Path(Waves.Along(from, n.BendTo is null ? y : -7, 12), "wave");
            if (n.BendTo is null)
                Wave = (from - 1, from + 13);
        }
        foreach (var slide in e.Marks.Where(m => m.Kind == MarkKind.SlideFrom && e.SlideFrom.IsEmpty))
            if (slide.Operand is WordOperand { Word: var from } && (slide.String is null || slide.String == spot.String))
                canvas.Line(x - half - 8, y + (from == "above" ? -3.4 : 3.4), x - half - 1.2, y + (from == "above" ? 2 : -2), "slide");
        if (voices.Before(e) is not { Kind: not EventKind.Rest } before || Partner(before, spot) is not { } other)
            return;
        var start = stands.Of(before) is { } s ? s.Last + Face.Digit.Width("0") / 2 + (other.Fret > 9 ? 3 : 0) + (before.Has(MarkKind.Vibrato) ? 14 : 0) : Math.Max(bar.Left + 2, x - half - 16);
        if (only(MarkKind.Slide))
        {
            var up = spot.Fret >= other.Fret ? 2.6 : -2.6;
            var (y1, y2) = (Y(other.String), y);
            canvas.Line(start + 1.2, y1 + (y1 == y2 ? up : 0), x - half - 1.4, y2 - (y1 == y2 ? up : 0), "slide");
        }
        var (hammer, pull) = (only(MarkKind.Hammer), only(MarkKind.Pull));
        if ((hammer || pull || only(MarkKind.Slur) && Highest(e) == spot.String) && start < x - half)
        {
            canvas.Arc(start, Y(other.String) - 4.6, x - half + 1, y - 4.6, -3.6);
            if (hammer || pull)
                canvas.Text((start + x - half) / 2, Math.Min(y, Y(other.String)) < 1 ? -9.4 : -3, hammer ? "H" : "P", Face.BarNumber, true);
        }
    }

    /// <summary>Ties into and out of one stroke of an event.</summary>
    public void Ties(PlacedBar bar, Stroke stroke, Event e)
    {
        var x = bar.X(stroke.Start);
        double? from = null;
        if (!stroke.First)
            from = bar.X(bar.Plan.Times.Where(t => t < stroke.Start).Where(t => bar.Plan.Strands.Any(s => s.Strokes.Any(k => k.Start == t && k.Events.Contains(e)))).DefaultIfEmpty(bar.Bar.Start).Max());
        else if (e.Kind == EventKind.Tied)
            from = stands.Of(voices.Before(e))?.Last ?? bar.Left - 12;
        foreach (var n in e.Notes)
            if (places.Of(e, n) is { } spot)
            {
                if (from is { } start)
                    Tie(start + 4.5, x + 2, Y(spot.String));
                if (stroke.Last && voices.After(e) is { Kind: EventKind.Tied } next && stands.Of(next) is null)
                    Tie(x + 4.5, system.Right + 1, Y(spot.String));
            }
    }

    // Flat, so that a long one stays below the numbers of the string above.
    private void Tie(double from, double to, double y) => canvas.Arc(from, y - 2.6, to, y - 2.6, to - from > 40 ? -2.4 : -3.2);

    /// <summary>From a small number before the beat to its note.</summary>
    public void Grace(double x, double y, double to, Spot spot, Event e, bool slide)
    {
        var goal = e.Notes.Select(n => places.Of(e, n)).OfType<Spot>().OrderBy(s => Math.Abs(s.String - spot.String)).Cast<Spot?>().FirstOrDefault();
        if (goal is not { } g)
            return;
        if (slide)
            canvas.Line(x + 4, y + (spot.Fret < g.Fret ? 2 : -2), to - 1, Y(g.String) + (spot.Fret < g.Fret ? -2 : 2), "slide");
        else
            canvas.Arc(x, y - 4, to + 1, Y(g.String) - 4.4, -3);
    }

    private void Bend(double x, double y, int semitones)
    {
        var words = BendWords(semitones);
        var (tip, top) = (x + 6.5, -3.0);
        canvas.Path($"M{Canvas.N(x)} {Canvas.N(y)}Q{Canvas.N(tip)} {Canvas.N(y)} {Canvas.N(tip)} {Canvas.N(top)}", "thin");
        canvas.Path($"M{Canvas.N(tip - 2)} {Canvas.N(top + 1)}L{Canvas.N(tip)} {Canvas.N(top - 3)}L{Canvas.N(tip + 2)} {Canvas.N(top + 1)}z", "ink");
        var wide = Face.Plain.Width(words);
        canvas.Text(tip + 3, top - 2, words, Face.Plain);
        sky.Fill(tip - 2, top - 10, tip + 3 + wide, top);
    }

    /// <summary>How far a bend goes, as players say it.</summary>
    public static string BendWords(int semitones) => semitones switch { 1 => "½", 2 => "full", 3 => "1½", _ => (semitones / 2.0).ToString("0.#", System.Globalization.CultureInfo.InvariantCulture) };

    private static double Y(int s) => (s - 1) * TabPart.Step;

    // The note of the event before that leads here: on the same string, else the nearest.
    private Spot? Partner(Event before, Spot spot) =>
        before.Notes.Select(n => places.Of(before, n)).OfType<Spot>().OrderBy(s => Math.Abs(s.String - spot.String)).Cast<Spot?>().FirstOrDefault();

    private int Highest(Event e) => e.Notes.Select(n => places.Of(e, n)).OfType<Spot>().Select(s => s.String).DefaultIfEmpty(0).Min();
}
