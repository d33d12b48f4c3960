// Each expectation of the closed list: a piece that keeps it, and the same piece one slip away from it.
using ChordLang.Checks.Tests.Catalogue;

namespace ChordLang.Checks.Tests.Expect;

public sealed class UnmetExpectationTests
{
    private const string Code = "text-unmet-expectation";

    [Theory]
    [InlineData("no fret above 5", "1 x-3-5-4-5-x", "1 x-3-5-4-8-x", "in bar 1 on 1 fret 8 is played on string 2")]
    [InlineData("no fret below 3", "1 x-3-5-4-5-x", "1 x-3-2-4-5-x", "fret 2 is played on string 4")]
    [InlineData("no open strings", "1 x-3-5-4-5-x", "1 x-3-2-0-0-x", "string 3 is played open, and one more place breaks it too")]
    [InlineData("only strings 2 3 4 5", "1 x-3-5-4-5-x", "1 x-3-5-4-5-3", "G4 is played on string 1")]
    [InlineData("at most 4 notes at once", "1 x-3-5-4-5-x", "1 x-3-5-4-5-3", "5 notes sound at once")]
    [InlineData("only shapes low", "1 low+2", "1 x-3-5-4-5-7", "the voicing x-3-5-4-5-7 is none of these shapes")]
    [InlineData("only voicings drop-2", "1 x-3-5-4-5-x", "1 x-3-2-4-1-x", "in bar 1 on 1 the voicing is ")]
    [InlineData("only voicings drop-3 shell", "1 8-x-9-9-8-x", "1 x-3-5-4-5-x", "in bar 1 on 1 the voicing is drop-2")]
    [InlineData("bars 1", "1 x-3-5-4-5-x", "1 x-3-5-4-5-x\n| Cmaj7", "2 bars are written")]
    [InlineData("top note is melody", "1 x-3-5-4-5-3", "1 E4\n    1 x-3-5-4-x-3", "G4 lies above the melody note E4")]
    [InlineData("no findings", "1 x-3-5-4-5-x", "1 x-3-5-4-5-x ring@6", "bar 1 has the finding fret-mark-off-string")]
    public void What_breaks_it_is_said(string claim, string keeps, string breaks, string words)
    {
        Assert.DoesNotContain(Checked.Run(Text(claim, keeps)), f => f.Code == Code);
        var finding = Assert.Single(Checked.Run(Text(claim, breaks)), f => f.Code == Code);
        Assert.Contains(words, finding.Message, StringComparison.Ordinal);
        Assert.Equal(claim, Text(claim, breaks).Substring(finding.Span.Start, finding.Span.Length));
        Assert.True(claim.StartsWith("bars", StringComparison.Ordinal) || finding.Related.Length > 0);
    }

    [Fact]
    public void A_voicing_without_a_name_breaks_every_voicing_named() =>
        Assert.Contains("in bar 1 on 1 a voicing has no name", Assert.Single(Checked.Run("expect every voicing named\n\n| N.C.\n    1 x-3-5-4-5-x\n")).Message, StringComparison.Ordinal);

    [Fact]
    public void Every_kind_of_voicing_that_harmony_tells_can_be_expected()
    {
        // One voicing of each kind over C, by its definition in common practice: close, second voice from the top dropped, third, second and fourth, and so on.
        var voicings = new Dictionary<string, int[]>
        {
            ["close"] = [60, 64, 67, 71], ["drop-2"] = [55, 60, 64, 71], ["drop-3"] = [52, 60, 67, 71], ["drop-2-and-4"] = [48, 55, 64, 71], ["shell"] = [48, 52, 59],
            ["quartal"] = [52, 57, 62], ["cluster"] = [60, 62, 64], ["open"] = [48, 64, 67], ["spread"] = [36, 55, 76],
        };
        var chord = Theory.Chords.ChordReader.Read("C", "maj7", null).Chord!;
        foreach (var (kind, midi) in voicings)
            Assert.Equal(kind, Harmony.Voicings.VoicingKind.Of([.. midi], chord).Kind);
        Assert.Equal(Grammar.Parsing.Vocabulary.VoicingKinds, voicings.Keys);
    }

    [Fact]
    public void Where_no_chord_is_named_the_kind_is_not_judged() => Assert.Empty(Checked.Run("expect only voicings close\n\n| N.C.\n    1 x-3-5-4-5-x\n"));

    [Fact]
    public void A_pickup_is_no_bar() => Assert.Empty(Checked.Run("expect bars 1\n\npickup from 4\n| Cmaj7\n    4 G4\n| Cmaj7\n    1 x-3-5-4-5-x\n"));

    [Fact]
    public void An_unknown_shape_is_told_once() =>
        Assert.Equal(["text-unknown-shape"], Checked.Run("expect only shapes low\n\n| Cmaj7\n    1 x-3-5-4-5-x\n").Select(f => f.Code));

    private static string Text(string claim, string row) =>
        (claim.Contains("low", StringComparison.Ordinal) && claim.Contains("shapes", StringComparison.Ordinal) ? "shape low = x-1-3-2-3-x\n" : "") + $"expect {claim}\n\n| Cmaj7\n    {row}\n";
}
