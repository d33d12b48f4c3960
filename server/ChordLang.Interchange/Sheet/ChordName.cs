// A chord symbol as it is set in type: the root large, what follows raised, flats and sharps as music signs.
using ChordLang.Arrangement.Music;

namespace ChordLang.Interchange.Sheet;

/// <summary>A measured chord name.</summary>
internal sealed class ChordName
{
    private const double RootSpace = 4.1, SuffixSpace = 2.9, Raised = 4.6;

    private readonly record struct Run(string Text, string? Glyph, double X, double Y, Face Face, double Space);

    private readonly List<Run> runs = [];

    public ChordName(ChordSpan span)
    {
        Span = span;
        if (span.Symbol is not { } symbol)
        {
            Say("N.C.", Face.Suffix, 0);
            return;
        }
        Name(symbol.Root, Face.Root, RootSpace, 0);
        Width += 0.6;
        Suffix(symbol.Suffix);
        if (symbol.Bass is { } bass)
        {
            Say("/", Face.Root, 0);
            Name(bass, Face.Minor, SuffixSpace + 0.6, 0);
        }
    }

    public ChordSpan Span { get; }

    /// <summary>Width in units of the drawing.</summary>
    public double Width { get; private set; }

    public void Draw(Canvas canvas, double x, double y, string data)
    {
        canvas.Raw($"<g class=\"cn\"{data}>");
        foreach (var run in runs)
            if (run.Glyph is { } glyph)
                canvas.Glyph(glyph, x + run.X, y + run.Y, run.Space);
            else
                canvas.Text(x + run.X, y + run.Y, run.Text, run.Face);
        canvas.Raw("</g>");
    }

    private void Name(string name, Face face, double space, double y)
    {
        Say(name[..1], face, y);
        foreach (var sign in name.AsSpan(1))
            if (Sign(sign) is { } glyph)
                Glyph(glyph, space, y - space * 1.05);
            else
                Say(sign.ToString(), face, y);
    }

    private void Suffix(string suffix)
    {
        // A plain m or minus stays on the line; it belongs to the root as spoken.
        var minor = suffix.StartsWith('m') && !suffix.StartsWith("maj", StringComparison.Ordinal) && !suffix.StartsWith("ma", StringComparison.Ordinal) ? suffix.StartsWith("min", StringComparison.Ordinal) ? 3 : suffix.StartsWith("mi", StringComparison.Ordinal) ? 2 : 1
            : suffix.StartsWith('-') ? 1 : 0;
        if (minor > 0)
            Say(suffix[..minor] is "-" ? "–" : suffix[..minor], Face.Minor, 0);
        for (int at = minor, from = minor; at <= suffix.Length; at++)
        {
            var glyph = at == suffix.Length ? null : suffix[at] is '♭' or '♯' || suffix[at] is 'b' or '#' && at + 1 < suffix.Length && char.IsAsciiDigit(suffix[at + 1]) ? Sign(suffix[at]) : null;
            if (at < suffix.Length && glyph is null)
                continue;
            if (at > from)
                Say(suffix[from..at], Face.Suffix, -Raised);
            if (glyph is not null)
                Glyph(glyph, SuffixSpace, -Raised - SuffixSpace * 1.05);
            from = at + 1;
        }
    }

    private void Say(string text, Face face, double y)
    {
        runs.Add(new(text, null, Width, y, face, 0));
        Width += face.Width(text);
    }

    private void Glyph(string name, double space, double y)
    {
        runs.Add(new("", name, Width + 0.4, y, Face.Suffix, space));
        Width += GlyphTable.All[name].Right * space / GlyphTable.Space + 0.9;
    }

    private static string? Sign(char sign) => sign switch { 'b' or '♭' => "accidentalFlat", '#' or '♯' => "accidentalSharp", _ => null };
}
