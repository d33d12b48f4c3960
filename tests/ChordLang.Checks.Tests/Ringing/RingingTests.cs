// Notes that ring: each planted break is found once, at the note that rings, and names the event that breaks it; the others are left alone.
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Tests.Catalogue;
using ChordLang.Fretboard.Hands;

namespace ChordLang.Checks.Tests.Ringing;

public sealed class RingingTests
{
    public static TheoryData<string> Whole => [.. RingingPassages.All.Where(p => p.Code is null).Select(p => p.Name)];
    public static TheoryData<string> Broken => [.. RingingPassages.All.Where(p => p.Code is not null).Select(p => p.Name)];

    [Fact]
    public void Half_of_forty_passages_are_broken() =>
        Assert.Equal((40, 20, 40), (RingingPassages.All.Length, Broken.Count, RingingPassages.All.Select(p => p.Name).Distinct().Count()));

    [Theory, MemberData(nameof(Whole))]
    public void What_can_ring_is_left_alone(string name) =>
        Assert.Empty(Checked.Run(Named(name).Text).Select(f => $"{f.Code} {f.Message}"));

    [Theory, MemberData(nameof(Broken))]
    public void What_breaks_names_the_event_that_breaks_it(string name)
    {
        var passage = Named(name);
        var finding = Assert.Single(Checked.Run(passage.Text));
        Assert.Equal((passage.Code, Severity.Warning), (finding.Code, finding.Severity));
        Assert.Contains($"bar {passage.Bar}, count {passage.Count},", finding.Message);
        var cutter = Assert.Single(finding.Related);
        Assert.Equal((passage.Bar, passage.Count), new Places(Checked.Bind(passage.Text)).Of(cutter.Span));
        Assert.True(finding.Bar < passage.Bar || finding.Count != passage.Count, "the finding stands at the note that rings");
    }

    [Theory, MemberData(nameof(Broken))]
    public void Every_repair_leaves_nothing_to_find(string name)
    {
        var passage = Named(name);
        foreach (var fix in Checked.Run(passage.Text).SelectMany(f => f.Fixes))
            Assert.Empty(Checked.Run(Checked.Apply(passage.Text, fix)).Select(f => $"after '{fix.Title}': {f.Code} {f.Message}"));
    }

    [Theory]
    [InlineData("| N.C.\n    top: 1 G4@1 ring\n    low: 1 3@6   3 2@1\n", "Play F#4 at fret 7 of string 2", "Let it ring until 3")]
    [InlineData("| N.C.\n    top: 1 5@1 finger 4 ring\n    low: 3 8@3 finger 4\n", "Take A4 with the first finger")]
    [InlineData("| N.C.\n    top: 1 5@1 finger 1 ring\n    low: 3 8@3 finger 1\n", "Take Eb4 with the little finger")]
    [InlineData("| N.C.\n    top: 1 5@1 ring\n    low: 3 8@3 finger 1\n", "Take Eb4 with the little finger")]
    public void Repairs_say_where_else(string text, params string[] titles)
    {
        var offered = Assert.Single(Checked.Run(text)).Fixes.Select(f => f.Title);
        Assert.Equal(titles, offered);
    }

    [Fact]
    public void What_one_event_cuts_of_another_is_one_finding()
    {
        const string Text = "| Bbm7 3 Eb9\n    1 x-1-3-1-2-x ring   3 x-6-5-6-6-x\n";
        var finding = Assert.Single(Checked.Run(Text));
        Assert.Equal(("ring-cut-by-string", Severity.Warning), (finding.Code, finding.Severity));
        Assert.Equal("2 3 4 5", string.Join(' ', finding.Strings));
        Assert.Equal("Bb2, F3, Ab3 and Db4 are told to ring to the end of bar 1, but in bar 1, count 3, Eb3, G3, Db4 and F4 strike strings 5, 4, 3 and 2 again, "
            + "and a string sounds one note at a time. Change one of the grips, or let the first end there.", finding.Message);
        Assert.Equal(("x-1-3-1-2-x", "x-6-5-6-6-x"), (Text.Substring(finding.Span.Start, finding.Span.Length), Text.Substring(finding.Related[0].Span.Start, finding.Related[0].Span.Length)));
        var fix = Assert.Single(finding.Fixes);
        Assert.Equal("Let it ring until 3", fix.Title);
        Assert.Empty(Checked.Run(Checked.Apply(Text, fix)));
    }

