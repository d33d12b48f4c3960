// Strings, frets, pitches, shapes and what sounds how long.
using ChordLang.Arrangement.Binding;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Tests.Binding;

public class SoundTests
{
    // MIDI 1.0: middle C (C4) is note 60, and A440 (A4) is 69. Standard tuning is E2 A2 D3 G3 B3 E4 (common practice): notes 40 45 50 55 59 64.
    [Theory]
    [InlineData("0-x-x-x-x-x", 40)]
    [InlineData("x-0-x-x-x-x", 45)]
    [InlineData("x-x-0-x-x-x", 50)]
    [InlineData("x-x-x-0-x-x", 55)]
    [InlineData("x-x-x-x-0-x", 59)]
    [InlineData("x-x-x-x-x-0", 64)]
    [InlineData("x-3-x-x-x-x", 48)]
    [InlineData("x-x-x-x-1-x", 60)]
    [InlineData("5@1", 69)]
    [InlineData("8@6", 48)]
    public void Each_fret_sounds_a_semitone_higher(string sound, int midi) =>
        Assert.Equal(midi, Dump.ShouldBindAsMarked($"|\n    1 {sound}\n").Events[0].Notes[0].Midi);

    [Fact]
    public void Frets_are_counted_from_the_capo_and_sound() =>
        Assert.Equal("Eb3@5/3", Dump.Print(Dump.ShouldBindAsMarked("capo 3\nkey Eb major\n|\n    1 3@5\n").Events[0].Notes[0] with { End = Rational.One, WantedEnd = Rational.One }, Rational.One));

    [Theory]
    [InlineData("D2 A2 D3 G3 B3 E4", "0-0-0-x-x-x", "D2 A2 D3")]
    [InlineData("B1 E2 A2 D3 G3 B3 E4", "0-x-x-x-x-x-3", "B1 G4")]
    [InlineData("G4 C4 E4 A4", "0-0-0-3", "G4 C4 E4 C5")]
    public void Any_tuning_of_four_to_nine_strings(string tuning, string sound, string pitches) =>
        Assert.Equal(pitches, string.Join(' ', Dump.ShouldBindAsMarked($"strings {tuning}\n| C\n    1 {sound}\n").Events[0].Notes.Select(n => n.Pitch)));

    [Theory]
    [InlineData("| Cb7", "Bbb")]
    [InlineData("| B7", "A")]
    [InlineData("| Gm7 3 F#7b9", "Bb")]
    [InlineData("key Ab major\n|", "Ab")]
    [InlineData("key E major\n|", "G#")]
    public void A_fret_is_spelled_by_chord_then_by_key(string chart, string name) =>
        Assert.Equal(name, Dump.ShouldBindAsMarked($"{chart}\n    1 {name switch { "A" or "Bbb" => 2, "Bb" => 3, _ => 1 }}@3\n").Events[0].Notes[0].Pitch.Name.ToString());

    // The harmonic series: the 2nd to 5th partials of the open low E (E2) are E3, B3, E4, G#4; they lie at frets 12, 7, 5, 4 (common practice).
    [Theory]
    [InlineData("12@6", "E3")]
    [InlineData("7@6", "B3")]
    [InlineData("5@6", "E4")]
    [InlineData("4@6", "G#4")]
    [InlineData("2@6", "F#3")]
    public void A_harmonic_sounds_its_partial(string touched, string sounds) =>
        Assert.Equal(sounds, Dump.ShouldBindAsMarked($"key E major\n|\n    1 {touched} harmonic\n").Events[0].Notes[0].Pitch.ToString());

    [Fact]
    public void A_written_harmonic_sounds_as_written() =>
        Assert.Equal("G4@3/12", Dump.Print(Dump.ShouldBindAsMarked("|\n    1 G4@3 harmonic\n").Events[0].Notes[0] with { End = Rational.One, WantedEnd = Rational.One }, Rational.One));

    [Fact]
    public void Shapes_move_and_may_stand_below() => Assert.Equal("""
        bar 1 0 to 1: 1 G7
          1: 1 G2@6/3+F3@4/3+B3@3/4+D4@2/3 to 2; 2 A2@6/5+G3@4/5+C#4@3/6+E4@2/5 to 3; 3 A2@6/5+G3@4/5+C#4@3/6+E4@2/5 to end

        """, Dump.Print(Dump.ShouldBindAsMarked("""
        | G7
            1 low-drop+2   2 low-drop at 5  3 low-drop at 5
        shape low-drop = 1-x-1-2-1-x fingers 1-x-2-4-3-x
        """)).Replace("Db4", "C#4", StringComparison.Ordinal));

    [Fact]
    public void Frets_that_cannot_be_are_told() => Dump.ShouldBindAsMarked("""
        shape open = x-3-2-0-1-0
        | C
            1 x-3-2-0  2 24@1  3 4@7  4 A1
              ^^^^^^^ fret-slots: 4 strings, but the instrument has 6
                         ^^^^ fret-off-neck: ends at fret 22
                                   ^ fret-no-such-string
                                        ^^ fret-out-of-reach: below the lowest
        | C
            1 C3@1     2 C4@2+8@2  3 open+2  4 x-x-x-x-x-x
              ^^^^ fret-out-of-reach: It can be played on strings 5 and 6
                              ^^^ fret-two-on-one-string
                                     ^^^^^^ fret-open-shape
                                               ^^^^^^^^^^^ fret-nothing-played
        | C
            1 C4 = 2@2         2 opne      3 5@3 ring@1   4 open fingers x-3-2-1
                   ^^^ fret-sides-differ: C4 is fret 1 there
                                 ^^^^ text-unknown-shape: Did you mean open
                                                 ^^^^ fret-mark-off-string
                                                                         ^^^^^^^ fret-fingers
        """);

