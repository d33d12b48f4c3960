// The canonical text, by examples.
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Tests.Formatting;

public class FormatterTests
{
    [Theory]
    [InlineData("title  Low Water\nscale-length   628 mm", "title   Low Water\nscale-length 628 mm")]
    [InlineData("Key: G  Major", "key     G major")]
    [InlineData("shape  a-b=x", "shape  a-b=x")]
    [InlineData("shape  low =  x35453", "shape low = x-3-5-4-5-3")]
    [InlineData("| C D", "| C   3 D")]
    [InlineData("| 1 C / D /", "| C   3 D")]
    [InlineData("|C|D|", "| C | D")]
    [InlineData("| C | |", "| C | |")]
    [InlineData("| C D E", "| C D E")]
    [InlineData("meter 3/4\n| C D E", "meter   3/4\n| C   2 D   3 E")]
    [InlineData("pickup from 4\n| C", "pickup from 4\n| C")]
    [InlineData("| C−7 3 E♭Δ", "| C−7   3 E♭Δ")]
    [InlineData("1 C4 2 D  3+2/4 E ring  until 4", "    1 C4   2 D4   3& E4 ring until 4")]
    [InlineData("1 to 2& C4 D E F", "    1 C4   1& D4   2 E4   2& F4")]
    [InlineData("1 to 4& C4 D E", "    1 to 4& C4 D4 E4")]
    [InlineData(" top: 1 C4 3 E4\n low: 1 x35453 fermata 3 G3", "    top:  1 C4                    3 E4\n    low:  1 x-3-5-4-5-3 fermata   3 G3")]
    [InlineData("1 D4 rign\n1   E4", "1 D4 rign\n    1 E4")]
    [InlineData("1 x–3–5  Ring", "    1 x-3-5 ring")]
    [InlineData("> words  \n\n\n// so  ", "> words  \n\n\n// so")]
    [InlineData("repeat\n ending 1 \n end", "repeat 2\nending 1\nend")]
    [InlineData("1 D4\r\n2 E4\r", "    1 D4\r\n    2 E4\r")]
    public void Text_becomes_canonical(string text, string canonical)
    {
        var once = Formatter.Formatted(SourceText.From(text));
        Assert.Equal(canonical, once.Text);
        Assert.Empty(Formatter.Format(SyntaxTree.Parse(once)));
    }
}
