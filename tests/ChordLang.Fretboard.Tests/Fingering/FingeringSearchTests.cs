// Fingers of voicings: what every method book shows, and that 'none' is a proof.
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
using CsCheck;

namespace ChordLang.Fretboard.Tests.Fingering;

public class FingeringSearchTests
{
    // Common practice: open-position chords, full barre, half-barre, drop-2 grips.
    [Theory]
    [InlineData("x-3-2-0-1-0", "x-3-2-x-1-x")]
    [InlineData("0-2-2-1-0-0", "x-2-3-1-x-x")]
    [InlineData("x-0-2-2-1-0", "x-x-2-3-1-x")]
    [InlineData("3-2-0-0-0-3", "2-1-x-x-x-3")]
    [InlineData("x-x-0-2-3-2", "x-x-x-1-3-2")]
    [InlineData("1-3-3-2-1-1", "1-3-4-2-1-1")]
    [InlineData("x-5-7-5-6-5", "x-1-3-1-2-1")]
    [InlineData("x-3-5-4-5-x", "x-1-3-2-4-x")]
    [InlineData("5-x-5-5-5-x", "1-x-1-1-1-x")]
    [InlineData("x-1-3-1-2-x", "x-1-3-1-2-x")]
    [InlineData("x-0-2-2-2-0", "x-x-1-2-3-x")]
    [InlineData("0-0-0-0-0-0", "x-x-x-x-x-x")]
    [InlineData("x-x-x-x-x-x", "x-x-x-x-x-x")]
    public void Known_grips_get_known_fingers(string grip, string fingers) =>
        Assert.Equal(fingers, FingeringSearch.Best(Neck.Standard, Hand.Medium, Grips.Voicing(grip)).Best?.ToString());

    [Fact]
    public void Given_fingers_are_kept()
    {
        var grip = Grips.Voicing("1-3-3-2-1-1");
        Assert.Equal("1-4-4-3-1-1", Best(grip, "x-x-x-3-x-x").Best?.ToString());
        Assert.Equal(Finger.Thumb, Best(Grips.Voicing("2-0-0-2-3-2"), "T-x-x-x-x-x").Best?[6]);
        Assert.Equal(FingeringObstacle.GivenFingers, Best(grip, "4-x-x-x-x-x").None?.Obstacle);
    }

    // Nobody's thumb lies two frets ahead of the first finger (common practice); beside it, it comes over where four fingers are too few.
    [Fact]
    public void The_thumb_is_never_ahead_of_the_hand()
    {
        Assert.Null(FingeringSearch.Best(Neck.Standard, Hand.Medium, Grips.Voicing("x-5-3-5-x-8")).Best);
        Assert.Equal("T-x-x-3-2-1", FingeringSearch.Best(Neck.Standard, Hand.Medium, Grips.Voicing("3-x-x-4-3-2"), Grips.Fingers("T-x-x-x-x-x")).Best?.ToString());
    }

    [Fact]
    public void Too_wide_a_grip_names_the_pair_and_its_millimetres()
    {
        var none = FingeringSearch.Best(Neck.Standard, Hand.Medium, Grips.Voicing("x-1-8-x-x-x")).None;
        Assert.Equal(FingeringObstacle.TooFar, none?.Obstacle);
        Assert.Equal(new FingerPair(Finger.First, Finger.Little), none!.Limiting!.Pair);
        Assert.Equal(Neck.Standard.Distance(1, 8), none.Limiting.Millimetres, 9);
        Assert.Equal([5, 4], none.Limiting.Strings.ToArray());
        Assert.Equal(
            "No fingering reaches: even in the nearest one the first and little finger lie 203 mm apart, and this hand reaches 150 mm there.", none.Message);
    }

    [Fact]
    public void Five_fingers_are_too_many()
    {
        var none = FingeringSearch.Best(Neck.Standard, Hand.Large, Grips.Voicing("8-10-8-7-8-10")).None;
        Assert.Equal((FingeringObstacle.TooManyFingers, 5), (none!.Obstacle, none.FingersNeeded));
        Assert.Equal("This grip takes 5 fingers even where one finger lies across several strings; a hand has 4.", none.Message);
    }

    [Fact]
    public void A_smaller_hand_reaches_less()
    {
        var grip = Grips.Voicing("x-2-x-x-x-7"); // 145 mm
        Assert.NotNull(FingeringSearch.Best(Neck.Standard, Hand.Medium, grip).Best);
        Assert.Null(FingeringSearch.Best(Neck.Standard, Hand.Small, grip).Best);
        Assert.NotNull(FingeringSearch.Best(Neck.Standard with { Capo = 7 }, Hand.Small, grip).Best);
    }

    [Fact]
    public void Any_voicing_gets_a_fingering_without_fault_or_a_proof() =>
        GripGen.Sample(grip =>
        {
            var answer = FingeringSearch.Best(Neck.Standard, Hand.Medium, grip);
            return answer.Best is { } fingers
                ? answer.None is null && FingeringFault.Find(Neck.Standard, Hand.Medium, grip, fingers).IsEmpty
                : answer.None is { } none && (none.FingersNeeded > Grip.Fingers || none.Limiting is { Impossible: true });
        }, iter: 3000);

    // The oracle tries every finger on every string and asks the fault finder, which knows nothing of the search.
    [Fact]
    public void None_means_that_no_finger_vector_at_all_is_without_fault() =>
        GripGen.Where(g => g.Slots.Count(s => s > 0) <= 5).Sample(grip =>
        {
            var found = FingeringSearch.Best(Neck.Standard, Hand.Medium, grip).Best;
            return found is null ? !SomeVectorIsFaultless(grip) : found.Slots.Contains(Finger.Thumb) || SomeVectorIsFaultless(grip);
        }, iter: 150);

    private static FingeringAnswer Best(Voicing grip, string given) =>
        FingeringSearch.Best(Neck.Standard, Hand.Medium, grip, Grips.Fingers(given));

    private static bool SomeVectorIsFaultless(Voicing grip)
    {
        var fretted = Enumerable.Range(0, grip.Strings).Where(i => grip.Slots[i] > 0).ToArray();
        for (var code = 0; code < 1 << (2 * fretted.Length); code++)
        {
            var slots = new Finger?[grip.Strings];
            for (var k = 0; k < fretted.Length; k++)
                slots[fretted[k]] = (Finger)(1 + ((code >> (2 * k)) & 3));
            if (FingeringFault.Find(Neck.Standard, Hand.Medium, grip, new([.. slots])).IsEmpty)
                return true;
        }
        return false;
    }

    // Frets near each other, some open, some not played, and now and then one far off.
    private static readonly Gen<Voicing> GripGen =
        from strings in Gen.Int[4, 7]
        from at in Gen.Int[1, 14]
        from slots in Gen.Frequency((2, Gen.Const((int?)null)), (2, Gen.Const((int?)0)), (6, Gen.Int[0, 4].Select(d => (int?)(at + d))),
            (1, Gen.Int[1, 20].Select(f => (int?)f))).Array[strings]
        select new Voicing([.. slots]);
}
