// Writes SVG elements as text: numbers short, words escaped, music signs by reference.
using System.Globalization;
using System.Text;

namespace ChordLang.Interchange.Sheet;

/// <summary>A growing piece of SVG. Coordinates are units of the drawing, y downwards.</summary>
internal sealed class Canvas
{
    // Numbers as text, kept once written: a page holds tens of thousands of them, and few that are new.
    private const int Least = -2000, Kept = 12000;
    private static readonly string?[] Known = new string?[Kept];
    private static readonly System.Collections.Concurrent.ConcurrentDictionary<double, string> Scales = new();

    private readonly StringBuilder text = new();

    /// <summary>The signs that were drawn.</summary>
    public SortedSet<string> Glyphs { get; } = new(StringComparer.Ordinal);

    public Canvas Raw(string markup)
    {
        text.Append(markup);
        return this;
    }

    /// <summary>A straight line.</summary>
    public void Line(double x1, double y1, double x2, double y2, string style) =>
        text.Append("<path class=\"").Append(style).Append("\" d=\"M").Append(N(x1)).Append(' ').Append(N(y1)).Append('L').Append(N(x2)).Append(' ').Append(N(y2)).Append("\"/>");

    /// <summary>A path whose data are ready.</summary>
    public void Path(string data, string style) => text.Append("<path class=\"").Append(style).Append("\" d=\"").Append(data).Append("\"/>");

    /// <summary>A filled box.</summary>
    public void Box(double x, double y, double width, double height, string style) =>
        text.Append("<path class=\"").Append(style).Append("\" d=\"M").Append(N(x)).Append(' ').Append(N(y)).Append('h').Append(N(width)).Append('v').Append(N(height)).Append('h').Append(N(-width)).Append("z\"/>");

    public void Circle(double x, double y, double radius, string style) =>
        text.Append("<circle class=\"").Append(style).Append("\" cx=\"").Append(N(x)).Append("\" cy=\"").Append(N(y)).Append("\" r=\"").Append(N(radius)).Append("\"/>");

    /// <summary>A music sign at its SMuFL origin.</summary>
    /// <param name="name">Its SMuFL name.</param>
    /// <param name="x">Where its origin stands.</param>
    /// <param name="y">Likewise.</param>
    /// <param name="space">A staff space in units of the drawing.</param>
    /// <param name="data">Further attributes, ready as markup.</param>
    public void Glyph(string name, double x, double y, double space, string data = "")
    {
        Glyphs.Add(name);
        text.Append("<use href=\"#clg-").Append(name).Append('"').Append(data).Append(" transform=\"translate(").Append(N(x)).Append(' ').Append(N(y)).Append(")scale(")
            .Append(Scale(space)).Append(")\"/>");
    }

    /// <summary>A line of text on its baseline.</summary>
    /// <param name="x">Its left end, or its middle.</param>
    /// <param name="y">Its baseline.</param>
    /// <param name="words">What it says; escaped here.</param>
    /// <param name="face">Its kind.</param>
    /// <param name="middle">True where <paramref name="x"/> is its middle.</param>
    /// <param name="data">Further attributes, ready as markup.</param>
    public void Text(double x, double y, string words, Face face, bool middle = false, string data = "")
    {
        text.Append("<text class=\"").Append(face.Class).Append(middle ? " m" : "").Append("\" x=\"").Append(N(x)).Append("\" y=\"").Append(N(y)).Append('"').Append(data).Append('>');
        Markup.Escape(text, words);
        text.Append("</text>");
    }

    /// <summary>A curve with swelling middle from one point to another; <paramref name="rise"/> is negative for a curve upwards.</summary>
    public void Arc(double x1, double y1, double x2, double y2, double rise, string style = "arc")
    {
        var (a, b) = (x1 + (x2 - x1) * 0.25, x2 - (x2 - x1) * 0.25);
        var thick = rise + (rise < 0 ? -1.3 : 1.3);
        Path($"M{N(x1)} {N(y1)}C{N(a)} {N(y1 + rise)} {N(b)} {N(y2 + rise)} {N(x2)} {N(y2)}C{N(b)} {N(y2 + thick)} {N(a)} {N(y1 + thick)} {N(x1)} {N(y1)}z", style);
    }

    /// <summary>Takes in another one, moved.</summary>
    public void Add(Canvas other, double x, double y, string style)
    {
        if (other.text.Length == 0)
            return;
        text.Append("<g class=\"").Append(style).Append("\" transform=\"translate(").Append(N(x)).Append(' ').Append(N(y)).Append(")\">").Append(other.text).Append("</g>");
        Glyphs.UnionWith(other.Glyphs);
    }

    public override string ToString() => text.ToString();

    /// <summary>A number with at most one decimal place.</summary>
    public static string N(double value)
    {
        var tenths = (long)Math.Round(value * 10, MidpointRounding.AwayFromZero);
        return tenths is >= Least and < Least + Kept ? Known[tenths - Least] ??= Written(tenths) : Written(tenths);
    }

    private static string Written(long tenths) => tenths % 10 == 0 ? (tenths / 10).ToString(CultureInfo.InvariantCulture) : (tenths / 10.0).ToString("0.0", CultureInfo.InvariantCulture);

    private static string Scale(double space) => Scales.GetOrAdd(space, s => (s / GlyphTable.Space).ToString("0.####", CultureInfo.InvariantCulture));
}

/// <summary>Text as HTML and XML can carry it.</summary>
internal static class Markup
{
    private static readonly System.Buffers.SearchValues<char> Harmless = System.Buffers.SearchValues.Create(" !#$%()*+,-./0123456789:;=?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_`abcdefghijklmnopqrstuvwxyz{|}~");

    /// <summary>Escaped for content and for attributes in double quotes; what XML cannot carry becomes U+FFFD.</summary>
    public static string Escape(string words)
    {
        var text = new StringBuilder(words.Length + 8);
        Escape(text, words);
        return text.ToString();
    }

    public static void Escape(StringBuilder text, string words)
    {
        if (!words.AsSpan().ContainsAnyExcept(Harmless))
        {
            text.Append(words);
            return;
        }
        foreach (var rune in words.EnumerateRunes())     // a lone surrogate comes as U+FFFD
            switch (rune.Value)
            {
                case '&': text.Append("&amp;"); break;
                case '<': text.Append("&lt;"); break;
                case '>': text.Append("&gt;"); break;
                case '"': text.Append("&quot;"); break;
                case '\'': text.Append("&#39;"); break;
                case '\t' or '\n': text.Append((char)rune.Value); break;
                default: text.Append(Carried(rune) ? rune.ToString() : "\uFFFD"); break;
            }
    }

    /// <summary>False for control characters, for what XML has no place for, and for signs that turn the order of letters about.</summary>
    public static bool Carried(Rune rune) => rune.Value is not (< ' ' or (>= 0x7F and < 0xA0) or 0xFFFE or 0xFFFF or (>= 0x202A and <= 0x202E) or (>= 0x2066 and <= 0x2069));

    /// <summary>An attribute with the blank before it.</summary>
    public static string Attribute(string name, string value) => $" {name}=\"{Escape(value)}\"";
}
