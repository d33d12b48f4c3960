// Draws what a command printed as a picture, so that the one in the README is never painted by hand.
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace ChordLang.Server.Tests.Docs;

/// <summary>Text with terminal colours as SVG.</summary>
internal static partial class TerminalPicture
{
    private const double Column = 8.4, Row = 19, Border = 16;
    private const int Widest = 104;

    /// <summary>An SVG picture of a prompt and what came after it, long lines wrapped at blanks, on an opaque ground.</summary>
    public static string Draw(string prompt, string output)
    {
        var lines = new[] { $"$ {prompt}" }.Concat(output.TrimEnd('\n').Split('\n')).SelectMany(Wrap).ToList();
        var columns = lines.Max(l => Colour().Replace(l, "").Length);
        var (width, height) = (columns * Column + 2 * Border, lines.Count * Row + 2 * Border);
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"""<svg xmlns="http://www.w3.org/2000/svg" width="{width:0}" height="{height:0}" viewBox="0 0 {width:0} {height:0}" role="img">""");
        svg.Append("\n<title>A finding in the terminal</title>\n<rect width=\"100%\" height=\"100%\" rx=\"6\" fill=\"#20242c\"/>\n");
        svg.Append("<g font-family=\"ui-monospace, Menlo, Consolas, 'DejaVu Sans Mono', monospace\" font-size=\"14\" fill=\"#e6e6e6\" xml:space=\"preserve\">\n");
        for (var i = 0; i < lines.Count; i++)
            if (lines[i].Length > 0)
                svg.Append(CultureInfo.InvariantCulture, $"""<text x="{Border:0}" y="{Border + Row * (i + 1) - 5:0}" textLength="{Colour().Replace(lines[i], "").Length * Column:0.#}">{Spans(lines[i])}</text>""").Append('\n');
        return svg.Append("</g>\n</svg>\n").ToString();
    }

    private static IEnumerable<string> Wrap(string line)
    {
        var indent = new string(' ', line.Length - line.TrimStart().Length + 2);
        while (Colour().Replace(line, "").Length > Widest)
        {
            var cut = line.LastIndexOf(' ', Widest + line.Length - Colour().Replace(line, "").Length);
            if (cut <= indent.Length)
                break;
            yield return line[..cut];
            line = indent + line[(cut + 1)..];
        }
        yield return line;
    }

    private static string Spans(string line)
    {
        var escaped = line.Replace("&", "&amp;", StringComparison.Ordinal).Replace("<", "&lt;", StringComparison.Ordinal);
        return Colour().Replace(escaped, m => m.Value switch
        {
            "\u001b[0m" => "</tspan>",
            "\u001b[1;33m" => "<tspan fill=\"#ffcf5c\" font-weight=\"bold\">",
            "\u001b[1;35m" => "<tspan fill=\"#ff8ad8\" font-weight=\"bold\">",
            _ => "<tspan fill=\"#6cd7e6\" font-weight=\"bold\">",
        });
    }

    [GeneratedRegex("\u001b\\[[0-9;]*m")]
    private static partial Regex Colour();
}
