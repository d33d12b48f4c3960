// Counts, meters, pickups and chords in their bars, against worked examples of common practice.
namespace ChordLang.Arrangement.Tests.Binding;

public class TimeTests
{
    [Fact]
    public void A_page_of_the_notation_binds_without_a_trouble()
    {
        var piece = Dump.ShouldBindAsMarked("""
            title   Ferry at Dusk
            key     G major
            meter   4/4
            tempo   rubato around 60

            section Opening

            | Gmaj7
                top:  2& D4   3 B3 ring   3& F#4 ring   4 A4 ring
                low:  1 3-x-4-4-3-x fermata ring until 2&

            | F#m7b5   3 B7b9
                top:  1 A4 ring until 3   3 C5 = 8@1
                low:  1 x-x-4-5-5-x       3 x-2-4-2-4-x

            | Em7 | A7 | Am7 3 D7b9 | Gmaj7
            """);
        Assert.Equal("""
            bar 1 0 to 1: 1 Gmaj7
              top: 2& D4 to 3; 3 B3~1 to 3&; 3& F#4~1 to 4; 4 A4 to end
              low: 1 G2@6/3~3/8+F#3@4/4~3/8+B3@3/4~3/8+D4@2/3~3/8 to end
            bar 2 1 to 2: 1 F#m7b5 3 B7b9
              top: 1 A4 to 3; 3 C5@1/8 to end
              low: 1 F#3@4/4+C4@3/5+E4@2/5 to 3; 3 B2@5/2+F#3@4/4+A3@3/2+D#4@2/4 to end
            bar 3 2 to 3: 1 Em7
            bar 4 3 to 4: 1 A7
            bar 5 4 to 5: 1 Am7 3 D7b9
            bar 6 5 to 6: 1 Gmaj7

            """, Dump.Print(piece));
    }

    // Common practice: a count is the note of the lower number; 6/8 is counted in six eighths, 2/2 in two halves, 7/8 in seven eighths.
    [Theory]
    [InlineData("2/2", "2", "1/2", "1")]
    [InlineData("3/4", "3&", "5/8", "3/4")]
    [InlineData("4/4", "4a", "15/16", "1")]
    [InlineData("5/4", "5", "1", "5/4")]
    [InlineData("6/8", "4", "3/8", "3/4")]
    [InlineData("6/8", "2&", "3/16", "3/4")]
    [InlineData("7/8", "6", "5/8", "7/8")]
    [InlineData("12/8", "10", "9/8", "3/2")]
    [InlineData("9/16", "9", "1/2", "9/16")]
    [InlineData("4/4", "2trip", "1/3", "1")]
    [InlineData("4/4", "2let", "5/12", "1")]
    [InlineData("4/4", "3+2/5", "3/5", "1")]
    public void A_count_is_worth_the_lower_number(string meter, string count, string onset, string length)
    {
        var piece = Dump.ShouldBindAsMarked($"meter {meter}\n|\n    {count} C4\n");
        Assert.Equal(onset, piece.Events[0].Onset.ToString());
        Assert.Equal(length, piece.Bars[0].Length.ToString());
        Assert.Equal(count, piece.Bars[0].CountOf(piece.Events[0].Onset));
    }

    // Common practice: 6/8, 9/8 and 12/8 are compound; 3/8 and 7/8 are not.
    [Theory]
    [InlineData("6/8", true)]
    [InlineData("9/8", true)]
    [InlineData("12/8", true)]
    [InlineData("3/8", false)]
    [InlineData("7/8", false)]
    [InlineData("3/4", false)]
    public void Three_counts_make_a_beat_in_compound_meters(string meter, bool compound) =>
        Assert.Equal(compound, Dump.Bind($"meter {meter}\n|").Bars[0].Settings.Meter.Compound);

    [Theory]
    [InlineData("4/4", "Am7 D7", "1 Am7 3 D7")]
    [InlineData("4/4", "A B C D", "1 A 2 B 3 C 4 D")]
    [InlineData("3/4", "Am7 D7 /", "1 Am7 2 D7")]
    [InlineData("4/4", "Am7 / / D7", "1 Am7 4 D7")]
    [InlineData("6/8", "Am7 D7", "1 Am7 4 D7")]
    [InlineData("4/4", "Am7 4& D7", "1 Am7 4& D7")]
    [InlineData("4/4", "Am7 3 N.C.", "1 Am7 3 N.C.")]
    public void Chords_share_their_bar(string meter, string chart, string bound) =>
        Assert.Equal($": {bound}\n", Dump.Print(Dump.ShouldBindAsMarked($"meter {meter}\n| {chart}"))[(meter == "4/4" ? "bar 1 0 to 1" : "bar 1 0 to 3/4").Length..]);

