// A sheet as one page that needs nothing else: title, prose, drawings, and their words for screen readers; nothing in it runs but what makes it sound, where that is asked for.
using System.Security.Cryptography;
using System.Text;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;

namespace ChordLang.Interchange.Sheet;

/// <summary>Writes pages and drawings that stand by themselves.</summary>
public static class SheetPage
{
    /// <summary>The HTML page of a piece. It loads nothing and holds no script but that of <see cref="SheetOptions.Sound"/>; its own policy forbids all else.</summary>
    /// <param name="piece">The piece, as written.</param>
    /// <param name="placed">Its notes on strings.</param>
    /// <param name="options">What was asked for.</param>
    public static string Html(Piece piece, PlacedPiece placed, SheetOptions options)
    {
        var systems = SheetWriter.Systems(piece, placed, options);
        var played = options.Sound ? PlayedThrough.Of(piece) : null;
        var style = Style(options);
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(style)));
        var page = new StringBuilder("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
            .Append($"<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'sha256-{hash}'; {(played is null ? "" : HeardPage.Policy)}base-uri 'none'; form-action 'none'\">\n")
            .Append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>").Append(SheetText.Title(piece)).Append("</title>\n<style>").Append(style).Append("</style>\n</head>\n<body>\n")
            .Append("<svg class=\"defs\" aria-hidden=\"true\" focusable=\"false\">").Append(Definitions(systems.SelectMany(s => s.Glyphs))).Append("</svg>\n<main>\n").Append(SheetText.Head(piece, options));
        if (played is not null)
            page.Append(HeardPage.Said);
        var text = new SheetText(piece);
        page.Append(text.Lead());
        foreach (var system in systems)
        {
            var bars = Bars(piece, system.FirstBar, system.LastBar);
            page.Append(text.Before(system.FirstBar, system.LastBar)).Append($"<section class=\"system\" aria-label=\"{bars}\">\n").Append(system.Svg).Append("\n<div class=\"spoken\">");
            foreach (var sentence in system.Spoken)
                page.Append("<p>").Append(Markup.Escape(sentence)).Append("</p>");
            page.Append("</div>\n").Append(played is null ? "" : HeardPage.Margin(piece, system.FirstBar, system.LastBar, options, played.Voices)).Append("</section>\n").Append(text.After(system.FirstBar, system.LastBar));
        }
        return page.Append(text.Rest()).Append("</main>\n").Append(played is null ? "" : HeardPage.End(played)).Append("</body>\n</html>\n").ToString();
    }

    /// <summary>All lines of a piece in one drawing, for placing in other documents; on a ground of its own, legible wherever it is shown.</summary>
    public static string Svg(Piece piece, PlacedPiece placed, SheetOptions options)
    {
        const double gap = 16, edge = 12;
        var systems = SheetWriter.Systems(piece, placed, options);
        var width = systems.Select(s => s.Width).DefaultIfEmpty(options.Width).Max() + 2 * edge;
        var lines = new StringBuilder();
        var y = edge;
        foreach (var system in systems)
        {
            lines.Append($"<g data-first=\"{system.FirstBar}\" data-last=\"{system.LastBar}\" data-from=\"{system.From}\" data-to=\"{system.To}\" transform=\"translate({Canvas.N(edge)} {Canvas.N(y)})\">").Append(system.Drawing).Append("</g>\n");
            y += system.Height + gap;
        }
        var words = string.Join(' ', systems.SelectMany(s => s.Spoken));
        var (wide, high) = (Canvas.N(width), Canvas.N(Math.Max(edge, y - gap) + edge));
        return $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {wide} {high}\" width=\"{wide}\" height=\"{high}\" role=\"img\" aria-labelledby=\"title words\">\n"
            + $"<title id=\"title\">{Markup.Escape(piece.Title ?? "Untitled")}</title>\n<desc id=\"words\">{Markup.Escape(words)}</desc>\n<style>{SheetStyle.Alone()}</style>\n"
            + $"{Definitions(systems.SelectMany(s => s.Glyphs))}\n<path class=\"paper\" d=\"M0 0H{wide}V{high}H0z\"/>\n{lines}</svg>\n";
    }

    /// <summary>The style sheet of a page and its drawings.</summary>
    public static string Style(SheetOptions options) => SheetStyle.Page(options);

    /// <summary>The outlines that drawings refer to.</summary>
    /// <param name="names">SMuFL names.</param>
    public static string Definitions(IEnumerable<string> names) =>
        "<defs>" + string.Concat(names.Distinct().Order(StringComparer.Ordinal).Select(n => $"<path id=\"clg-{n}\" d=\"{GlyphTable.All[n].Path}\"/>")) + "</defs>";

    /// <summary>The words with which a bar is offered for practice: <c>Practise bar 5</c>.</summary>
    public static string PractiseWords(Bar bar) => HeardPage.Practise(bar);

    /// <summary>Which bars a line holds, in words: <c>Bars 5 to 8</c>.</summary>
    public static string Bars(Piece piece, int first, int last)
    {
        var (a, b) = (piece.Bars[first].Number, piece.Bars[last].Number);
        return a == b ? a == 0 ? "Pickup" : $"Bar {a}" : a == 0 ? $"Pickup to bar {b}" : $"Bars {a} to {b}";
    }
}
