// Names against sound: what musicians rightly do stays silent, and each slip has one explanation whose first fix repairs it.
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Tests.Catalogue;

namespace ChordLang.Checks.Tests.Names;

public sealed class NamesTests
{
    public static TheoryData<string, string> Silent => new()
    {
        { "the root is left out (common practice)", "| Cmaj7\n    1 x-x-2-4-0-3\n" },
        { "the fifth is left out (common practice)", "| C7\n    1 x-3-2-3-x-x\n" },
        { "one note over a held voicing is melody", "| Cmaj7\n    top: 1 rest  3 F5\n    low: 1 x-3-5-4-5-x\n" },
        { "anticipation in the last count fits the next chord", "| Cmaj7\n    1 x-3-5-4-5-x   4& x-2-x-2-3-2\n| Bm7\n    1 rest\n" },
        { "anticipation tied over the bar line", "| Cmaj7\n    1 x-3-5-4-5-x   4 x-2-x-2-3-2\n| Bm7\n    1 tied\n" },
        { "the bass of the slash was struck alone before", "| C/E\n    low: 1 E2\n    top: 1 rest  2 x-x-2-0-1-0\n" },
        { "passing tones between chord tones over a pedal", "| C\n    top: 1 E4+C4   2 F4+D4   3 G4+E4\n    low: 1 C3 ring\n" },
        { "the third comes a count later in the melody", "| Cmaj7\n    top: 1 rest  2 E5\n    low: 1 x-3-5-4-x-x\n" },
        { "no chord is in force", "| N.C.\n    1 x-3-5-4-6-x\n" },
        { "its own name stands behind is", "| Cmaj7\n    1 x-3-5-3-4-x is Cm7\n" },
        { "dead strings sound no pitch", "| Cmaj7\n    1 x-3-5-4-6-x dead\n" },
        { "a thirteenth chord without ninth and fifth", "| G13\n    1 3-x-3-4-5-x\n" },
        { "a sharp ninth above its major third", "| C7\n    1 x-3-2-3-4-x is C7#9\n" },
    };

    [Theory, MemberData(nameof(Silent))]
    public void Stays_silent_where(string why, string text)
    {
        Assert.NotEmpty(why);
        Assert.Equal([], Checked.Run(text).Where(f => f.Code.StartsWith("name-", StringComparison.Ordinal)).Select(f => $"{f.Code}: {f.Message}"));
    }

    public static TheoryData<string, string, string, string> Slips => new()
    {
        // text, code, strings to blame, text after the first fix
        { "| Cmaj7\n    1 x-3-5-4-6-x\n", "name-fret-slip", "2", "| Cmaj7\n    1 x-3-5-4-5-x\n" },
        { "| Cmaj7\n    1 x3546x\n", "name-fret-slip", "2", "| Cmaj7\n    1 x3545x\n" },
        { "| Am7\n    1 5-x-6-5-5-x\n", "name-fret-slip", "4", "| Am7\n    1 5-x-5-5-5-x\n" },
        { "| Cmaj7\n    1 C3+G3+B3+F4\n", "name-fret-slip", "", "| Cmaj7\n    1 C3+G3+B3+E4\n" },
        { "| Cmaj7\n    1 3@5+5@4+4@3+6@2\n", "name-fret-slip", "2", "| Cmaj7\n    1 3@5+5@4+4@3+5@2\n" },
        { "shape drop = x-1-3-2-4-x\n\n| Cmaj7\n    1 drop+2\n", "name-fret-slip", "2", "shape drop = x-1-3-2-4-x\n\n| Cmaj7\n    1 x-3-5-4-5-x\n" },
        { "| Cmaj7\n    1 x-x-3-5-4-5\n", "name-string-set-slip", "1 2 3 4", "| Cmaj7\n    1 x-3-5-4-5-x\n" },
        { "| C\n    1 x-3-2-0-1-0 is Cmaj7/E\n", "name-slash-bass", "5", "" },
        // A minor third under the symbol of a major chord (common practice: a sharp ninth stands above a major third).
        { "| C7\n    1 x-3-5-3-4-x\n", "name-fret-slip", "2", "| C7\n    1 x-3-5-3-5-x\n" },
        { "| E7\n    1 0-2-0-0-0-0\n", "name-fret-slip", "3", "| E7\n    1 0-2-0-1-0-0\n" },
        // The open grips of everyday sevenths under the name of the triad are named before a finger is blamed (common practice).
        { "| C\n    1 x-3-2-3-1-0\n", "name-contradiction", "3", "| C7\n    1 x-3-2-3-1-0\n" },
        { "| G\n    1 3-2-0-0-0-1\n", "name-contradiction", "1", "| G7\n    1 3-2-0-0-0-1\n" },
        // There are three diminished sevenths, and this is another one (common practice).
        { "| Gdim7\n    1 2-x-1-2-1-x\n", "name-contradiction", "2 3 4 6", "| Gdim7\n    1 3-x-2-3-2-x\n" },
        { "| C\n    low: 1 C3 ring   1& E3 ring   2 G#3 ring   2& C4 ring\n", "name-fret-slip", "", "| C\n    low: 1 C3 ring   1& E3 ring   2 G3 ring   2& C4 ring\n" },
    };

