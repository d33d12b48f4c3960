// The spelling that key and harmony call for, by worked examples of common practice; and what must stay silent.
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Tests.Catalogue;

namespace ChordLang.Checks.Tests.Spelling;

public sealed class SpellingTests
{
    // Common practice: a seventh lies seven letters above its root; the key's own letters come before all others.
    [Theory]
    [InlineData("key F major\n\n| Bbmaj7\n    1 A#3   3 D4\n", "spelling-written-pitch", "Bb3")]
    [InlineData("key E minor\n\n| B7\n    1 D#4   3 G##3\n", "spelling-written-pitch", "A3")]
    [InlineData("key Gb major\n\n| Cb7\n    1 Eb4   3 A3\n", "spelling-written-pitch", "Bbb3")]
    [InlineData("key Eb major\n\n| D#maj7\n    1 x-6-8-7-8-x\n", "spelling-chord-symbol", "Eb")]
    public void A_spelling_against_key_and_harmony_is_a_hint_with_a_safe_fix(string text, string code, string proposed)
    {
        var finding = Assert.Single(Checked.Run(text), f => f.Code == code);
        Assert.Equal(Severity.Hint, finding.Severity);
        Assert.Contains(proposed, finding.Message);
        Assert.True(finding.Fixes[0].Safe);
    }

    // A false alarm once: a tone of the key under another spelling was called a slip against the key's signature.
    [Fact]
    public void A_tone_of_the_key_in_another_spelling_is_no_forgotten_accidental() =>
        Assert.DoesNotContain(Checked.Run("key F major\n\n| Fmaj7\n    1 C4   4 A#3@3\n"), f => f.Code == "spelling-signature-slip");

    // Common practice: chromatic approach, neighbour, passing note and blue note explain a foreign pitch.
    [Theory]
    [InlineData("key C major\n\n| Cmaj7\n    1 D#4   2 E4   3 G4\n")]
    [InlineData("key C major\n\n| Cmaj7\n    1 G4   2 F#4   3 G4\n")]
    [InlineData("key C major\n\n| Cmaj7\n    1 D4   2 D#4   3 E4\n")]
    [InlineData("key C major\n\n| C7\n    1 Eb4   3 G4\n")]
    [InlineData("\n| Cmaj7\n    1 F#4   3 C4\n")]
    public void What_a_step_or_the_blues_explains_is_silent(string text) =>
        Assert.DoesNotContain(Checked.Run(text), f => f.Code == "spelling-signature-slip");

    [Theory]
    [InlineData("key G major\n\n| Gmaj7\n    1 D4   2 F4   3 B4\n", "F#4", "sharp of the key forgotten")]
    [InlineData("key F major\n\n| Bbmaj7\n    1 D4   2 B4   3 F4\n", "Bb4", "flat of the key forgotten")]
    public void A_forgotten_accidental_of_the_key_is_a_warning(string text, string pitch, string question)
    {
        var finding = Assert.Single(Checked.Run(text), f => f.Code == "spelling-signature-slip");
        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains(pitch, finding.Message);
        Assert.Contains(question, finding.Message);
    }
}
