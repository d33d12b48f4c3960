// Rhythm beside the strings: stems, beams, flags, dots and rests above or below the tablature, so that no stem crosses a number.
using ChordLang.Arrangement.Music;

namespace ChordLang.Interchange.Sheet;

/// <summary>Draws one strand's rhythm.</summary>
/// <param name="canvas">Where to; the top string is y 0.</param>
/// <param name="skyline">What it fills.</param>
/// <param name="height">From the top string to the lowest.</param>
internal sealed class RhythmLane(Canvas canvas, Skyline skyline, double height)
{
    /// <summary>From the outer string to the stem, and the length of a stem.</summary>
    public const double Gap = 8, Stem = 18;

    private const double Beam = 2.8, BeamStep = 4.4, Space = 5.2;

    public void Draw(PlacedBar bar, Strand strand)
    {
        var way = strand.Up ? -1 : 1;
        var (near, far) = strand.Up ? (-Gap, -Gap - Stem) : (height + Gap, height + Gap + Stem);
        var beams = Groups.Beamed(bar.Bar, strand);
        foreach (var stroke in strand.Strokes)
        {
            var x = bar.X(stroke.Start);
            if (stroke.Rest)
                Rest(bar, stroke, x, (near + far) / 2);
            else
                Note(stroke, x, near, far, way, !beams.Any(b => b.Contains(stroke)));
        }
        foreach (var beam in beams)
            DrawBeam(bar, beam, far, way);
        foreach (var tuplet in Groups.Tuplets(bar.Bar, strand))
            Tuplet(bar, tuplet, way, beams.Any(b => tuplet.All(b.Contains)));
    }

    private void Note(Stroke stroke, double x, double near, double far, int way, bool flag)
    {
        Fill(x - 1, near, x + 1, far);
        if (stroke.Whole)
        {
            canvas.Glyph("noteheadWhole", x - 0.844 * Space, near + way * Space * 0.6, Space);
            Fill(x - 5, near, x + 5, near + way * Space * 1.2);
        }
        else if (stroke.Half)
        {
            // A half has its open head at the end of the stem: told from a quarter at a glance.
            canvas.Line(x, near, x, far - way * 5.2, "stem");
            canvas.Circle(x, far - way * 2.6, 2.6, "ring");
            Fill(x - 3, near, x + 3, far);
        }
        else
            canvas.Line(x, near, x, far, "stem");
        if (flag && stroke.Flags > 0)
        {
            canvas.Glyph((stroke.Flags switch { 1 => "flag8th", 2 => "flag16th", _ => "flag32nd" }) + (way < 0 ? "Up" : "Down"), x - 0.3, far, Space);
            Fill(x, near, x + 7, far);
        }
        for (var i = 0; i < stroke.Value.Dots; i++)
            canvas.Circle(x + (stroke.Whole ? 7.5 : 4.2) + 3 * i, near + way * (stroke.Whole ? 2 : 2.6), 1.1, "ink");
    }

    private void DrawBeam(PlacedBar bar, List<Stroke> beam, double far, int way)
    {
        Fill(bar.X(beam[0].Start), far, bar.X(beam[^1].Start), far - way * 10);
        for (var level = 1; level <= beam.Max(s => s.Flags); level++)
        {
            var y = far - way * ((level - 1) * BeamStep + Beam / 2);
            foreach (var (from, to) in Beams.Level(beam, level, s => bar.X(s.Start), 6))
                canvas.Box(from - 0.5, y - Beam / 2, to - from + 1, Beam, "ink");
        }
    }

    private void Rest(PlacedBar bar, Stroke stroke, double x, double y)
    {
        var name = Rests.Name(stroke);
        var glyph = GlyphTable.All[name];
        var scale = Space / GlyphTable.Space;
        if (Rests.WholeBar(bar.Bar, stroke))
            x = (bar.First - 4 + bar.Right) / 2;
        canvas.Glyph(name, x - (glyph.Left + glyph.Right) / 2.0 * scale, y, Space);
        skyline.Fill(x - 5, y + glyph.Top * scale, x + 5, y + glyph.Bottom * scale);
        if (name is "restWhole" or "restHalf")     // told apart by the line they hang from or lie on
            canvas.Line(x - 6, y, x + 6, y, "ledger");
        for (var i = 0; i < stroke.Value.Dots; i++)
            canvas.Circle(x + glyph.Right * scale / 2 + 2.4 + 3 * i, y - Space / 2, 1.1, "ink");
    }

    private void Tuplet(PlacedBar bar, List<Stroke> tuplet, int way, bool beamed)
    {
        var (left, right) = (bar.X(tuplet[0].Start), bar.X(tuplet[^1].Start));
        var words = tuplet[0].Value.Actual.ToString(System.Globalization.CultureInfo.InvariantCulture);
        if (beamed)
        {
            var middle = (left + right) / 2;
            var y = way < 0 ? skyline.Above(middle - 4, middle + 4, 7, 2) : skyline.Below(middle - 4, middle + 4, 7, 2) + 7;
            canvas.Text(middle, y, words, Face.Tuplet, true);
            return;
        }
        Brackets.Draw(canvas, skyline, left - 3, right + 4, words, way);
    }

    private void Fill(double left, double y1, double right, double y2) => skyline.Fill(left, Math.Min(y1, y2), right, Math.Max(y1, y2));
}

/// <summary>Which sign a rest has.</summary>
internal static class Rests
{
    public static string Name(Stroke stroke) => stroke.Value.Type switch
    {
        "whole" => "restWhole", "half" => "restHalf", "quarter" => "restQuarter", "eighth" => "rest8th", "16th" => "rest16th", _ => "rest32nd",
    };

    /// <summary>True for a bar of silence, whose rest stands in the middle.</summary>
    public static bool WholeBar(Bar bar, Stroke stroke) => stroke.Start == bar.Start && stroke.End == bar.End && stroke.Value.Type == "whole";
}

/// <summary>Brackets over tuplets that no beam holds together.</summary>
internal static class Brackets
{
    public static void Draw(Canvas canvas, Skyline skyline, double left, double right, string words, int way)
    {
        var middle = (left + right) / 2;
        var y = way < 0 ? skyline.Above(left, right, 8, 2) : skyline.Below(left, right, 8, 2) + 8;
        var line = y - 3.2;
        var hook = way < 0 ? 3 : -3;
        canvas.Path($"M{Canvas.N(left)} {Canvas.N(line + hook)}V{Canvas.N(line)}H{Canvas.N(middle - 4.5)}M{Canvas.N(middle + 4.5)} {Canvas.N(line)}H{Canvas.N(right)}V{Canvas.N(line + hook)}", "thin");
        canvas.Text(middle, y, words, Face.Tuplet, true);
    }
}
