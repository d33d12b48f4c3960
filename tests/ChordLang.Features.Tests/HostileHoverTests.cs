// Whatever is written in a lesson stays words in a hover: no link, no element, no emphasis comes of it.
using ChordLang.Features.Hovers;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using Markdig;
using Markdig.Extensions.Tables;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace ChordLang.Features.Tests;

public sealed class HostileHoverTests
{
    // A reader of Markdown that is not ours, with what editors switch on: bare addresses, tables, struck words.
    private static readonly MarkdownPipeline Reader = new MarkdownPipelineBuilder().UseAutoLinks().UsePipeTables().UseEmphasisExtras().UseTaskLists().Build();

    public static TheoryData<string> Attacks =>
    [
        "[words](command:workbench.action.terminal.new)", "<command:workbench.action.quit>", "![words](https://example.org/x.png)", "https://example.org/a?b=c", "see www.example.org now", "WWW.example.org",
        "mail someone@example.org", "mailto:someone@example.org", "ftp://example.org/x", "<b onclick=alert(1)>bold</b>", "&#91;words&#93;(command:x)", "&lt;b&gt;", "# heading", "- item", "+ item", "1. item", "1) item", "> quoted", "* * *",
        "`code`", "```", "~~~", "~~struck~~", "**strong** and _soft_", "[a]: command:x", "| a | b |", "\\[words](command:x)", "=====", "[ ] todo", "file:///etc/passwd",
    ];

    [Theory]
    [MemberData(nameof(Attacks))]
    public void Words_stay_words(string attack)
    {
        foreach (var text in new[] { attack, "Bar 3: " + attack, " " + attack })
        {
            var parsed = Plain(HoverText.Of(new(0, 0), text, text).Markdown());
            Assert.Equal([text.Trim(), text.Trim()], parsed.Select(p => string.Concat(p.Inline!.Descendants<LiteralInline>().Select(l => l.Content.ToString()))));
        }
    }

    [Theory]
    [MemberData(nameof(Attacks))]
    public void Hovers_of_a_hostile_lesson_hold_no_link(string attack)
    {
        var quoted = attack.Replace('"', '”');
        var source = SourceText.From($"title {attack}\nby {attack}\nkey C major\n> {attack}\nsection {quoted}\nshape {attack} = x-3-5-4-5-x\n| Cmaj7 3 {attack}\n    1 x-3-5-4-5-x \"{quoted}\" is {attack}\n    {attack}: 1 E4\n");
        var lesson = new Lesson(SyntaxTree.Parse(source));
        var hovers = Enumerable.Range(0, source.Text.Length).Select(i => HoverAt.Of(lesson, i)).OfType<HoverText>().Distinct().ToList();
        Assert.NotEmpty(hovers);
        foreach (var hover in hovers)
            Plain(hover.Markdown());
    }

    [Fact]
    public void Signs_that_turn_the_writing_or_steer_a_terminal_are_taken_out()
    {
        var said = HoverText.Of(new(0, 0), "a\u202Eb\u001B[31mc\u2066d\u2028e\nf").Markdown();
        Assert.Equal("a\uFFFDb\uFFFD\\[31mc\uFFFDd\uFFFDe f", said);
    }

    // Paragraphs of literal words, and the diagram of a grip; nothing else.
    private static List<ParagraphBlock> Plain(string markdown)
    {
        var document = Markdown.Parse(markdown, Reader);
        Assert.All(document, block => Assert.True(block is ParagraphBlock or FencedCodeBlock { Info: "text" }, $"{block.GetType().Name} in {markdown}"));
        Assert.DoesNotContain(document.Descendants(), d => d is LinkInline or AutolinkInline or HtmlInline or HtmlBlock or HtmlEntityInline or EmphasisInline or CodeInline or Table);
        return [.. document.OfType<ParagraphBlock>()];
    }
}
