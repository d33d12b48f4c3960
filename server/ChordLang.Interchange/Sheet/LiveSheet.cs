// The sheet of a piece that is being written: of one version of it the next draws only what looks otherwise.
using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;

namespace ChordLang.Interchange.Sheet;

/// <summary>A part of a live sheet: a line, or words around lines.</summary>
/// <param name="Id">Equal for parts that look and read alike, wherever their text stands.</param>
/// <param name="Html">Of words: the markup. Of a line: empty.</param>
/// <param name="Line">The line, or null for words.</param>
public sealed record LivePart(string Id, string Html, LiveLine? Line);

/// <summary>A drawn line.</summary>
/// <param name="Name">Which bars it holds, in words.</param>
/// <param name="From">Where its text begins; <c>data-from</c> and <c>data-to</c> in the drawing count from here.</param>
/// <param name="To">Where its text ends.</param>
/// <param name="Svg">The drawing.</param>
/// <param name="Spoken">Its text alternative.</param>
/// <param name="Margin">The words with which it is heard, as markup.</param>
public sealed record LiveLine(string Name, int From, int To, string Svg, ImmutableArray<string> Spoken, string Margin);

/// <summary>A version of a live sheet. Immutable.</summary>
public sealed partial class LiveSheet
{
    private readonly record struct Known(ImmutableArray<int> Content, long Number, ImmutableArray<string> Grips);

    private readonly record struct Drawn(string Id, string Name, int Length, string Svg, ImmutableArray<string> Spoken, string Margin, ImmutableArray<string> Glyphs);

    private readonly string choice;
    // By what goes in: the content of a bar, a bar with the grips over it, a line with its neighbours, words.
    private readonly Dictionary<ImmutableArray<int>, Known> bars = new(new BarContent.Equality());
    private readonly Dictionary<(long, ulong), BarWidth> widths = [];
    private readonly Dictionary<string, Drawn> lines = new(StringComparer.Ordinal);
    private long numbers;

    private LiveSheet(Piece piece, PlacedPiece placed, SheetOptions options, LiveSheet? before)
    {
        var voices = PlayedThrough.VoicesOf(piece);
        choice = string.Create(CultureInfo.InvariantCulture, $"{options.Staves} {options.Diagrams} {options.Large} {options.Width} {options.Skeleton.Count > 0} {Measure.Single(piece)} {string.Join('\n', voices)}");
        if (before?.choice != choice)
            before = null;
        numbers = before?.numbers ?? 0;
        var drawing = new Drawing(piece, placed, options);
        var (contents, grips) = Measured(piece, drawing, options, before);
        var parts = ImmutableArray.CreateBuilder<LivePart>();
        var text = new SheetText(piece);
        Words(parts, SheetText.Head(piece, options));
        Words(parts, text.Lead());
        var glyphs = new HashSet<string>(StringComparer.Ordinal);
        foreach (var line in drawing.Lines([.. contents.Select((c, i) => widths[(c, grips[i])])]))
        {
            var from = piece.Bars[line.First].Span.Start;
            var key = Key(piece, line, contents, grips, from);
            if (!lines.TryGetValue(key, out var drawn))
            {
                if (before is null || !before.lines.TryGetValue(key, out drawn))
                    (drawn, Redrawn) = (Draw(piece, drawing, line, grips, options, voices), Redrawn + 1);
                lines[key] = drawn;
            }
            glyphs.UnionWith(drawn.Glyphs);
            var system = (First: line.First, Last: line.First + line.Count - 1);
            Words(parts, text.Before(system.First, system.Last));
            parts.Add(new(drawn.Id, "", new(drawn.Name, from, from + drawn.Length, drawn.Svg, drawn.Spoken, drawn.Margin)));
            Words(parts, text.After(system.First, system.Last));
        }
        Words(parts, text.Rest());
        (Parts, Signs, Style) = (parts.ToImmutable(), SheetPage.Definitions(glyphs), SheetPage.Style(options));
        Look = before is not null && before.Signs == Signs && before.Style == Style ? before.Look : Id(Style + Signs);
    }

    /// <summary>Its parts from top to bottom; the first is the head.</summary>
    public ImmutableArray<LivePart> Parts { get; }

    /// <summary>An SVG <c>defs</c> element with the outlines that the drawings refer to.</summary>
    public string Signs { get; }

    /// <summary>The style sheet of the page.</summary>
    public string Style { get; }

    /// <summary>Equal for equal <see cref="Style"/> and <see cref="Signs"/>.</summary>
    public string Look { get; }

