// What a player types who knows the trade but not this notation: one finding, and a first fix that is what was meant.
using ChordLang.Grammar.Syntax;
using ChordLang.Testing;

namespace ChordLang.Grammar.Tests.Parsing;

public class OtherWordsTests
{
    [Theory]
    [InlineData("time 3/4\n^^^^ text-unknown-setting: Did you mean meter?", "meter 3/4")]
    [InlineData("timesignature 3/4\n^^^^^^^^^^^^^ text-unknown-setting: Did you mean meter?", "meter 3/4")]
    [InlineData("tempo = 80\n      ^ text-bad-value: a blank", "tempo 80")]
    [InlineData("tempo=80\n     ^ text-unknown-setting: a blank", "tempo 80")]
    [InlineData("C | F | G7 |\n^ text-chord-in-row: begins with |", "| C | F | G7 |")]
    [InlineData("    1 C 3 G7 | Am\n      ^ text-octave: octave\n             ^ text-unreadable: one bar", null)]
    [InlineData("    1 C4, 2 E4, 3 x-3-2-0-0-0\n        ^ text-unreadable: comma", "    1 C4 2 E4 3 x-3-2-0-0-0")]
    [InlineData("    1. C4  2 E4\n    ^^ text-bad-count: is no count", "    1 C4  2 E4")]
    [InlineData("    1 C4  3) E4\n          ^^ text-bad-count: is no count", "    1 C4  3 E4")]
    [InlineData("    1 C4 hold\n         ^^^^ text-unknown-mark: Did you mean ring?", "    1 C4 ring")]
    [InlineData("    1 C4 let ring  2 E4\n         ^^^^^^^^ text-unknown-mark: ring", "    1 C4 ring  2 E4")]
    [InlineData("    1 C4+E4 arpeggio\n            ^^^^^^^^ text-unknown-mark: Did you mean roll?", "    1 C4+E4 roll")]
    [InlineData("    1 C4  2 D4 hammer-on\n               ^^^^^^^^^ text-unknown-mark: Did you mean hammer?", "    1 C4  2 D4 hammer")]
    [InlineData("    1 D4  2 C4 pull-off\n               ^^^^^^^^ text-unknown-mark: Did you mean pull?", "    1 D4  2 C4 pull")]
    [InlineData("    1 C4 ringing\n         ^^^^^^^ text-unknown-mark: Did you mean ring?", "    1 C4 ring")]
    [InlineData("    1 Bb3 + D4 + F4 ring  3 G4\n      ^^^^^^^^^^^^^ text-unreadable: without blanks", "    1 Bb3+D4+F4 ring  3 G4")]
    [InlineData("    1 x-3-5-4-5-x is C maj7\n                     ^^^^^^ text-unknown-mark: no blank", "    1 x-3-5-4-5-x is Cmaj7")]
    [InlineData("| Bb7 | F7 alt\n        ^^^^^^ text-unreadable: no blank", "| Bb7 | F7alt")]
    [InlineData("| D min7 | G7\n  ^^^^^^ text-unreadable: no blank", "| Dmin7 | G7")]
    [InlineData("| G min7 3 C7\n  ^^^^^^ text-unreadable: no blank", "| Gmin7 3 C7")]
    [InlineData("meter 4-4\n      ^^^ text-bad-value: meter wants", "meter 4/4")]
    public void It_gets_one_finding_and_the_word_that_is_meant(string marked, string? meant)
    {
        var tree = Snippet.ShouldParseAsMarked(marked);
        if (meant is null)
            return;
        var fixedText = tree.Source.With(tree.Lines[0].Findings[0].Fixes[0].Edits).Text;
        Assert.Equal(meant, fixedText.TrimEnd());
        Assert.Empty(Snippet.Found(SyntaxTree.Parse(fixedText)));
    }

    // Pitches with octaves stay pitches, bar lines or not.
    [Fact]
    public void A_row_of_pitches_is_not_taken_for_a_chart() =>
        Assert.All(SyntaxTree.Parse("    C4 | D4\n").Lines[0].Findings, f => Assert.NotEqual(SyntaxCodes.ChordInRow, f.Code));
}