    [Fact]
    public void A_chord_lasts_on_over_bare_bars_and_percent_repeats() => Assert.Equal("""
        bar 1 0 to 1: 1 Am7 3 D7
          1: 1 E4 to end
        bar 2 1 to 2: (1 D7)
        bar 3 2 to 3: (1 D7) 3 G7
          1: 1 F4 to end
        bar 4 3 to 4: (1 D7) (3 G7)
          1 (borrowed): 1 F4 to end
        bar 5 4 to 5: (1 D7) (3 G7)
          1: 1 A4 to end
        bar 6 5 to 6: 1 N.C.
        bar 7 6 to 7: (1 N.C.)

        """, Dump.Of("""
        | Am7 D7
            1 E4
        |
        | 3 G7
            1 F4
        | %
        | %
            1 A4
        | N.C.
        |
        """));

    [Fact]
    public void A_pickup_is_bar_nought_and_keeps_its_spoken_counts()
    {
        var piece = Dump.ShouldBindAsMarked("""
            meter 4/4
            pickup from 4&
            | D7
                4& D4
            | G
                1 G4
            """);
        Assert.Equal("""
            bar 0 0 to 1/8: 4& D7
              1: 4& D4 to end
            bar 1 1/8 to 9/8: 1 G
              1: 1 G4 to end

            """, Dump.Print(piece));
    }

    [Fact]
    public void A_pickup_within_the_piece_completes_the_bar_before() => Assert.Equal("""
        bar 1 0 to 3/4: 1 C
          1: 1 C4 to end
        bar 1 3/4 to 1: (4 C)
          1: 4 G4 to end
        bar 2 1 to 2: 1 F
          1: 1 A4 to end

        """, Dump.Print(Dump.ShouldBindAsMarked("""
        | C
            1 C4
        section B
        pickup from 4
        |
            4 G4
        | F
            1 A4
        """)));

    [Fact]
    public void Key_and_meter_change_from_their_bar_on()
    {
        var piece = Dump.ShouldBindAsMarked("""
            key F major
            |
            key D major
            meter 3/4
            | 
            |
            """);
        Assert.Equal(["F major 4/4", "D major 3/4", "D major 3/4"], piece.Bars.Select(b => $"{b.Settings.Key} {b.Settings.Meter}"));
        Assert.Equal(["0", "1", "7/4"], piece.Bars.Select(b => b.Start.ToString()));
        Assert.Equal("F major", $"{piece.Settings.Key}");
    }

    [Fact]
    public void A_run_spreads_evenly_and_takes_the_nearest_octaves() => Assert.Equal("""
        bar 1 0 to 1: 1 C
          1: 1 D4 to 1&; 1& E4 to 2; 2 F4 to 2&; 2& G4 to 3; 3 A4 to 3&; 3& G4 to 4; 4 F4 to 4&; 4& E4 to end

        """, Dump.Print(Dump.ShouldBindAsMarked("| C\n    1 to 4& D4 E F G A G F E\n")));

    [Fact]
    public void Counts_that_cannot_be_are_told() => Dump.ShouldBindAsMarked("""
        meter 3/4
        | C
            1 C4  4 D4
                  ^ count-outside-bar: counts 1 to 3
        | C
            1 C4  3 D4  2 E4
                        ^ count-out-of-order: stands behind count 3
        | C
            1 C4  3 D4  1& E4  2 F4
                  ^ count-out-of-order: stands before count 1&
        | C
            1 C4  1 E4
                  ^ count-twice
        | C
            1 to 3& C4 D E F G
            ^^^^^^^ count-run-does-not-fit: 6, one every half count would
        | C D E F
          ^ count-sharing
        | C 2 D 2 E
                ^ count-twice
        | C 5 D
            ^ count-outside-bar
        """);

    [Fact]
    public void Both_struck_together_mends_a_doubled_count() =>
        Assert.Equal("| C\n    1 C4+E4 ring  2 G4\n", Dump.FirstFix("| C\n    1 C4 ring  1 E4  2 G4\n"));

    [Fact]
    public void Chords_that_do_not_share_get_their_counts() => Assert.Equal("| 1 Am7 3 D7 4 G7\n", Dump.FirstFix("| Am7 D7 G7\n"));
}
