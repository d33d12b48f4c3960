// Where a late start or an odd fraction is asked about, and where it is left in peace.
using ChordLang.Checks.Tests.Catalogue;

namespace ChordLang.Checks.Tests.Counts;

public sealed class CountsTests
{
    [Theory]
    [InlineData("pickup from 3\n| G7\n    3& D4   4 F4\n")]
    [InlineData("| G7\n    top:  2& D4   3 F4\n    low:  1 3-x-3-4-x-x\n")]
    [InlineData("| G7\n    1 D4   3 F4 ring over\n| G7\n    2 D4\n")]
    [InlineData("| G7\n    1 D4   3 F4\n| G7\n    1 tied   2 D4\n")]
    [InlineData("| G7\n    1 rest   2 D4\n")]
    public void A_late_start_with_a_reason_is_silent(string text) => Assert.Empty(Checked.Run(text));

    [Fact]
    public void A_late_start_that_a_slip_made_is_not_told_twice() =>
        Assert.Equal(["text-bad-count"], Checked.Run("| G7\n    1and D4   2 F4\n").Select(f => f.Code));

    [Fact]
    public void The_fix_of_a_late_start_is_safe_and_keeps_the_sound()
    {
        const string text = "meter 6/8\n\n| G7\n    2 D4   4 F4\n";
        var fix = Assert.Single(Assert.Single(Checked.Run(text)).Fixes);
        Assert.True(fix.Safe);
        Assert.Equal("meter 6/8\n\n| G7\n    1 rest  2 D4   4 F4\n", Checked.Apply(text, fix));
        Assert.Empty(Checked.Run(Checked.Apply(text, fix)));
    }

    // Common practice: notes down to the 64th, and groups of three, five, seven and nine.
    [Theory]
    [InlineData("1+1/16", true)]
    [InlineData("1+2/3", true)]
    [InlineData("1+1/6", true)]
    [InlineData("1+2/5", true)]
    [InlineData("1+3/7", true)]
    [InlineData("1+4/9", true)]
    [InlineData("1+1/32", false)]
    [InlineData("1+3/11", false)]
    [InlineData("1+7/13", false)]
    [InlineData("1+4/15", false)]
    public void A_fraction_is_asked_about_where_no_note_value_has_it(string count, bool written) =>
        Assert.Equal(written ? [] : ["count-odd-fraction"], Checked.Run($"| G7\n    1 D4   {count} F4   3 B3\n").Select(f => f.Code));
}
