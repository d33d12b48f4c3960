// Transpositions worked by hand, as a teacher would write them.
using ChordLang.Arrangement.Transposing;
using ChordLang.Theory.Keys;

namespace ChordLang.Arrangement.Tests.Transposing;

public class WorkedExamplesTests
{
    // Common practice: the two-five-one of each key, and its minor sister.
    [Theory]
    [InlineData("B major", "key B major\n| C#m7 | F#7 | Bmaj7\n")]
    [InlineData("Db major", "key Db major\n| Ebm7 | Ab7 | Dbmaj7\n")]
    [InlineData("F# major", "key F# major\n| G#m7 | C#7 | F#maj7\n")]
    [InlineData("Gb major", "key Gb major\n| Abm7 | Db7 | Gbmaj7\n")]
    [InlineData("C major", "key C major\n| Dm7 | G7 | Cmaj7\n")]
    public void Two_five_one_in_E_flat_to_other_keys(string key, string wanted) =>
        Assert.Equal(wanted, Moved.Whole(Moved.To("key Eb major\n| Fm7 | Bb7 | Ebmaj7\n", key)));

    // Common practice: of two spellings of a key the one with fewer signs, and the nearer one of six sharps and six flats.
    [Theory]
    [InlineData("C major", 1, "Db major")]
    [InlineData("C major", -1, "B major")]
    [InlineData("E major", 2, "F# major")]
    [InlineData("F major", 1, "Gb major")]
    [InlineData("A minor", 1, "Bb minor")]
    [InlineData("A minor", -1, "G# minor")]
    [InlineData("E minor", -1, "D# minor")]
    [InlineData("D minor", 1, "Eb minor")]
    [InlineData("D dorian", 3, "F dorian")]
    [InlineData("Eb major", 2, "F major")]
    [InlineData("2 flats", 2, "0 sharps")]
    [InlineData("2 flats", -1, "3 sharps")]
    [InlineData("3 sharps", 5, "2 sharps")]
    public void A_key_by_so_many_semitones(string key, int by, string wanted) =>
        Assert.Equal($"key     {wanted}\n", Moved.Whole(Moved.By($"key     {key}\n", by)));

    [Fact]
    public void Symbols_keep_what_their_writer_wrote_behind_the_root()
    {
        Assert.Equal("key F major\n| FΔ | G-7(b5) | C7alt/E | N.C. | % | F6/9 | D♭+\n".Replace('b', '♭').Replace("key F", "key F", StringComparison.Ordinal),
            Moved.Whole(Moved.By("key C major\n| CΔ | D-7(♭5) | G7alt/B | N.C. | % | C6/9 | A♭+\n", 5)));
        // Common practice: no root is written with two accidentals; the bass goes with its root.
        Assert.Equal("key Gb major\n| D7 | D7/F# | Cb\n", Moved.Whole(Moved.To("key G major\n| Eb7 | Eb7/G | C\n", "Gb major")));
    }

    [Fact]
    public void Written_pitches_move_by_letters_and_keep_their_octave() =>
        // Common practice: a minor third up; B4 to D5 crosses the octave number, Cb5 sounds as B4.
        Assert.Equal("key Eb major\n| Ebmaj7\n    1 D5   2 Bb4   3 Cb5   4 F#4\n", Moved.Whole(Moved.By("key C major\n| Cmaj7\n    1 B4   2 G4   3 Ab4   4 D#4\n", 3)));

    [Fact]
    public void Everything_else_stays_as_typed()
    {
        const string Text = "title Any\n// comment C\nkey C major\nstrings D2 A2 D3 G3 B3 E4\ncapo 2\nshape low-drop = 1-x-1-1-1-x fingers 1-x-2-3-4-x\nposition 3\n\n>  C major: prose stays.\n|  Cmaj7  3 A7\r\n"
            + "  top: 1 to 4 E5 D C B  \"on C\"\n  1   x35453  ring  3 low-drop+4 is A7  4 low-drop at 5\n| C\n 1 C3+E3+G3 = x-3-2-0-x-x 2 8@2 slide from 7@2 3 E4@1 grace D#4 bend to F4 4 again\n";
        const string Wanted = "title Any\n// comment C\nkey D major\nstrings D2 A2 D3 G3 B3 E4\ncapo 2\nshape low-drop = 1-x-1-1-1-x fingers 1-x-2-3-4-x\nposition 5\n\n>  C major: prose stays.\n|  Dmaj7  3 B7\r\n"
            + "  top: 1 to 4 F#5 E D C#  \"on C\"\n  1   x57675  ring  3 low-drop+6 is B7  4 low-drop at 7\n| D\n 1 D3+F#3+A3 = x-5-4-2-x-x 2 10@2 slide from 9@2 3 F#4@1 grace E#4 bend to G4 4 again\n";
        Assert.Equal(Wanted, Moved.By(Text, 2).Text.Text);
    }

