// Counts, meters, pickups and chords in their bars, against worked examples of common practice.

namespace ChordLang.Arrangement.Tests.Binding;

public class TimeTests
{
    [Fact]
    public void The_example_of_the_notation_binds_without_a_trouble()
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
}