    // One note of the event sounds on, is cut elsewhere, or rings by a mark of its own: the mark on the whole does not speak for those that are cut alone.
    [Theory]
    [InlineData("| N.C.\n    1 0-2-2-x-x-x ring   3 x-3-3-x-x-x\n", "5 4 none")]
    [InlineData("| N.C.\n    1 0-2-2-1-x-x ring   3 x-3-3-x-x-x   4 x-x-x-2-x-x\n", "5 4 none", "3 none")]
    [InlineData("| N.C.\n    1 x-1-3-1-2-x ring ring@2 until 3   3 x-6-5-6-6-x\n", "5 4 3 Let it ring until 3")]
    [InlineData("| N.C.\n    1 x-1-3-1-x-x ring@5 ring@4   3 x-6-5-6-x-x\n", "5 4 Let it ring until 3")]
    public void Only_what_is_cut_at_once_is_told_together(string text, params string[] expected)
    {
        var found = Checked.Run(text);
        Assert.Equal(expected, found.Select(f => $"{string.Join(' ', f.Strings.Reverse())} {f.Fixes.LastOrDefault(x => x.Title.StartsWith("Let", StringComparison.Ordinal))?.Title ?? "none"}"));
        foreach (var fix in found.SelectMany(f => f.Fixes).Where(x => x.Title.StartsWith("Let", StringComparison.Ordinal)))
            Assert.Empty(Checked.Run(Checked.Apply(text, fix)));
    }

    [Fact]
    public void A_line_that_lasts_unasked_is_information_and_a_voicing_that_gives_up_a_note_is_nothing()
    {
        var line = Assert.Single(Checked.Run("| N.C.\n    low: 1 3@2\n    top: 2 0@1   3 1@2\n"));
        Assert.Equal(("ring-cut-by-string", Severity.Information), (line.Code, line.Severity));
        Assert.Empty(Checked.Run("| N.C.\n    low: 1 x-3-2-0-1-x\n    top: 2 0@1   3 3@2\n"));
    }

    // A finger on a ringing note cannot be exchanged: the first finger of the grip is wanted on fret 3, where nothing lower is left for it.
    [Fact]
    public void A_finger_that_would_have_to_be_exchanged_lets_the_note_go()
    {
        const string text = "| Ab\n    low: 1 4-x-5-5-4-x ring\n    top: 3 3@1\n";
        var finding = Assert.Single(Checked.Run(text), f => f.Code == "ring-cut-by-finger");
        Assert.Equal(Severity.Information, finding.Severity);
        Assert.Contains("in bar 1, count 3, G4 takes the hand away: with the usual fingers, 1-x-3-4-2-x, the first finger has to leave", finding.Message);
        Assert.Equal<int>([6], finding.Strings);
        Assert.StartsWith("Take the grip with the fingers 2-x-", finding.Fixes[0].Title);
        Assert.All(finding.Fixes, f => Assert.DoesNotContain(Checked.Run(Checked.Apply(text, f)), x => x.Code.StartsWith("ring-", StringComparison.Ordinal)));
        Assert.DoesNotContain(Checked.Run("| Ab\n    low: 1 4-x-5-5-4-x ring\n    top: 3 6@1\n"), f => f.Code.StartsWith("ring-", StringComparison.Ordinal));
    }

    [Fact]
    public void A_grace_note_cuts_the_note_that_rings_on_its_string()
    {
        var finding = Assert.Single(Checked.Run("| N.C.\n    top: 1 8@2 ring\n    low: 3 5@3 grace 5@2\n"));
        Assert.Equal("ring-cut-by-string", finding.Code);
        Assert.Contains("the grace note E4 strikes string 2 again", finding.Message);
        Assert.Empty(Checked.Run("| N.C.\n    top: 1 8@2 ring\n    low: 3 5@3 grace 4@3\n"));
        Assert.Empty(Checked.Run("| N.C.\n    1 7@2 ring until 3   3 8@2 grace 7@2\n"));
    }

    [Fact]
    public void The_page_about_fingers_carries_the_caution() => Assert.Contains(Caution.Text, CheckCatalogue.Page("ring-cut-by-finger"));

    private static Passage Named(string name) => RingingPassages.All.Single(p => p.Name == name);
}
