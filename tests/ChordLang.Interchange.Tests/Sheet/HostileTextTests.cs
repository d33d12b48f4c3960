// Whatever is written in a lesson stays words on its sheet: nothing runs, nothing loads, nothing leads elsewhere.
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using ChordLang.Interchange.Sheet;

namespace ChordLang.Interchange.Tests.Sheet;

public sealed partial class HostileTextTests
{
    private static readonly string[] Elements =
    [
        "html", "head", "meta", "title", "style", "body", "svg", "defs", "path", "main", "header", "h1", "h2", "h3", "h4", "h5", "h6", "p", "ul", "ol", "li", "div", "section",
        "g", "use", "text", "circle", "strong", "em", "code", "pre", "blockquote", "hr", "br", "desc",
    ];

    private static readonly string[] Attributes =
    [
        "lang", "charset", "http-equiv", "content", "name", "class", "aria-hidden", "aria-label", "aria-labelledby", "focusable", "xmlns", "viewBox", "d", "id", "href", "transform", "x", "y", "cx", "cy", "r",
        "fill", "stroke-width", "width", "height", "role", "start",
    ];

    public static TheoryData<string> Attacks =>
    [
        "<script>alert(1)</script>", "\"><img src=x onerror=alert(1)>", "</style><script>alert(1)</script>", "</title><svg onload=alert(1)>", "' onmouseover='alert(1)", "&lt;script&gt;&#60;b&#62;",
        "[words](javascript:alert(1))", "![words](https://example.org/x.png)", "<javascript:alert(1)>", "<https://example.org>", "]]><!--", "\u202Egnp.txt\u0007", "[a]: javascript:alert(1)\n> [a]", "`</code><script>alert(1)</script>`", "{{alert(1)}}", "\uD800",
    ];

    [Theory]
    [MemberData(nameof(Attacks))]
    public void Hostile_text_in_every_field_stays_text(string attack)
    {
        var line = attack.Replace("\n", "\n> ", StringComparison.Ordinal);
        var quoted = attack.Replace("\n", " ", StringComparison.Ordinal).Replace("\"", "”", StringComparison.Ordinal);
        var music = Drawn.Text($"title {quoted}\nby {quoted}\nfeel {quoted}\ntags {quoted}\nkey {quoted}\nstrings {quoted}\n> {line}\nsection {quoted}\n> {line}\n| C{quoted}   3 {quoted}\n    {quoted}: 1 x-3-2-0-1-0 \"{quoted}\"   3 {quoted}\n> {line}\n"
            + $"| Am7\n    1 5@3 \"{quoted}\" is C{quoted}\n");
        foreach (var staves in Enum.GetValues<Staves>())
        {
            var options = new SheetOptions { Staves = staves, UnderChords = Enumerable.Range(0, music.Piece.Tree.Source.Text.Length).ToDictionary(i => i, _ => attack) };
            var page = SheetPage.Html(music.Piece, music.Placed, options);
            foreach (var (name, attributes) in Drawn.Tags(page[(page.IndexOf("<html", StringComparison.Ordinal))..]))
            {
                Assert.Contains(name, Elements);
                Assert.All(attributes.Where(a => !a.Name.StartsWith("data-", StringComparison.Ordinal)), a => Assert.Contains(a.Name, Attributes));
                Assert.All(attributes.Where(a => a.Name == "href"), a => Assert.StartsWith("#clg-", a.Value, StringComparison.Ordinal));
            }
            Assert.DoesNotContain(page, c => char.IsControl(c) && c is not ('\n' or '\t'));
            Assert.DoesNotContain('\u202E', page);
            Assert.NotNull(Drawn.Svg(music, options).Root);     // well formed, whatever was written
        }
    }

    [Fact]
    public void The_words_themselves_are_still_there() =>
        Assert.Contains("&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;co&quot;", Page("title <script>alert(1)</script> & \"co\"\n\n| C\n"), StringComparison.Ordinal);

    [Fact]
    public void Prose_is_set_as_Markdown_and_its_links_are_words()
    {
        var page = Page("> **Loud** and *soft*, see [the tune](https://example.org).\n\n| C\n");
        Assert.Contains("<strong>Loud</strong> and <em>soft</em>, see the tune.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("example.org", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_nest_of_quotes_ends_no_process() => Assert.Contains("deep", Page($"> {new string('>', 5000)} deep\n> {new string('*', 5000)}\n> {new string('[', 5000)}\n\n| C\n"), StringComparison.Ordinal);

    [Fact]
    public void The_policy_of_the_page_allows_its_own_style_and_nothing_else()
    {
        var page = Page("title A\n\n| C\n");
        var style = Style().Match(page).Groups[1].Value;
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(style)));
        Assert.Contains($"content=\"default-src 'none'; style-src 'sha256-{hash}'; base-uri 'none'; form-action 'none'\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page, StringComparison.Ordinal);
        Assert.DoesNotContain("url(", style, StringComparison.Ordinal);
        Assert.DoesNotContain("@import", style, StringComparison.Ordinal);
    }

    private static string Page(string text) => Drawn.Text(text) is var m ? SheetPage.Html(m.Piece, m.Placed, new()) : "";

    [GeneratedRegex("<style>(.*?)</style>", RegexOptions.Singleline)]
    private static partial Regex Style();
}
