// What a hand can hold, and what is written for its fingers: one slip gives one finding, and a good fingering gives none.
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Tests.Catalogue;
using ChordLang.Fretboard.Hands;

namespace ChordLang.Checks.Tests.Hand;

public sealed class HandTests
{
    [Theory]
    [InlineData("| N.C.\n    1 x-3-2-0-1-0 fingers x-3-2-0-1-0\n")]
    [InlineData("| N.C.\n    1 x-3-2-0-1-0 fingers x-3-2-x-1-x\n")] // an open string may be written 0 or x
    [InlineData("| N.C.\n    1 x-3-5-4-5-x fingers x-1-3-2-4-x\n")]
    [InlineData("| N.C.\n    1 3-x-4-4-3-x fingers T-x-2-3-1-x\n")] // the thumb over the neck
    [InlineData("| N.C.\n    1 8@1+5@2 finger@1 4\n")] // one mark does not speak for the other string
    [InlineData("| N.C.\n    low: 1 x-3-2-0-x-x fingers x-3-2-0-x-x\n    top: 1 1@2 finger 1\n")] // fingers of two rows make one grip
    [InlineData("| N.C.\n    low: 1 3@5 ring finger 3\n    top: 2 x-x-2-0-1-0 fingers x-3-2-0-1-0\n")] // held since before
    [InlineData("| N.C.\n    1 x-x-0-x-x-x harmonic fingers x-x-x-x-x-x\n")]
    public void Fingers_that_can_be_are_left_alone(string text) => Checked.Expect(text);

    [Theory]
    [InlineData("| N.C.\n    1 0@2 finger 1\n                 ^ hand-finger-on-silent-string: string 2, which is open\n")]
    [InlineData("| N.C.\n    low: 1 5@5 finger 3\n                      ^ hand-crossed-fingers: first finger on string 2, fret 7\n    top: 1 7@2 finger 1\n")]
    public void Single_finger_marks_are_judged_with_the_rows_beside_them(string marked) => Checked.Expect(marked);

    [Fact]
    public void A_shape_is_judged_where_it_is_written_not_where_it_is_used() => Checked.Expect(
        "shape odd = x-1-3-2-3-x fingers x-1-2-3-4-x\n"
        + "                                ^^^^^^^^^^^ hand-crossed-fingers: the fingers are crossed\n\n"
        + "| N.C.\n    1 odd+2   3 odd+4\n");

    [Fact]
    public void A_fix_that_writes_fingers_keeps_those_that_are_right()
    {
        const string text = "| N.C.\n    1 5-x-5-5-5-x fingers 2-x-3-3-0-x\n";
        var finding = Assert.Single(Checked.Run(text));
        Assert.Equal("Write the fingers 2-x-3-3-3-x", finding.Fixes[0].Title);
        Assert.All(finding.Fixes, f => Assert.Empty(Checked.Run(Checked.Apply(text, f))));
    }

    [Fact]
    public void A_finger_mark_on_an_open_string_is_taken_away_by_its_fix()
    {
        const string text = "| N.C.\n    1 0@2 finger 1 accent\n";
        var finding = Assert.Single(Checked.Run(text));
        Assert.Equal("| N.C.\n    1 0@2 accent\n", Checked.Apply(text, finding.Fixes[0]));
    }

    // The outer frets of both grips are eight apart: by the luthiers' rule 236 mm near the nut of a 647.7 mm scale, 118 mm an octave higher.
    [Theory]
    [InlineData("| N.C.\n    1 1@5+9@2\n", true)]
    [InlineData("| N.C.\n    1 13@5+21@2\n", false)]
    public void The_same_frets_are_judged_by_their_place_on_the_neck(string text, bool impossible) =>
        Assert.Equal(impossible, Checked.Run(text).Any(f => f.Code == "hand-impossible-stretch"));

    [Fact]
    public void A_grip_that_cannot_be_held_is_one_finding_even_where_fingers_are_written_for_it()
    {
        var finding = Assert.Single(Checked.Run("| N.C.\n    1 x-3-2-0-1-12 fingers x-3-2-0-1-4\n"));
        Assert.Equal(("hand-impossible-stretch", Severity.Error), (finding.Code, finding.Severity));
        Assert.Equal("1 5", string.Join(" ", finding.Strings));
    }