    [Theory]
    [InlineData("| C\n    1 C4 = 2@2\n", "| C\n    1 C4 = 1@2\n")]
    [InlineData("| C\n    1 C#4 = 1@2\n", "| C\n    1 C4 = 1@2\n")]
    [InlineData("| C\n    1 C4+E4+G4 = x-x-x-5-5-5\n", "| C\n    1 C4+E4+G4 = x-x-x-5-5-3\n")]
    [InlineData("| C\n    1 A1\n", "| C\n    1 A2\n")]
    [InlineData("| C\n    1 C3@1\n", "| C\n    1 C3@5\n")]
    [InlineData("shape low = 1-x-1-2-1-x\n| C\n    1 low  2 lwo\n", "shape low = 1-x-1-2-1-x\n| C\n    1 low  2 low\n")]
    [InlineData("| G\n    1 3-x-0-0-3\n", "| G\n    1 3-x-0-0-3-x\n")]
    [InlineData("| Cmaj7\n    1 3-5-4-5-x\n", "| Cmaj7\n    1 x-3-5-4-5-x\n")]
    [InlineData("| C\n    1 x-3-2-0-1-0-x\n", "| C\n    1 x-3-2-0-1-0\n")]
    public void The_first_repair_mends(string wrong, string right) => Assert.Equal(right, Dump.FirstFix(wrong));

    [Fact]
    public void A_ring_ends_where_its_string_is_struck_again()
    {
        var piece = Dump.ShouldBindAsMarked("""
            | C
                top:  1 5@1 ring  2 7@1  3 8@2 ring until 1  4 rest
                low:  1 x-3-x-x-x-x ring over
            | C
                top:  1 8@2  3 8@2 ring@2
            """);
        Assert.Equal("""
            bar 1 0 to 1: 1 C
              top: 1 A4@1/5!1/4 to 2; 2 B4@1/7 to 3; 3 G4@2/8~1 to 4; 4 rest to end
              low: 1 C3@5/3~2 to end
            bar 2 1 to 2: 1 C
              top: 1 G4@2/8 to 3; 3 G4@2/8 to end

            """, Dump.Print(piece));
        Assert.Equal(["C3", "A4"], piece.SoundingAt(Rational.Zero).Select(n => n.Pitch.ToString()));
        Assert.Equal(["C3", "G4"], piece.SoundingAt(Rational.Of(7, 8)).Select(n => n.Pitch.ToString()));
        Assert.Equal([2, 1, 1, 1, 1], piece.Moments.Select(m => m.Struck.Count()));
    }

    [Fact]
    public void Tied_lets_sound_and_again_strikes()
    {
        var piece = Dump.ShouldBindAsMarked("""
            | C
                1 C4+E4 accent  3 again  4 rest
            | C
                1 again  4 G4
            | C
                1 tied  2 again short
            """);
        Assert.Equal("""
            bar 1 0 to 1: 1 C
              1: 1 C4+E4 to 3; 3 C4+E4 to 4; 4 rest to end
            bar 2 1 to 2: 1 C
              1: 1 C4+E4 to 4; 4 G4~9/4 to end
            bar 3 2 to 3: 1 C
              1: 1 tied G4 to 2; 2 G4 to end

            """, Dump.Print(piece));
        Assert.True(piece.Events[1].Has(MarkKind.Accent) && piece.Events[1].Repeated);
        Assert.True(piece.Events[^1].Has(MarkKind.Short));
        Assert.Single(piece.SoundingAt(Rational.Of(2)));
    }

    [Fact]
    public void Nothing_before_is_told_once() => Dump.ShouldBindAsMarked("""
        | C
            top: 1 tied  2 again
                   ^^^^ count-nothing-before
                           ^^^^^ count-nothing-before
            low: 1 C3 2 rest 3 tied
                               ^^^^ count-nothing-before
        """);

    [Fact]
    public void Dead_notes_do_not_sound_and_bends_know_their_goal()
    {
        var piece = Dump.ShouldBindAsMarked("| C\n    1 x-3-2-x-x-x dead@4  2 8@2 bend full  3 8@2 bend to G#4 4 8@1 grace B4@1 slide from 5@1\n");
        Assert.Equal(["C3"], piece.SoundingAt(Rational.Zero).Select(n => n.Pitch.ToString()));
        Assert.Equal(["A4", "G#4"], piece.Events.Skip(1).Take(2).Select(e => e.Notes[0].BendTo.ToString()!));
        Assert.Equal("B4@1/7", Dump.Print(Assert.Single(piece.Events[3].Grace), piece.Events[3].Onset));
        Assert.Equal("A4@1/5", Dump.Print(Assert.Single(piece.Events[3].SlideFrom), piece.Events[3].Onset));
    }

    [Fact]
    public void A_chord_symbol_that_is_not_understood_is_told_where_it_fails()
    {
        var trouble = Assert.Single(Dump.Bind("| C7xyz\n").Troubles);
        Assert.Equal(TroubleCodes.UnknownChord, trouble.Code);
        Assert.Equal("xyz", Dump.Bind("| C7xyz\n").Tree.Source[trouble.Span]);
    }
}
