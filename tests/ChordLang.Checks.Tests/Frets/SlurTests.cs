// Hammer-ons, pull-offs and slides across strings: told where both strings are known, and nowhere else.
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Tests.Catalogue;

namespace ChordLang.Checks.Tests.Frets;

public sealed class SlurTests
{
    [Theory]
    [InlineData("5@2   2 8@2 slide")]
    [InlineData("5@2   2 8@1 slur")] // a phrase may cross strings
    [InlineData("x-3-5-4-5-x   2 6@2 hammer")] // a note of the grip lies there
    [InlineData("x-3-5-4-5-x   2 x-5-7-6-7-x slide")]
    [InlineData("x-3-5-4-5-x   2 x-3-5-4-7-x hammer@2")]
    [InlineData("E4   2 8@1 slide")] // its string is still to be found
    [InlineData("rest   2 8@1 hammer")]
    [InlineData("5@2   2 8@1 slide from below")]
    [InlineData("5@2   2 8@1 slide from 6@1")]
    [InlineData("5@2   2 8@1 grace 7@1 hammer")]
    public void What_stays_on_its_string_is_left_alone(string played) =>
        Assert.DoesNotContain(Checked.Run($"| N.C.\n    1 {played}\n"), f => f.Code == "fret-slur-across-strings");

    [Theory]
    [InlineData("5@2   2 8@1 slide", Severity.Warning, "Play C5 at fret 13 of string 2")]
    [InlineData("12@2   2 3@1 pull", Severity.Warning, "Play G4 at fret 8 of string 2")]
    [InlineData("5@2   2 7@1 hammer", Severity.Information, "Play B4 at fret 12 of string 2")]
    [InlineData("5@2   2 8@1 slide from 6@2", Severity.Warning, "Play C5 at fret 13 of string 2")]
    [InlineData("5@2   2 8@1 grace 7@2 hammer", Severity.Information, "Play C5 at fret 13 of string 2")]
    [InlineData("6@2   2 7@3 hammer", Severity.Information, null)] // on string 2 it would lie below
    public void What_changes_its_string_is_told(string played, Severity severity, string? fix)
    {
        var text = $"| N.C.\n    1 {played}\n";
        var finding = Assert.Single(Checked.Run(text), f => f.Code == "fret-slur-across-strings");
        Assert.Equal((severity, fix), (finding.Severity, finding.Fixes.FirstOrDefault()?.Title));
        Assert.Single(finding.Strings);
        Assert.All(finding.Fixes, f => Assert.DoesNotContain(Checked.Run(Checked.Apply(text, f)), x => x.Code == "fret-slur-across-strings"));
    }

    [Theory]
    [InlineData("5@2   2 8@2 hammer")]
    [InlineData("5@2   2 3@2 pull")]
    [InlineData("5@2   2 0@2 pull")]
    [InlineData("5@2   2 3@2 slide")]
    [InlineData("5@2   2 3@2 slur")]
    [InlineData("5@2   2 3@1 hammer")] // another check speaks of the string
    [InlineData("x-3-5-4-5-x   2 x-3-5-4-7-x hammer")] // one string moves up
    [InlineData("8@2   2 8@2 grace 7@2 hammer")]
    [InlineData("E4   2 F4 hammer")] // their strings are still to be found
    [InlineData("rest   2 3@2 pull")]
    public void What_moves_as_its_mark_says_is_left_alone(string played) =>
        Assert.DoesNotContain(Checked.Run($"| N.C.\n    1 {played}\n"), f => f.Code == "fret-slur-direction");

    [Theory]
    [InlineData("8@2   2 5@2 hammer", "Write pull")]
    [InlineData("5@2   2 8@2 pull", "Write hammer")]
    [InlineData("5@2   2 5@2 hammer", null)]
    [InlineData("5@2   2 5@2 grace 7@2 hammer", "Write pull")]
    [InlineData("x-3-5-4-7-x   2 x-3-5-4-5-x hammer@2", "Write pull")]
    public void What_moves_the_other_way_is_told(string played, string? fix)
    {
        var text = $"| N.C.\n    1 {played}\n";
        var finding = Assert.Single(Checked.Run(text), f => f.Code == "fret-slur-direction");
        Assert.Equal((Severity.Warning, fix), (finding.Severity, finding.Fixes.FirstOrDefault()?.Title));
        Assert.All(finding.Fixes, f => Assert.DoesNotContain(Checked.Run(Checked.Apply(text, f)), x => x.Code == "fret-slur-direction"));
    }
}
