// Teaching text: Markdown to HTML, words only; what could run, load or lead elsewhere stays the text it is.
using System.Text;
using Markdig;
using Markdig.Renderers;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace ChordLang.Interchange.Sheet;

/// <summary>Writes prose.</summary>
internal static class Prose
{
    // Without HTML, and with little depth: a nest of quotes must not exhaust the stack.
    private static readonly MarkdownPipeline Plain = new MarkdownPipelineBuilder().DisableHtml().Build();

    /// <summary>Lines of Markdown as HTML.</summary>
    public static string Html(IEnumerable<string> lines)
    {
        var text = string.Join('\n', lines.Select(Clean));
        MarkdownDocument document;
        try
        {
            document = Markdown.Parse(text, Plain);
        }
        catch (ArgumentException)     // what the library will not read (nesting beyond its limit) is printed as it stands
        {
            return $"<p>{Markup.Escape(text)}</p>\n";
        }
        foreach (var heading in document.Descendants<HeadingBlock>())
            heading.Level = Math.Min(6, heading.Level + 2);
        foreach (var link in document.Descendants<LinkInline>().ToList())
            Unlink(link);
        foreach (var link in document.Descendants<AutolinkInline>().ToList())
            link.ReplaceBy(new LiteralInline(link.Url));
        using var writer = new StringWriter();
        var renderer = new HtmlRenderer(writer);
        Plain.Setup(renderer);
        renderer.Render(document);
        return writer.ToString();
    }

    // A sheet is handed out on paper: of a link its words remain.
    private static void Unlink(LinkInline link)
    {
        while (link.FirstChild is { } child)
        {
            child.Remove();
            link.InsertBefore(child);
        }
        link.Remove();
    }

    // What a page cannot carry, or what would turn the order of its letters about, goes before anything reads the text.
    private static string Clean(string line)
    {
        var text = new StringBuilder(line.Length);
        foreach (var rune in line.EnumerateRunes())
            text.Append(rune.Value == '\t' || Markup.Carried(rune) ? rune.ToString() : "\uFFFD");
        return text.ToString();
    }
}
