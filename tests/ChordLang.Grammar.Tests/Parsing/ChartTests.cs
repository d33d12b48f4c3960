// Chart lines: bars, counts and symbols, and what is said where they cannot be read.
using ChordLang.Grammar.Syntax;
using ChordLang.Testing;

namespace ChordLang.Grammar.Tests.Parsing;

public class ChartTests
{
    [Theory]
    [InlineData("| 1 Am7 3 D7b9", "0ChordA:m7::Am7 2ChordD:7b9::D7b9")]
    [InlineData("| Gmaj7 | E7 | % | N.C.", "0ChordG:maj7::Gmaj7 | 0ChordE:7::E7 | 0BarAgain | 0NoChord")]
    [InlineData("|Am7|D7|", "0ChordA:m7::Am7 | 0ChordD:7::D7")]
    [InlineData("|", "")]
    [InlineData("| |", "")]
    [InlineData("| C | | D |", "0ChordC:::C |  | 0ChordD:::D")]
    [InlineData("| C / D /", "0ChordC:::C 2ChordD:::D")]
    [InlineData("| C7/B C6/9 C7/b9 C6/9/E", "0ChordC:7:B:C7/B 1ChordC:6/9::C6/9 2ChordC:7/b9::C7/b9 3ChordC:6/9:E:C6/9/E")]
    [InlineData("| Bb5 Abb5 Bbbmaj7 F##m", "0ChordBb:5::Bb5 1ChordAb:b5::Abb5 2ChordBbb:maj7::Bbbmaj7 3ChordF##:m::F##m")]
    [InlineData("| E♭ø 3 B♭♭7/D♭", "0ChordE♭:ø::E♭ø 2ChordB♭♭:7:D♭:B♭♭7/D♭")]
    [InlineData("| C13(b9,#11) 3 Cm(maj7)", "0ChordC:13(b9,#11)::C13(b9,#11) 2ChordC:m(maj7)::Cm(maj7)")]
    public void Bars_are_read(string line, string meaning) => Assert.Equal("chart " + meaning, Meaning.Of(Snippet.ShouldParseAsMarked(line))[0]);

    [Theory]
    [InlineData("| Am7 | foo | D7\n        ^^^ text-unreadable", "0ChordA:m7::Am7 |  | 0ChordD:7::D7")]
    [InlineData("| Am7 ? 3 D7\n      ^ text-unreadable", "0ChordA:m7::Am7 2ChordD:7::D7")]
    [InlineData("| C13(b9, #11) | D7\n  ^^^^^^^^^^^^ text-unreadable: no blank", " | 0ChordD:7::D7")]
    [InlineData("| x-3-5-4-5-x\n  ^^^^^^^^^^^ text-sound-as-name: row below", "")]
    [InlineData("| Am7 3\n      ^ text-missing-sound", "0ChordA:m7::Am7")]
    [InlineData("| am7\n  ^^^ text-unreadable: capital", "")]
    [InlineData("| H7\n  ^^ text-unreadable: B", "")]
    [InlineData("| C . . .\n    ^ text-unreadable: lasts until", "0ChordC:::C")]
    [InlineData("|: C | D :|\n^^ form-repeat-sign: repeat 2", "0ChordC:::C | 0ChordD:::D")]
    [InlineData("| C || D\n    ^^ form-repeat-sign: repeat 2", "0ChordC:::C | 0ChordD:::D")]
    [InlineData("| C :|\n    ^^ form-repeat-sign", "0ChordC:::C")]
    public void One_slip_gives_one_finding(string marked, string meaning) =>
        Assert.Equal("chart " + meaning, Meaning.Of(Snippet.ShouldParseAsMarked(marked))[0].Split(" !")[0]);

    [Theory]
    [InlineData("| C13(b9, #11)", "| C13(b9,#11)", true)]
    [InlineData("| C || D", "| C | D", true)]
    [InlineData("|: C | D :|", "repeat 2\n| C | D |\nend", false)]
    [InlineData("| am7", "| Am7", true)]
    [InlineData("| H7", "| B7", false)]
    [InlineData("| NC", "| N.C.", true)]
    public void The_fix_leaves_no_finding(string line, string mended, bool safe)
    {
        var tree = SyntaxTree.Parse(line);
        var fix = Assert.Single(tree.Lines[0].Findings).Fixes[0];
        Assert.Equal(safe, fix.Safe);
        Assert.Equal(mended, tree.Source.With(fix.Edits).Text);
        Assert.All(SyntaxTree.Parse(mended).Lines, l => Assert.Empty(l.Findings));
    }
}
