// A fret diagram: the grip as the player sees the neck upright, lowest string left, with the fingers in the dots.
using System.Globalization;

namespace ChordLang.Interchange.Sheet;

/// <summary>A grip to be drawn.</summary>
/// <param name="Strings">How many strings the neck has.</param>
/// <param name="Spots">Where it is stopped or open, any order.</param>
internal sealed record Diagram(int Strings, IReadOnlyList<Spot> Spots)
{
    private const double Gap = 5.4, Fret = 6.6, Dot = 2.7;

    private readonly int first = Spots.Max(s => s.Fret) <= 4 ? 1 : Math.Max(1, Spots.Where(s => s.Fret > 0).Min(s => s.Fret));

    private int Rows => Math.Max(4, Spots.Max(s => s.Fret) - first + 1);

    /// <summary>Width with the fret number at its side.</summary>
    public double Width => (Strings - 1) * Gap + (first > 1 ? 13 : 3);

    /// <summary>Height from the signs over the nut to the last fret.</summary>
    public double Height => Rows * Fret + 7;

    /// <summary>What makes two grips the same.</summary>
    public string Key => $"{Strings}:{string.Join(' ', Spots.OrderBy(s => s.String).Select(s => $"{s.String}.{s.Fret}"))}";

    /// <summary>Draws it with its lower left corner at a place.</summary>
    public void Draw(Canvas canvas, double x, double bottom, string data)
    {
        var top = bottom - Rows * Fret;
        double X(int s) => x + (Strings - s) * Gap;
        canvas.Raw($"<g class=\"fb\"{data}>");
        var right = x + (Strings - 1) * Gap;
        var grid = "";
        for (var s = 1; s <= Strings; s++)
            grid += $"M{Canvas.N(X(s))} {Canvas.N(top)}V{Canvas.N(bottom)}";
        for (var f = 0; f <= Rows; f++)
            grid += $"M{Canvas.N(x)} {Canvas.N(top + f * Fret)}H{Canvas.N(right)}";
        canvas.Path(grid, "fg");
        if (first == 1)
            canvas.Line(x - 0.3, top, right + 0.3, top, "nut");
        else
            canvas.Text(right + 4.4, top + Fret * 0.5 + 3, first.ToString(CultureInfo.InvariantCulture), Face.BarNumber);
        foreach (var barre in Spots.Where(s => s is { Finger: not null, Fret: > 0 }).GroupBy(s => (s.Finger, s.Fret)).Where(g => g.Count() > 1))
            canvas.Line(X(barre.Max(s => s.String)), Y(barre.Key.Fret), X(barre.Min(s => s.String)), Y(barre.Key.Fret), "barre");
        for (var s = 1; s <= Strings; s++)
        {
            var spot = Spots.Where(p => p.String == s).Cast<Spot?>().FirstOrDefault();
            if (spot is null)
                canvas.Path($"M{Canvas.N(X(s) - 1.4)} {Canvas.N(top - 4.6)}l2.8 2.8m0 -2.8l-2.8 2.8", "mute");
            else if (spot.Value.Fret == 0)
                canvas.Circle(X(s), top - 3.2, 1.6, "open");
            else
            {
                canvas.Circle(X(s), Y(spot.Value.Fret), Dot, "dot");
                if (spot.Value.Finger is { } finger)
                    canvas.Text(X(s), Y(spot.Value.Fret) + 2.3, finger == Fretboard.Hands.Finger.Thumb ? "T" : ((int)finger).ToString(CultureInfo.InvariantCulture), Face.FingerDigit, true);
            }
        }
        canvas.Raw("</g>");

        double Y(int fret) => top + (fret - first + 0.5) * Fret;
    }
}