    [Fact]
    public void Compact_frets_get_their_dashes_where_two_digits_come() =>
        Assert.Equal("| E7\n 1 x-10-9-10-11-x\n", Moved.Whole(Moved.By("| C7\n 1 x6567x\n", 4)));

    [Fact]
    public void Shapes_move_down_by_name_and_back() =>
        Assert.Equal(("shape low = 5-x-5-5-5-x\n| F#m7\n    1 low-3\n", "shape low = 5-x-5-5-5-x\n| Am7\n    1 low\n"),
            Moved.By("shape low = 5-x-5-5-5-x\n| Am7\n    1 low\n", -3) is var down ? (Moved.Whole(down), Moved.Whole(Moved.By(down.Text.Text, 3))) : default);

    [Fact]
    public void A_shape_with_open_strings_moves_at_its_definition() =>
        Assert.Equal("shape step = x-0-2-1-1-x\n| Am7\n    1 step   3 step\n".Replace("x-0-2-1-1-x", "x-2-4-3-3-x", StringComparison.Ordinal).Replace("Am7", "Bm7", StringComparison.Ordinal),
            Moved.Whole(Moved.By("shape step = x-0-2-1-1-x\n| Am7\n    1 step   3 step\n", 2)));

    // Common practice: what is lowest says which chord it is; a grip at the nut goes an octave up, or to the next strings, with its root in the bass.
    [Theory]
    [InlineData("Fmaj7", "1-x-2-2-1-x", -2, "Ebmaj7", "11-x-12-12-11-x")]
    [InlineData("Fmaj7", "1-x-2-2-1-x", -3, "Dmaj7", "10-x-11-11-10-x")]
    [InlineData("G7", "3-x-3-4-3-x", -4, "Eb7", "11-x-11-12-11-x")]
    [InlineData("G7", "3-x-3-4-3-x", -5, "D7", "10-x-10-11-10-x")]
    [InlineData("E7#9", "0-7-6-7-8-x", -1, "Eb7#9", "x-6-5-6-7-x")]
    public void A_grip_at_the_nut_keeps_its_bass(string symbol, string grip, int by, string moved, string wanted) =>
        Assert.Equal($"| {moved}\n    1 {wanted}\n", Moved.By($"| {symbol}\n    1 {grip}\n", by).Text.Text);

    [Fact]
    public void A_bass_that_has_to_change_is_told() =>
        Assert.Contains("The lowest tone is A now and no longer B.", Assert.Single(Moved.By("| Am9\n    1 x-0-5-5-0-x\n", 2).Losses).Message, StringComparison.Ordinal);

    [Fact]
    public void Fingers_go_with_open_strings()
    {
        // Common practice: the open E chord a fret up is held with a barre.
        Assert.Equal("| F\n    1 1-3-3-2-1-1 fingers 1-3-4-2-1-1\n", Moved.Whole(Moved.By("| E\n    1 0-2-2-1-0-0 fingers 0-2-3-1-0-0\n", 1)));
        Assert.Equal("| Am7\n    1 x-0-2-0-1-x fingers x-0-3-0-2-x\n", Moved.Whole(Moved.By("| Bm7\n    1 x-2-4-2-3-x fingers x-1-3-1-2-x\n", -2)));
        Assert.Equal("|\n    1 0@1   2 1@1 finger 2\n", Moved.Whole(Moved.By("|\n    1 2@1 finger 1   2 3@1 finger 2\n", -2)));
    }

