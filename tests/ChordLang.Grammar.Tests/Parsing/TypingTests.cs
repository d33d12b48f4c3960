// Phone and mail typing is read as the plain form, with one safe fix a line.
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Grammar.Tests.Parsing;

public class TypingTests
{
    [Theory]
    [InlineData("1 x–3−5—4‐5‑x", "1 x-3-5-4-5-x")]
    [InlineData("1 X-3-5-4-5-X  2 X35453  3 ×-3-5", "1 x-3-5-4-5-x  2 x35453  3 x-3-5")]
    [InlineData("1\u00A0D4  2 E4\u202Fring", "1 D4  2 E4 ring")]
    [InlineData("1 D4 “let it – ring”", "1 D4 \"let it – ring\"")]
    [InlineData("1 D4 Ring Until 3  3 Rest", "1 D4 ring until 3  3 rest")]
    [InlineData("1 eb4+g4", "1 Eb4+G4")]
    [InlineData("1 E♭4 2 F♯4", "1 Eb4 2 F#4")]
    [InlineData("title: Ferry – at “Dusk”", "title  Ferry – at “Dusk”")]
    [InlineData("Key G Major", "key G major")]
    [InlineData("scale–length 628 mm", "scale-length 628 mm")]
    [InlineData("Section Bridge", "section Bridge")]
    [InlineData("Da Capo al Fine", "da capo al fine")]
    [InlineData("use “shapes.chl”", "use \"shapes.chl\"")]
    [InlineData("shape low–drop = X-3-5", "shape low-drop = x-3-5")]
    [InlineData("|\u00A0Am7", "| Am7")]
    public void It_is_read_as_the_plain_form(string typed, string plain)
    {
        var (tree, meant) = (SyntaxTree.Parse(typed), SyntaxTree.Parse(plain));
        var finding = Assert.Single(tree.Lines[0].Findings);
        Assert.Equal(SyntaxCodes.Typing, finding.Code);
        Assert.True(finding.Fixes[0].Safe);
        Assert.Equal(plain.Replace("  ", " ", StringComparison.Ordinal), tree.Source.With(finding.Fixes[0].Edits).Text.Replace("  ", " ", StringComparison.Ordinal));
        Assert.Empty(meant.Lines[0].Findings);
        Assert.Equal(Meaning.Of(meant), Meaning.Of(tree));
    }

    [Theory]
    [InlineData("| E♭Δ | C−7 | F♯ø | B° | C–7")]
    [InlineData("> “Let it ring” – so")]
    [InlineData("// “not” – printed")]
    [InlineData("title Ferry – “Dusk”")]
    [InlineData("1 D4 is C−7")]
    [InlineData("1 D4 \"so – it is\"")]
    public void Free_text_and_chord_symbols_stay_as_written(string line) => Assert.Empty(SyntaxTree.Parse(line).Lines[0].Findings);

    [Fact]
    public void A_byte_order_mark_is_no_slip()
    {
        var source = SourceText.From("\uFEFFtitle Ferry\n"u8);
        var tree = SyntaxTree.Parse(source);
        Assert.Empty(tree.Lines[0].Findings);
        Assert.Equal(new TextValue("Ferry"), Assert.IsType<SettingLine>(tree.Lines[0]).Value);
    }
}
