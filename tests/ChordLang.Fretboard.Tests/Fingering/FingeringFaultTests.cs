// Planted faults: each is found, named, and blamed on the right strings; right fingerings are left alone.
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;

namespace ChordLang.Fretboard.Tests.Fingering;

public class FingeringFaultTests
{
    [Theory]
    [InlineData("x-3-2-0-1-0", "x-2-3-x-1-x", FingeringFaultKind.CrossedFingers, "5 4")]
    [InlineData("x-3-2-0-1-0", "x-3-2-1-1-x", FingeringFaultKind.FingerOnOpenOrMutedString, "3")]
    [InlineData("x-3-2-0-1-0", "4-3-2-x-1-x", FingeringFaultKind.FingerOnOpenOrMutedString, "6")]
    [InlineData("x-3-2-0-1-0", "x-3-x-x-1-x", FingeringFaultKind.FrettedWithoutFinger, "4")]
    [InlineData("x-5-7-6-x-x", "x-1-3-3-x-x", FingeringFaultKind.OneFingerOnTwoFrets, "4 3")]
    [InlineData("5-7-5-4-x-x", "2-4-2-1-x-x", null, "")]
    [InlineData("5-4-5-5-x-x", "2-1-2-3-x-x", FingeringFaultKind.BarreOverLowerNote, "5")]
    [InlineData("3-0-x-0-3-3", "1-x-x-x-1-1", FingeringFaultKind.BarreOverLowerNote, "5 3")]
    [InlineData("x-x-x-2-3-x", "x-x-x-T-1-x", FingeringFaultKind.ThumbOutOfReach, "3")]
    [InlineData("x-1-x-5-x-x", "x-1-x-2-x-x", FingeringFaultKind.StretchTooFar, "5 3")]
    [InlineData("1-3-3-2-1-1", "1-3-4-2-1-1", null, "")]
    [InlineData("1-x-3-2-1-1", "T-x-3-2-1-1", null, "")]
    [InlineData("1-x-1-1-1-x", "1-x-1-1-1-x", null, "")]
    [InlineData("x-0-2-2-2-0", "x-x-1-1-1-x", null, "")]
    public void A_planted_fault_is_named_with_its_strings(string grip, string fingers, FingeringFaultKind? kind, string strings)
    {
        var faults = FingeringFault.Find(Neck.Standard, Hand.Medium, Grips.Voicing(grip), Grips.Fingers(fingers));
        if (kind is null)
            Assert.Empty(faults);
        else
            Assert.Equal($"{kind} {strings}", string.Join("; ", faults.Select(f => $"{f.Kind} {string.Join(' ', f.Strings)}")));
    }

    [Fact]
    public void A_single_finger_mark_does_not_claim_the_whole_grip() =>
        Assert.Empty(FingeringFault.Find(
            Neck.Standard, Hand.Medium, Grips.Voicing("x-3-2-0-1-0"), Grips.Fingers("x-3-x-x-x-x"), complete: false));

    [Fact]
    public void Messages_are_plain_sentences()
    {
        Assert.Equal(
            "The first finger lies across strings 6 to 1 at fret 3 and would stop strings 5 and 3, which must sound lower.",
            Message("3-0-x-0-3-3", "1-x-x-x-1-1"));
        Assert.Equal(
            "The third finger on string 4, fret 2, lies behind the second finger on string 5, fret 3: the fingers are crossed. Swap them.",
            Message("x-3-2-0-1-0", "x-2-3-x-1-x"));
        Assert.Equal(
            "The first and second finger lie 126 mm apart on strings 5 and 3; this hand reaches 90 mm between them.", Message("x-1-x-5-x-x", "x-1-x-2-x-x"));
    }

    private static string Message(string grip, string fingers) =>
        Assert.Single(FingeringFault.Find(Neck.Standard, Hand.Medium, Grips.Voicing(grip), Grips.Fingers(fingers))).Message;
}
