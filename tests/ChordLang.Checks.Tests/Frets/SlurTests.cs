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
    [InlineData("7@2   2 3@1 pull", Severity.Warning, "Play G4 at fret 8 of string 2")]
    [InlineData("5@2   2 7@1 hammer", Severity.Information, "Play B4 at fret 12 of string 2")]
    [InlineData("5@2   2 8@1 slide from 6@2", Severity.Warning, "Play C5 at fret 13 of string 2")]
    [InlineData("5@2   2 8@1 grace 7@2 hammer", Severity.Information, "Play C5 at fret 13 of string 2")]
    public void What_changes_its_string_is_told(string played, Severity severity, string fix)
    {
        var text = $"| N.C.\n    1 {played}\n";
        var finding = Assert.Single(Checked.Run(text), f => f.Code == "fret-slur-across-strings");
        Assert.Equal((severity, fix), (finding.Severity, finding.Fixes.FirstOrDefault()?.Title));
        Assert.Equal<int>([1], finding.Strings);
        Assert.All(finding.Fixes, f => Assert.DoesNotContain(Checked.Run(Checked.Apply(text, f)), x => x.Code == "fret-slur-across-strings"));
    }
}