    [Fact]
    public void An_open_string_that_stops_a_grip_is_told_and_its_tones_are_kept()
    {
        // Worked by hand: two frets up the open A and E lie on fret 2, and the chord between them on frets 8 and 9.
        var moved = Moved.By("| A\n    1 x-0-7-6-0-0\n| E\n    1 E4\n", 2);
        var loss = Assert.Single(moved.Losses);
        Assert.Equal((Obstacle.OpenString, 1, "1"), (loss.Obstacle, loss.Bar, loss.Count));
        Assert.Equal<int>([1, 2, 5], loss.Strings);
        Assert.StartsWith("Strings 1, 2 and 5 were open. 2 frets up, where no string is open, this grip cannot be held.", loss.Message, StringComparison.Ordinal);
    }

    // Two frets up the first finger lies across fret 2 and the little one on fret 7, 145 mm by the luthiers' rule: no grip for everybody, while others hold the same tones.
    [Fact]
    public void A_grip_that_only_a_stretch_could_hold_gives_way_to_one_at_ease()
    {
        var moved = Moved.By("key A minor\n| Am9\n    1 x-0-5-5-0-0\n", 2);
        var loss = Assert.Single(moved.Losses);
        Assert.Equal((Obstacle.OpenString, false), (loss.Obstacle, loss.SamePitches));
        Assert.Contains("the first and little finger would lie 145 mm apart", loss.Message, StringComparison.Ordinal);
        var e = Assert.Single(moved.Piece.Events);
        Assert.Equal("F#4", e.Notes.MaxBy(n => n.Midi)!.Pitch.ToString());
        Assert.Equal(["A", "B", "C#", "D", "F#"], e.Notes.Select(n => n.Pitch.Name.ToString()).Distinct().Order());
        Assert.Empty(Moved.By("key A minor\n| Am\n    1 x-0-2-2-1-0\n", 2).Losses);
    }

    [Fact]
    public void Below_the_nut_a_grip_goes_to_the_nearest_strings_with_the_same_top_note()
    {
        var moved = Moved.By("key C major\n| Am7\n    1 x-0-2-0-1-0 ring@1 fingers x-0-2-0-1-0\n", -2);
        var loss = Assert.Single(moved.Losses);
        Assert.Equal(Obstacle.OpenString, loss.Obstacle);
        Assert.StartsWith("Strings 1, 3 and 5 were open, and an open string does not go lower.", loss.Message, StringComparison.Ordinal);
        var e = Assert.Single(moved.Piece.Events);
        Assert.Equal("D4", e.Notes.MaxBy(n => n.Midi)!.Pitch.ToString());
        Assert.Equal(["Bb", "D", "F", "G"], e.Notes.Select(n => n.Pitch.Name.ToString()).Distinct().Order());
        Assert.Equal([], moved.Piece.Troubles.Select(t => t.Message));
    }

    [Fact]
    public void A_pitch_that_no_string_has_goes_to_another_octave_and_is_told()
    {
        var moved = Moved.By("| E7\n    1 E2   2 E2   3 G2\n", -2);
        Assert.Equal("| D7\n    1 D3   2 D3   3 F2\n", moved.Text.Text);
        Assert.All(moved.Losses, l => Assert.Equal((Obstacle.NeckEnd, false), (l.Obstacle, l.SamePitches)));
        Assert.Equal(["1", "2"], moved.Losses.Select(l => l.Count));
    }

    [Fact]
    public void Left_out_octaves_are_written_where_one_note_goes_another_way() =>
        Assert.Equal("| E7\n    1 D3   2 F#2   3 A2\n", Moved.By("| F#7\n    1 E2   2 G#   3 B\n", -2).Text.Text);

    [Fact]
    public void A_natural_harmonic_becomes_a_held_one_and_is_told()
    {
        var moved = Moved.By("|\n    1 12@2 harmonic\n", 1);
        Assert.Equal("|\n    1 1@2 harmonic\n", moved.Text.Text);
        Assert.Equal((Obstacle.OpenString, true), (Assert.Single(moved.Losses).Obstacle, moved.Losses[0].SamePitches));
        Assert.Equal(72, moved.Piece.Events[0].Notes[0].Midi);
    }

    [Fact]
    public void No_interval_makes_minor_of_major()
    {
        var piece = Moved.Bind("key C major\n| C\n");
        Assert.Null(IntervalChoice.To(piece, Key.TryParse("A minor", out var minor) ? minor : null!));
        Assert.Equal(-3, IntervalChoice.To(piece, Key.TryParse("A", out var major) ? major : null!)?.Semitones);
    }
}