    [Theory, MemberData(nameof(Slips))]
    public void Gives_one_warning_whose_first_fix_repairs(string text, string code, string strings, string after)
    {
        var found = Checked.Run(text).Where(f => f.Code.StartsWith("name-", StringComparison.Ordinal)).ToArray();
        var one = Assert.Single(found);
        Assert.Equal((code, Severity.Warning, strings), (one.Code, one.Severity, string.Join(' ', one.Strings)));
        Assert.True(one.Fixes.Count(f => f.Title.StartsWith("Call", StringComparison.Ordinal)) <= 2);
        if (after.Length == 0)
            return;
        Assert.Equal(after, Checked.Apply(text, one.Fixes[0]));
        Assert.DoesNotContain(Checked.Run(after), f => f.Code.StartsWith("name-", StringComparison.Ordinal));
    }

    [Fact]
    public void Moving_a_voicing_takes_its_fingers_along()
    {
        const string text = "| Cmaj7\n    1 x-x-3-5-4-5 fingers x-x-1-3-2-4\n";
        var found = Assert.Single(Checked.Run(text), f => f.Code == "name-string-set-slip");
        Assert.Equal("| Cmaj7\n    1 x-3-5-4-5-x fingers x-1-3-2-4-x\n", Checked.Apply(text, found.Fixes[0]));
    }

    // The plain triad on the upper strings is a part of its seventh chord, however the next strings would sound (common practice).
    [Fact]
    public void A_triad_of_the_chord_is_no_slip() =>
        Assert.Equal(["name-missing-tone"], Checked.Run("| Gm7\n    1 x-x-x-3-3-3\n").Where(f => f.Code.StartsWith("name-", StringComparison.Ordinal)).Select(f => f.Code));

    // What is missing lies a fret beside a tone that is there twice: the fret is offered before another name.
    [Theory]
    [InlineData("Cmaj7", "x-3-5-5-5-x", "x-3-5-4-5-x")]
    [InlineData("D13", "x-5-4-4-0-x", "x-5-4-5-0-x")]
    public void A_missing_tone_beside_a_double_is_a_fret_away(string symbol, string slots, string after)
    {
        var found = Assert.Single(Checked.Run($"| {symbol}\n    1 {slots}\n"), f => f.Code == "name-missing-tone");
        Assert.Equal(Severity.Hint, found.Severity);
        Assert.Equal($"| {symbol}\n    1 {after}\n", Checked.Apply($"| {symbol}\n    1 {slots}\n", found.Fixes[0]));
    }

    // A chord that lacks its seventh is renamed on its own root first, as the triad that it is (common practice).
    [Theory]
    [InlineData("| Gm7\n    1 x-x-x-3-3-3\n", "| Gm/Bb\n    1 x-x-x-3-3-3\n")]
    [InlineData("| G7\n    1 x-x-x-4-3-3\n", "| G/B\n    1 x-x-x-4-3-3\n")]
    public void What_only_lacks_a_tone_keeps_its_root(string text, string after) =>
        Assert.Equal(after, Checked.Apply(text, Assert.Single(Checked.Run(text), f => f.Code == "name-missing-tone").Fixes[0]));

    [Fact]
    public void What_is_only_repeated_is_said_once() =>
        Assert.Single(Checked.Run("| Cmaj7\n    1 x-3-5-4-6-x   2 again   3 again\n| %\n"), f => f.Code == "name-fret-slip");

    [Fact]
    public void Hints_are_at_most_one_a_bar() =>
        Assert.Single(Checked.Run("| C7   3 F7\n    1 x-3-2-3-3-x   3 x-8-7-8-8-x\n"), f => f.Severity == Severity.Hint && f.Code.StartsWith("name-", StringComparison.Ordinal));

    [Fact]
    public void Strict_naming_warns_of_what_jazz_naming_only_hints_at()
    {
        const string bars = "| C7\n    1 x-3-2-3-3-x\n| Cmaj7\n    1 x-3-5-4-x-x\n";
        Assert.All(Checked.Run(bars), f => Assert.Equal(Severity.Hint, f.Severity));
        var strict = Checked.Run("naming strict\n" + bars);
        Assert.Equal([1, 2], strict.Select(f => f.Bar));
        Assert.All(strict, f => Assert.Equal(Severity.Warning, f.Severity));
    }

    [Theory]
    [InlineData("C7", "x-3-2-3-3-x", "C9")]
    [InlineData("G7", "3-x-3-4-5-x", "G13")]
    [InlineData("Am7", "5-x-5-5-3-x", "Am11")]
    public void A_colour_brings_the_fuller_name(string symbol, string slots, string fuller)
    {
        var found = Assert.Single(Checked.Run($"| {symbol}\n    1 {slots}\n"));
        Assert.Equal("name-unnamed-tension", found.Code);
        Assert.Equal($"| {fuller}\n    1 {slots}\n", Checked.Apply($"| {symbol}\n    1 {slots}\n", found.Fixes[0]));
    }

    [Fact]
    public void An_allow_silences_and_is_not_reported() =>
        Assert.Empty(Checked.Run("// allow name-fret-slip: the fourth resolves by itself\n| Cmaj7\n    1 x-3-5-4-6-x\n"));
}
