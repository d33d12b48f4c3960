// The sizes of all text in a drawing, and how wide it comes out: one table for the style sheet and for the measuring.
using System.Collections.Frozen;

namespace ChordLang.Interchange.Sheet;

/// <summary>A kind of text in a drawing.</summary>
/// <param name="Class">Its class in the style sheet.</param>
/// <param name="Size">Height of its em, in units of the drawing.</param>
/// <param name="Bold">True for bold.</param>
/// <param name="Italic">True for italics.</param>
internal sealed record Face(string Class, double Size, bool Bold = false, bool Italic = false)
{
    public static readonly Face Digit = new("d", 11, true);
    public static readonly Face Grace = new("gd", 8.5, true);
    public static readonly Face Root = new("cr", 15, true);
    public static readonly Face Suffix = new("cs", 10.5, true);
    public static readonly Face Minor = new("cq", 12.5, true);
    public static readonly Face Under = new("cu", 9.5, false, true);
    public static readonly Face Plain = new("t", 9);
    public static readonly Face Remark = new("i", 9.5, false, true);
    public static readonly Face BarNumber = new("n", 8.5);
    public static readonly Face Tuplet = new("tu", 9, true, true);
    public static readonly Face StringName = new("sn", 8);
    public static readonly Face FingerDigit = new("fd", 6.5, true);
    public static readonly Face Direction = new("te", 10.5, true);

    public static readonly Face[] All = [Digit, Grace, Root, Suffix, Minor, Under, Plain, Remark, BarNumber, Tuplet, StringName, FingerDigit, Direction];

    /// <summary>The fonts asked for; all of them have the widths below.</summary>
    public const string Family = "'Liberation Sans',Arimo,Arial,Helvetica,sans-serif";

    // Advance widths in thousandths of an em, U+0020 to U+007E, as the hmtx tables of Liberation Sans have them (read with npm opentype.js).
    private static readonly short[] Regular =
    [
        278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
        1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
        333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
    ];

    private static readonly short[] Heavy =
    [
        278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
        975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
        333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
    ];

    private static readonly FrozenDictionary<char, short> Others = new Dictionary<char, short>
    {
        ['Δ'] = 719, ['ø'] = 611, ['°'] = 400, ['½'] = 834, ['–'] = 556, ['·'] = 333, ['×'] = 584, ['‹'] = 333, ['›'] = 333,
    }.ToFrozenDictionary();

    /// <summary>Width of a text, in units of the drawing. A sign that the table lacks counts as a wide one.</summary>
    public double Width(string text)
    {
        var table = Bold ? Heavy : Regular;
        var sum = 0;
        foreach (var c in text)
            sum += c is >= ' ' and <= '~' ? table[c - ' '] : Others.TryGetValue(c, out var w) ? w : char.IsLowSurrogate(c) ? 0 : char.IsSurrogate(c) || c > 0x2E80 ? 1000 : 700;
        return sum * Size / 1000;
    }
}
