// Draws a grip as SVG: on an opaque ground, as a theme's colours do not reach into a picture, and low enough to stand whole in a hover.
using System.Globalization;
using System.Text;

namespace ChordLang.Features.Hovers;

/// <summary>Draws grips.</summary>
public static class FretPicture
{
    /// <summary>The height in pixels that no picture exceeds: editors cut a hover off soon after.</summary>
    public const int Highest = 150;

    private const double Left = 46, Right = 40, Top = 14, Bottom = 20, Fret = 40, WidestGap = 18, Dot = 8.4;
    private const string Ground = "#fffdf7", Ink = "#20242c", Wire = "#8d8a80", Finger = "#8a4f0f", Family = "DejaVu Sans,Verdana,Arial,sans-serif";

    /// <summary>The picture as an SVG document; roots are dark, other degrees brown, open strings are rings, silent ones crosses.</summary>
    public static string Svg(FretDiagram grip)
    {
        var strings = grip.Voicing.Strings;
        var gap = Math.Min(WidestGap, (Highest - Top - Bottom) / Math.Max(1, strings - 1));
        var (frets, low) = (grip.Last - grip.First + 1, Top + gap * (strings - 1));
        var (width, height) = (Left + Fret * frets + Right, low + Bottom);
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:0.#}\" height=\"{height:0.#}\" font-family=\"{Family}\" text-anchor=\"middle\">");
        svg.Append(CultureInfo.InvariantCulture, $"<rect width=\"100%\" height=\"100%\" rx=\"4\" fill=\"{Ground}\"/>");
        for (var fret = 0; fret <= frets; fret++)
            // The nut is where the neck ends, so it is drawn only where fret 1 is the first.
            Line(svg, Left + Fret * fret, Top, Left + Fret * fret, low, fret == 0 && grip.First == 1 ? Ink : Wire, fret == 0 && grip.First == 1 ? 4 : 1);
        for (var s = 1; s <= strings; s++)
            Line(svg, Left, Top + gap * (s - 1), Left + Fret * frets, Top + gap * (s - 1), Ink, 0.7 + 0.9 * (s - 1) / strings);
        for (var fret = grip.First; fret <= grip.Last; fret++)
            Words(svg, Left + Fret * (fret - grip.First + 0.5), low + 15, 10, Ink, $"{fret}");
        for (var s = 1; s <= strings; s++)
            String(svg, grip, s, Top + gap * (s - 1), Math.Min(Dot, gap / 2), Left + Fret * frets + Right / 2);
        return svg.Append("</svg>").ToString();
    }

    private static void String(StringBuilder svg, FretDiagram grip, int s, double y, double radius, double end)
    {
        var degree = grip.Degrees[s - 1];
        if (grip.Pitches[s - 1] is { } pitch)
            Words(svg, end, y + 3.5, 10, Ink, $"{pitch}");
        switch (grip.Voicing[s])
        {
            case null:
                Words(svg, Left - 12, y + 3.5, 11, Ink, "×");
                break;
            case 0:
                svg.Append(CultureInfo.InvariantCulture, $"<circle cx=\"{Left - 12:0.#}\" cy=\"{y:0.#}\" r=\"4\" fill=\"none\" stroke=\"{Ink}\" stroke-width=\"1.4\"/>");
                Words(svg, Left - 30, y + 3.5, 10, Ink, degree);
                break;
            case { } fret:
                var x = Left + Fret * (fret - grip.First + 0.5);
                // A word of three signs needs more room than a circle has.
                var half = Math.Max(radius, 3.3 * degree.Length + 2);
                svg.Append(CultureInfo.InvariantCulture, $"<rect x=\"{x - half:0.#}\" y=\"{y - radius:0.#}\" width=\"{2 * half:0.#}\" height=\"{2 * radius:0.#}\" rx=\"{radius:0.#}\" fill=\"{(degree == "R" ? Ink : Finger)}\"/>");
                Words(svg, x, y + 3.4, 9.5, Ground, degree);
                break;
        }
    }

    private static void Line(StringBuilder svg, double x1, double y1, double x2, double y2, string colour, double width) =>
        svg.Append(CultureInfo.InvariantCulture, $"<path d=\"M{x1:0.#} {y1:0.#}L{x2:0.#} {y2:0.#}\" stroke=\"{colour}\" stroke-width=\"{width:0.##}\"/>");

    // What is written are degrees, pitches and numbers: nothing in them needs escaping in XML.
    private static void Words(StringBuilder svg, double x, double y, double size, string colour, string words) =>
        svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{x:0.#}\" y=\"{y:0.#}\" font-size=\"{size:0.#}\" fill=\"{colour}\">{words}</text>");
}
