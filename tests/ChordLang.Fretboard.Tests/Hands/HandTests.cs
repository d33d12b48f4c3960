// The hand's figures: where they come from, and that a declared reach means what it says.
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;

namespace ChordLang.Fretboard.Tests.Hands;

public class HandTests
{
    // Chatzioglou et al. 2024, 51 young adults: mean finger lengths and largest spread angles.
    [Theory]
    [InlineData("length of the first finger", 63.9)]
    [InlineData("length of the second finger", 70.7)]
    [InlineData("length of the third finger", 65.5)]
    [InlineData("length of the little finger", 53.3)]
    [InlineData("largest angle between first and second finger", 17.2)]
    [InlineData("largest angle between second and third finger", 14.3)]
    [InlineData("largest angle between third and little finger", 32.1)]
    public void Published_figures_are_those_of_the_study(string name, double value)
    {
        var figure = Assert.Single(HandFigure.All, f => f.Name == name);
        Assert.Equal((value, FigureOrigin.Published), (figure.Value, figure.Origin));
        Assert.Contains("Chatzioglou et al. 2024", figure.Source);
    }

    [Fact]
    public void Every_reach_says_that_it_is_ours_and_every_figure_has_a_source()
    {
        Assert.All(HandFigure.All, f => Assert.NotEmpty(f.Source));
        var reaches = HandFigure.All.Where(f => f.Name.Contains("reach,")).ToList();
        Assert.Equal(2 * Hand.Medium.Reach.Length, reaches.Count);
        Assert.All(reaches, f => Assert.Equal(FigureOrigin.Ours, f.Origin));
    }

    [Fact]
    public void A_wider_pair_reaches_further_and_no_limit_is_below_comfort()
    {
        foreach (var hand in new[] { Hand.Small, Hand.Medium, Hand.Large })
        {
            Assert.All(hand.Reach, r => Assert.True(r.Limit > r.Comfortable));
            foreach (var (inner, outer) in new[] { ((1, 2), (1, 3)), ((1, 3), (1, 4)), ((2, 3), (2, 4)), ((3, 4), (2, 4)), ((2, 4), (1, 4)) })
                Assert.True(hand.Limit((Finger)inner.Item1, (Finger)inner.Item2) < hand.Limit((Finger)outer.Item1, (Finger)outer.Item2));
        }
    }

    [Fact]
    public void A_declared_reach_is_comfortable_on_the_neck_it_was_declared_for()
    {
        var shortNeck = Neck.Standard with { ScaleLength = 628 };
        var hand = Hand.Medium.Calibrated(shortNeck, 5, 10);
        Assert.Equal(shortNeck.Distance(5, 10), hand.Comfortable(Finger.First, Finger.Little), 9);
        var ratio = hand.Comfortable(Finger.First, Finger.Little) / Hand.Medium.Comfortable(Finger.First, Finger.Little);
        Assert.All(hand.Reach, r => Assert.Equal(Hand.Medium.Limit(r.Pair.Lower, r.Pair.Upper) * ratio, r.Limit, 9));
        Assert.Equal(Hand.Medium, Hand.Medium.Calibrated(shortNeck, 5, 5));
        Assert.Equal(Hand.Medium, Hand.Medium.Calibrated(shortNeck, 5, 90));
    }

    // Fret 1 at 36.353 mm and fret 3 at 103.051 mm by the luthiers' rule, 647.7 mm scale.
    [Fact]
    public void The_span_is_measured_between_outer_frets()
    {
        Assert.Equal(103.051 - 36.353, Grips.Voicing("x-3-2-0-1-0").Span(Neck.Standard), 0.005);
        Assert.Equal(0, Grips.Voicing("x-0-2-2-2-0").Span(Neck.Standard));
    }

    [Theory]
    [InlineData("x-x-x-x-x-x", 0)]
    [InlineData("0-0-0-0-0-0", 0)]
    [InlineData("1-3-3-2-1-1", 3)] // the full barre of every method book: 1, a half-barre of the third finger, 2
    [InlineData("x-3-5-5-5-3", 2)]
    [InlineData("1-0-1-x-x-x", 2)] // an open string between: no barre
    [InlineData("1-x-1-x-x-x", 1)]
    [InlineData("8-10-8-7-8-10", 5)]
    [InlineData("1-2-3-4-5-6", 6)]
    public void Fingers_needed_with_barres(string text, int fingers) => Assert.Equal(fingers, Grips.Voicing(text).FingersNeeded());

    [Fact]
    public void Pairs_are_said_in_words()
    {
        Assert.Equal("first and little finger", new FingerPair(Finger.Little, Finger.First).ToString());
        Assert.Equal("thumb and third finger", new FingerPair(Finger.Third, Finger.Thumb).ToString());
    }
}
