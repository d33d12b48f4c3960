// Beams on the staff: they follow the line of the notes, but gently, and leave every stem long enough.
namespace ChordLang.Interchange.Sheet;

/// <summary>Draws one beam.</summary>
internal static class StaffBeams
{
    private const double Thick = 3.4, Step = 5.2;

    public static void Draw(Canvas canvas, Skyline sky, List<StaffChord> beam)
    {
        var up = beam[0].Up;
        var way = up ? -1 : 1;
        var levels = beam.Max(c => c.Stroke.Flags);
        var least = (2.6 + 0.75 * (levels - 1)) * StaffPart.Space;
        double Outer(StaffChord c) => StaffPart.Y(up ? c.High : c.Low);
        var (x1, x2) = (beam[0].StemX, beam[^1].StemX);
        var rise = Outer(beam[^1]) - Outer(beam[0]);
        // A note inside that sticks out makes the beam level (common practice).
        var inside = beam.Skip(1).SkipLast(1).Any(c => up ? Outer(c) <= Math.Min(Outer(beam[0]), Outer(beam[^1])) : Outer(c) >= Math.Max(Outer(beam[0]), Outer(beam[^1])));
        var slope = inside ? 0 : Math.Clamp(rise * 0.5, -StaffPart.Space, StaffPart.Space) / Math.Max(1, x2 - x1);
        // The line y = a + slope * (x - x1) has to lie beyond every head by the least stem.
        var a = beam.Select(c => Outer(c) + way * least - slope * (c.StemX - x1)).Aggregate((p, q) => up ? Math.Min(p, q) : Math.Max(p, q));
        var middle = StaffPart.Y(4);
        a = up ? Math.Min(a, middle + Math.Max(0, -slope * (x2 - x1))) : Math.Max(a, middle - Math.Max(0, slope * (x2 - x1)));
        foreach (var c in beam)
            c.Tip = a + slope * (c.StemX - x1);
        sky.Fill(x1, Math.Min(beam[0].Tip, beam[^1].Tip) - (up ? 1 : levels * Step), x2, Math.Max(beam[0].Tip, beam[^1].Tip) + (up ? levels * Step : 1));
        var stems = beam.ToDictionary(c => c.Stroke, c => c.StemX);
        for (var level = 1; level <= levels; level++)
            foreach (var (from, to) in Beams.Level([.. beam.Select(c => c.Stroke)], level, s => stems[s], 7))
            {
                var shift = -way * (level - 1) * Step;
                var (y1, y2) = (a + slope * (from - x1) + shift, a + slope * (to - x1) + shift);
                var t = -way * Thick;
                canvas.Path($"M{Canvas.N(from - 0.5)} {Canvas.N(y1)}L{Canvas.N(to + 0.5)} {Canvas.N(y2)}L{Canvas.N(to + 0.5)} {Canvas.N(y2 + t)}L{Canvas.N(from - 0.5)} {Canvas.N(y1 + t)}z", "ink");
            }
    }
}