    /// <summary>How many lines this version had to draw.</summary>
    public int Redrawn { get; }

    /// <summary>The sheet of a piece.</summary>
    /// <param name="piece">The piece, as written.</param>
    /// <param name="placed">Its notes on strings.</param>
    /// <param name="options">What was asked for.</param>
    /// <param name="before">The sheet of an earlier state of it: what has not changed is taken over, the answer is the same.</param>
    public static LiveSheet Of(Piece piece, PlacedPiece placed, SheetOptions options, LiveSheet? before = null) => new(piece, placed, options, before);

    // The number of each bar's content, and which of its grips stand over it; what is new is measured.
    private (long[] Contents, ulong[] Grips) Measured(Piece piece, Drawing drawing, SheetOptions options, LiveSheet? before)
    {
        var content = new BarContent(piece, drawing, options);
        var (contents, grips, shown) = (new long[piece.Bars.Length], new ulong[piece.Bars.Length], new HashSet<string>(StringComparer.Ordinal));
        var here = bars.GetAlternateLookup<ReadOnlySpan<int>>();
        for (var i = 0; i < contents.Length; i++)
        {
            var words = content.Of(i);
            if (!here.TryGetValue(words, out var known))
            {
                if (before is null || !before.bars.GetAlternateLookup<ReadOnlySpan<int>>().TryGetValue(words, out known))
                    known = new([.. words], numbers++, [.. drawing.Measure.Grips(i).Select(g => g.Shape.Key)]);
                bars[known.Content] = known;
            }
            contents[i] = known.Number;
            for (var g = 0; g < known.Grips.Length; g++)
                if (shown.Add(known.Grips[g]) || options.Diagrams == Diagrams.Every)
                    grips[i] |= 1UL << Math.Min(g, 63);
            var one = (known.Number, grips[i]);
            if (!widths.ContainsKey(one))
                widths[one] = before is not null && before.widths.TryGetValue(one, out var wide) ? wide : Plan(drawing, i, grips[i]).Width;
        }
        return (contents, grips);
    }

    private static BarPlan Plan(Drawing drawing, int bar, ulong grips)
    {
        var g = 0;
        return drawing.Measure.Of(bar, _ => (grips >> Math.Min(g++, 63) & 1) > 0);
    }

    private static Drawn Draw(Piece piece, Drawing drawing, Line line, ulong[] grips, SheetOptions options, ImmutableArray<string> voices)
    {
        var system = drawing.Draw([.. Enumerable.Range(line.First, line.Count).Select(i => Plan(drawing, i, grips[i]))], line.Stretch);
        // Places in the text count from where the line's text begins, or an edit would change every line below it.
        var svg = Places().Replace(system.Svg, m => string.Create(CultureInfo.InvariantCulture, $"data-{m.Groups[1].Value}=\"{int.Parse(m.Groups[2].ValueSpan, CultureInfo.InvariantCulture) - system.From}\""));
        var name = SheetPage.Bars(piece, system.FirstBar, system.LastBar);
        var margin = HeardPage.Margin(piece, system.FirstBar, system.LastBar, options, voices);
        return new(Id(string.Join('\n', [name, svg, .. system.Spoken, margin])), name, system.To - system.From, svg, system.Spoken, margin, system.Glyphs);
    }

    // A line hangs on its bars, on what stands before and behind it (ties, slurs), and on how its text lies.
    private static string Key(Piece piece, Line line, long[] contents, ulong[] grips, int from)
    {
        var key = new StringBuilder();
        var (first, last) = (line.First, line.First + line.Count - 1);
        key.Append(first).Append(' ').Append(last == contents.Length - 1 ? "end " : "").Append(BitConverter.DoubleToInt64Bits(line.Stretch)).Append(' ')
            .Append(first > 0 ? contents[first - 1] : -1).Append(' ').Append(last + 1 < contents.Length ? contents[last + 1] : -1);
        for (var i = first; i <= last; i++)
            key.Append(' ').Append(contents[i]).Append(',').Append(grips[i]).Append(',').Append(piece.Bars[i].Span.Start - from);
        return key.ToString();
    }

    private static void Words(ImmutableArray<LivePart>.Builder parts, string html)
    {
        if (html.Length > 0)
            parts.Add(new(Id(html), html, null));
    }

    private static string Id(string content) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(content)).AsSpan(0, 10));

    [GeneratedRegex("data-(from|to)=\"(\\d+)\"")]
    private static partial Regex Places();
}