    [Fact]
    public void A_stretch_is_mended_by_the_same_pitch_on_another_string()
    {
        const string text = "| N.C.\n    1 2@5+12@2\n";
        var finding = Assert.Single(Checked.Run(text));
        Assert.Equal("hand-impossible-stretch", finding.Code);
        Assert.NotEmpty(finding.Fixes);
        Assert.All(finding.Fixes, f => Assert.DoesNotContain(Checked.Run(Checked.Apply(text, f)), left => left.Severity <= Severity.Warning));
    }

    [Fact]
    public void The_declared_hand_decides_what_is_wide_and_what_is_out_of_reach()
    {
        Assert.Equal("hand-wide-stretch", Assert.Single(Checked.Run("reach 5 to 8\n\n| N.C.\n    1 2@5+5@2\n")).Code);
        Assert.Empty(Checked.Run("reach 2 to 6\n\n| N.C.\n    1 2@5+5@2\n"));
        Assert.Equal("hand-impossible-stretch", Assert.Single(Checked.Run("reach 12 to 15\n\n| N.C.\n    1 1@5+5@2\n")).Code);
    }

    // 2@3 to 14@1: from position 2 to position 10, by the luthiers' rule 213.5 mm of a 647.7 mm scale.
    [Theory]
    [InlineData("tempo 140\n\n| N.C.\n    1 2@3   1& 14@1\n", "214 mm, and this tempo leaves 0.21 seconds")]
    [InlineData("tempo 50\n\n| N.C.\n    1 2@3   1& 14@1\n", null)]
    [InlineData("tempo 140\n\n| N.C.\n    1 2@3   1& 0@2   2 0@1   3 14@1\n", null)] // open strings give time
    [InlineData("tempo rubato around 140\n\n| N.C.\n    1 2@3   1& 14@1\n", null)]
    [InlineData("| N.C.\n    1 2@3   1& 14@1\n", null)]
    [InlineData("tempo 200\n\n| N.C.\n    1 5@3   1& 8@2   2 5@1   2& 9@1\n", null)] // one position
    [InlineData("tempo 100\nmeter 6/8\n\n| N.C.\n    1 2@3   2 14@1\n", "leaves 0.20 seconds")] // three counts a beat
    public void A_shift_is_held_against_the_time_that_the_tempo_leaves(string text, string? words)
    {
        var found = Checked.Run(text).Where(f => f.Code == "hand-fast-shift").ToList();
        Assert.Equal(words is null ? 0 : 1, found.Count);
        Assert.All(found, f => Assert.Contains(words!, f.Message));
    }

    [Theory]
    [InlineData("hand-impossible-stretch")]
    [InlineData("hand-wide-stretch")]
    [InlineData("hand-too-many-fingers")]
    [InlineData("hand-fingers-too-far")]
    [InlineData("hand-fast-shift")]
    public void Every_page_that_judges_a_stretch_carries_the_caution(string code) => Assert.Contains(Caution.Text, CheckCatalogue.Page(code));

    [Theory]
    [InlineData("| N.C.\n    1 E2+G2+B3\n      ^^^^^^^^ hand-no-place: they have only string 6 between them\n")]
    [InlineData("| N.C.\n    1 F2+G#3+B5\n      ^^^^^^^^^ hand-no-place: Without F2 or B5 it can be played\n")]
    [InlineData("| N.C.\n    1 1@6+B5\n      ^^^^^^ hand-no-place: 1-x-x-x-x-19\n")] // one placed, the other can be in one place only
    [InlineData("| N.C.\n    low: 1 F2\n    top: 1 B4+F5\n           ^^^^^ hand-no-place: no hand holds them\n")] // of two rows
    [InlineData("| N.C.\n    low: 1 F2 ring\n    top: 3 G5\n           ^^ hand-no-place: F2 is to sound on here\n")]
    [InlineData("| N.C.\n    low: 1 F2\n| N.C.\n    low: 1 tied\n    top: 3 G5\n           ^^ hand-no-place: Let the note end sooner\n")]
    public void Notes_without_a_place_together_are_told_before_they_are_placed(string marked) => Checked.Expect(marked);

