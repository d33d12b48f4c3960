// The form played through, the words of it that do not go together, and which rows belong to which bar.
namespace ChordLang.Arrangement.Tests.Binding;

public class FormTests
{
    // Common practice: each ending belongs to its time through; after da capo or dal segno repeats are not taken again, and the last ending is played.
    [Theory]
    [InlineData("| A\nrepeat 3\n| B\nend\n| C", "1 2 2 2 3")]
    [InlineData("repeat 2\n| A\nending 1\n| B\nending 2\n| C\nend\n| D", "1 2 1 3 4")]
    [InlineData("repeat 2\n| A\nrepeat 2\n| B\nend\nend", "1 2 2 1 2 2")]
    [InlineData("| A\n| B\nfine\n| C\nda capo al fine", "1 2 3 1 2")]
    [InlineData("| A\nsegno\n| B\nto coda\n| C\ndal segno al coda\ncoda\n| D", "1 2 3 2 4")]
    [InlineData("repeat 2\n| A\nending 1\n| B\nending 2\n| C\nfine\nend\n| D\nda capo al fine", "1 2 1 3 4 1 3")]
    [InlineData("section A\n| A\n| B\nsection B\n| C\nsection A again", "1 2 3 1 2")]
    [InlineData("section A\nrepeat 2\n| A\nend\nsection B\n| C\nsection A again", "1 1 2 1 1")]
    [InlineData("repeat 2\nsection A\n| A\nsection B\n| B\nend\nsection A again", "1 2 1 2 1")]
    public void Bars_are_played_as_the_form_says(string text, string order)
    {
        var piece = Dump.ShouldBindAsMarked(text);
        Assert.Equal(order, string.Join(' ', piece.PlayOrder.Select(i => piece.Bars[i].Number)));
    }

    [Theory]
    [InlineData("repeat 2\n^^^^^^^^ form-unbalanced-repeat: never closed\n| A")]
    [InlineData("| A\nend\n^^^ form-unbalanced-repeat: closes nothing")]
    [InlineData("| A\nending 1\n^^^^^^^^ form-unbalanced-repeat: belongs to no repeat\n| B")]
    [InlineData("repeat 2\n^^^^^^^^ form-ending-number: no ending 2\n| A\nending 1\n| B\nend")]
    [InlineData("repeat 2\n| A\nending 1\n| B\nending 3\n^^^^^^^^ form-ending-number: never reached\n| C\nend")]
    [InlineData("| A\nda capo al fine\n^^^^^^^^^^^^^^^ form-leap-nowhere: no fine")]
    [InlineData("| A\ndal segno\n^^^^^^^^^ form-leap-nowhere: no segno above")]
    [InlineData("segno\n^^^^^ form-leap-nowhere\n| A")]
    [InlineData("segno\n| A\nsegno\n^^^^^ form-doubled-sign: line 1\n| B\ndal segno")]
    public void What_has_no_partner_is_told_and_no_order_is_guessed(string text) => Assert.Empty(Dump.ShouldBindAsMarked(text).PlayOrder);

    [Fact]
    public void A_form_of_too_many_bars_is_cut()
    {
        var nested = string.Concat(Enumerable.Repeat("repeat 99\n", 6)) + "| C\n" + string.Concat(Enumerable.Repeat("end\n", 6));
        var piece = Dump.Bind(nested);
        Assert.Equal(20_000, piece.PlayOrder.Length);
        Assert.Equal("form-too-long", Assert.Single(piece.Troubles).Code);
    }

    [Fact]
    public void What_belongs_nowhere_is_told() => Dump.ShouldBindAsMarked("""
            1 C4
            ^^^^ form-row-without-bar: no bar above it
        section A
        | C | F
            1 C4
            ^^^^ form-rows-under-several-bars: holds 2 bars
            1 E4
        section A
                ^ form-doubled-section: line 2
        | % 3 C
          ^ form-bar-sign-not-alone
        meter 3/4
        | %
          ^ form-repeated-bar-differs
        section Bridge again
                ^^^^^^ form-unknown-section
        | C
            top: 1 C4
            top: 1 E4
            ^^^^ form-doubled-voice
        pickup from 5
                    ^ form-misplaced-pickup
        | C
        section A again
                ^ form-bars-under-again
        | C
        """);

    [Fact]
    public void The_first_bar_repeats_nothing() => Dump.ShouldBindAsMarked("| %\n  ^ form-nothing-to-repeat");

    [Fact]
    public void Each_bar_on_its_own_line_mends_rows_under_several() => Assert.Equal("| C \n| F\n    1 A4\n", Dump.FirstFix("| C | F\n    1 A4\n"));

    [Fact]
    public void Settings_that_do_not_go_together_are_told() => Dump.ShouldBindAsMarked("""
        title One
        frets 12
        capo 12
             ^^ text-value-out-of-range: leaves nothing to play
        reach 9 to 14
              ^^^^^^^ text-value-out-of-range
        key C major
        key D major
        ^^^ text-doubled-setting: line 5
        | C
        title Two
        ^^^^^ text-doubled-setting: line 1
        key E major
        | E
        """);

    [Fact]
    public void A_silencing_comment_speaks_for_a_bar_a_row_or_a_line()
    {
        var piece = Dump.ShouldBindAsMarked("""
            // allow text-unused-shape: kept for later
            // allow fret-slots: on purpose
            shape a-shape = x-3-2-0-1-0
            // allow hand-wide-stretch: on purpose

            > words
            | C
                1 a-shape
            // allow name-missing: on purpose
                1 C4
            section B
            | C
            """);
        Assert.Equal([(3, 3), (3, 3), (7, 10), (10, 10)], piece.Allows.Select(a => (a.FirstLine + 1, a.LastLine + 1)));
    }

    [Fact]
    public void Prose_stands_under_its_section_or_bar()
    {
        var piece = Dump.ShouldBindAsMarked("> of the piece\n| C\n> of bar 1\nsection B\n> of B\n| D\n> of bar 2\n> more of it");
        Assert.Equal("of the piece", Assert.Single(piece.Prose));
        Assert.Equal("of B", Assert.Single(piece.Sections[0].Prose));
        Assert.Equal(["of bar 1", "of bar 2|more of it"], piece.Bars.Select(b => string.Join('|', b.Prose)));
    }
}
