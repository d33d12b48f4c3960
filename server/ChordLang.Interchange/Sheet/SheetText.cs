// The words of a page that stand around its lines: head, headings, teaching text; the same on the page to hand out and beside the editor.
using System.Collections.Immutable;
using System.Text;
using ChordLang.Arrangement.Music;

namespace ChordLang.Interchange.Sheet;

/// <summary>Writes the words of a page as HTML; all that comes from the text is escaped.</summary>
internal sealed class SheetText(Piece piece)
{
    private int next;

    /// <summary>Title, author, what holds from the start.</summary>
    public static string Head(Piece piece, SheetOptions options)
    {
        var head = new StringBuilder($"<header>\n<h1>{Title(piece)}</h1>\n");
        if (piece.By is { } by)
            head.Append("<p class=\"by\">").Append(Markup.Escape(by)).Append("</p>\n");
        head.Append("<ul class=\"facts\">");
        foreach (var fact in Facts.Of(piece.Bars.IsEmpty ? piece.Settings : piece.Bars[0].Settings))
            head.Append("<li>").Append(Markup.Escape(fact)).Append("</li>");
        if (options.Skeleton.Count > 0)
            head.Append("<li>dots under the names: what remains without decoration</li>");
        return head.Append("</ul>\n</header>\n").ToString();
    }

    /// <summary>The title, escaped.</summary>
    public static string Title(Piece piece) => piece.Title is { Length: > 0 } title ? Markup.Escape(title) : "Untitled";

    /// <summary>The teaching text before all music.</summary>
    public string Lead() => Text("lead", "", piece.Prose);

    /// <summary>The section names that are written before a line, and their text; asked for line by line. A section that is played again is a line of words.</summary>
    public string Before(int first, int last)
    {
        var opens = piece.Bars[first].Number == 0 && last > first ? first + 1 : first;
        return Headings(piece.Bars[opens].Line);
    }

    /// <summary>The section names behind the last line.</summary>
    public string Rest() => Headings(int.MaxValue);

    /// <summary>The teaching text under the bars of a line.</summary>
    public string After(int first, int last)
    {
        var text = "";
        for (var i = first; i <= last; i++)
            text += Text("note", first == last ? "" : SheetPage.Bars(piece, i, i), piece.Bars[i].Prose);
        return text;
    }

    private string Headings(int line)
    {
        var text = "";
        for (; next < piece.Sections.Length && piece.Sections[next].Line < line; next++)
        {
            var section = piece.Sections[next];
            text += $"<h2>{Markup.Escape(section.Name)}{(section.Again ? " again" : "")}</h2>\n{Text("lead", "", section.Prose)}";
        }
        return text;
    }

    private static string Text(string style, string about, ImmutableArray<string> prose) => prose.All(p => p.Trim().Length == 0) ? ""
        : $"<div class=\"{style}\">{(about.Length > 0 ? $"<p class=\"bars\">{about}</p>" : "")}{Prose.Html(prose)}</div>\n";
}