    [Theory]
    [InlineData("| N.C.\n    low: 1 F2\n    top: 3 G5\n")] // F2 only lasts: the hand may leave it
    [InlineData("| N.C.\n    low: 1 E4\n    top: 1 E4\n")] // two voices meet in one pitch
    [InlineData("| N.C.\n    low: 1 E4+Bb3+G2\n    top: 1 5@1+E4\n")]
    [InlineData("| N.C.\n    1 E2+E5 harmonic\n")]
    [InlineData("| N.C.\n    1 C3+E3+G3+C4+E4\n")]
    public void Notes_with_a_place_are_left_alone(string text) => Assert.DoesNotContain(Checked.Run(text), f => f.Code == "hand-no-place");

    // Whatever is proposed is put in and checked again: nothing is left to say of it but what it is told about.
    [Theory]
    [InlineData("| N.C.\n    1 E2+G2+B3+E4\n", "Leave out E2, which is doubled", "Play G2 an octave up, G3", "Play E2 an octave up, E3")]
    [InlineData("| N.C.\n    1 F2+G#3+B5\n", "Play F2 an octave up, F3")]
    [InlineData("| N.C.\n    1 1@6+C#3@6+A3\n")]
    [InlineData("| N.C.\n    low: 1 F2 ring\n    top: 3 G2+B3\n", "Play G2 an octave up, G3")]
    [InlineData("| N.C.\n    1 F2+A3@5+C4\n", "Leave the string of A3 open", "Play A3 an octave down, A2", "Play F2 an octave up, F3")]
    [InlineData("| N.C.\n    1 C4+E   3 E2+G+B3\n")] // an octave that is left out hangs on the notes before
    public void Notes_without_a_place_get_what_gives_them_one(string text, params string[] titles)
    {
        var found = Checked.Run(text).Where(f => f.Code == "hand-no-place").ToList();
        Assert.Equal(titles, found.SelectMany(f => f.Fixes).Select(f => f.Title));
        foreach (var fix in found.SelectMany(f => f.Fixes))
        {
            Assert.False(fix.Safe);
            Assert.DoesNotContain(Checked.Run(Checked.Apply(text, fix)), f => f.Severity <= Severity.Warning);
        }
    }

    // By Fitts's law with the rates of the page, worked by hand: from fret 3 to 15, 271 mm to a fret 16 mm wide are 5.1 bits, half a second at 10 bits a second and
    // a third of one at 16.
    [Theory]
    [InlineData("tempo 120\n\n| N.C.\n    1 x-3-5-4-5-x   2 x-15-17-16-17-x\n", true)]
    [InlineData("tempo 100\n\n| N.C.\n    1 x-3-5-4-5-x   2 x-15-17-16-17-x\n", false)]
    [InlineData("tempo 120\n\n| N.C.\n    1 3@5   2 15@5\n", false)]
    [InlineData("tempo 120\n\n| N.C.\n    1 x-3-5-4-5-x   2 x-8-10-9-10-x\n", false)]
    public void A_whole_grip_takes_longer_to_land_than_one_finger(string text, bool told) =>
        Assert.Equal(told, Checked.Run(text).Any(f => f.Code == "hand-fast-shift"));

    [Fact]
    public void What_is_placed_already_is_one_finding_of_the_stretch_not_two() =>
        Assert.Equal(["hand-impossible-stretch"], Checked.Run("| N.C.\n    1 1@6+19@1+C4\n").Select(f => f.Code));

    // Five frets apart: by the luthiers' rule 137 mm from fret 3 of a 647.7 mm scale, 81 mm from fret 12.
    [Theory]
    [InlineData("| N.C.\n    1 3-8-x-x-x-x\n", true)]
    [InlineData("| N.C.\n    1 1-5-x-x-x-x\n", false)] // one position, the little finger stretched (common practice)
    [InlineData("| N.C.\n    1 12-17-x-x-x-x\n", false)]
    public void A_hand_that_nobody_declared_is_told_only_of_what_goes_past_a_position_and_its_comfort(string text, bool wide) =>
        Assert.Equal(wide ? [("hand-wide-stretch", Severity.Information)] : [], Checked.Run(text).Select(f => (f.Code, f.Severity)));
}
