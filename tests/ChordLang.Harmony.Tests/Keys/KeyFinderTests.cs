// Keys of planted charts, all our own.
using ChordLang.Harmony.Charts;
using ChordLang.Harmony.Keys;
using ChordLang.Harmony.Tests.Charts;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Tests.Keys;

public class KeyFinderTests
{
    private const string Major = "Cmaj7 | Am7 | Dm7 | G7 | Em7 | A7 | Dm7 G7 | C6";
    private const string Minor = "Am6 | Bm7b5 E7 | Am6 | Dm7 | Bm7b5 | E7 | Am7 Fmaj7 | Bm7b5 E7 | Am6";

    // Common practice: a cadence names its key.
    [Theory]
    [InlineData(Major, "C major")]
    [InlineData(Minor, "A minor")]
    [InlineData("Fm7 | Bb7 | Ebmaj7 | Abmaj7 | Fm7 | Bb7 | Ebmaj7 | Ebmaj7", "Eb major")]
    [InlineData("G7 | C7 | G7 | G7 | C7 | C7 | G7 | E7 | Am7 | D7 | G7 | D7", "G major")]
    public void A_chart_in_one_key_is_in_that_key(string chart, string key) =>
        Assert.Equal(key, KeyFinder.Find(ChartText.Read(chart), []).Home!.ToString());

    // A chart that never leaves its chord takes no step, and is in the key of that chord.
    [Theory]
    [InlineData("C | C | C | C", "C major")]
    [InlineData("Am | Am | Am | Am", "A minor")]
    public void One_chord_has_a_key(string chart, string key)
    {
        var plan = KeyFinder.Find(ChartText.Read(chart), []);
        Assert.Equal(key, plan.Home!.ToString());
        Assert.All(plan.Spans, s => Assert.InRange(s.Confidence, 0, 1));
    }

    [Fact]
    public void A_bridge_in_another_key_is_a_span_of_its_own()
    {
        const string A = "Cmaj7 | Am7 | Dm7 | G7 | Em7 Am7 | Dm7 G7 | C6 | C6";
        var chart = ChartText.Read($"{A} | {A} | Ebm7 | Ab7 | Dbmaj7 | Bbm7 | Ebm7 | Ab7 | Dbmaj7 | Dbmaj7 | {A}");
        var plan = KeyFinder.Find(chart, []);
        Assert.Equal(["C major", "Db major", "C major"], plan.Spans.Select(s => s.Key.ToString()));
        Assert.Equal(17, plan.Spans[1].FromBar);
        Assert.InRange(plan.Spans[2].FromBar, 24, 25);
        Assert.Equal("C major", plan.Home!.ToString());
    }

    // Property: a chart moved by any interval is in the moved key, with the same confidence.
    [Theory]
    [InlineData(Major)]
    [InlineData(Minor)]
    public void Transposing_a_chart_transposes_its_keys(string text)
    {
        var chart = ChartText.Read(text);
        var plan = KeyFinder.Find(chart, []);
        for (var by = 1; by < 12; by++)
        {
            var moved = KeyFinder.Find(Move(chart, by), []);
            Assert.Equal((plan.Home!.Tonic!.Value.PitchClass + by) % 12, moved.Home!.Tonic!.Value.PitchClass);
            Assert.Equal(plan.Home.Mode, moved.Home.Mode);
            Assert.Equal(plan.Spans.Select(s => (s.FromBar, s.Confidence)), moved.Spans.Select(s => (s.FromBar, s.Confidence)));
        }
    }

    [Fact]
    public void A_given_key_holds_as_given()
    {
        var given = Key.Of(new PitchName(Letter.G, 0), Mode.Dorian);
        var plan = KeyFinder.Find(ChartText.Read(Major), [new(1, given, true, 1)]);
        Assert.Equal(new KeySpan(1, given, true, 1), Assert.Single(plan.Spans));
        Assert.Equal(given, plan.Home);
        Assert.Equal(given, plan.At(5));
    }

    [Fact]
    public void A_signature_without_tonic_leaves_two_keys_to_choose_from()
    {
        var chart = ChartText.Read("Dm7 | G7 | Dm7 | G7");
        Assert.Equal(1, KeyFinder.Find(chart, [new(1, Key.Signature(1), true, 1)]).Home!.Fifths);
    }

    [Fact]
    public void No_chords_no_key()
    {
        var plan = KeyFinder.Find(new Chart([], 4), []);
        Assert.Null(plan.Home);
        Assert.Empty(plan.Spans);
        Assert.Null(plan.At(1));
    }

    // One chord or two belong to many keys (common practice), so none of them is sure.
    [Theory]
    [InlineData("Cmaj7", 0.5)]
    [InlineData("Cmaj7 | G7", 0.75)]
    public void Few_chords_tell_no_key_for_sure(string chart, double most) =>
        Assert.All(KeyFinder.Find(ChartText.Read(chart), []).Spans, s => Assert.InRange(s.Confidence, 0, most));

    [Fact]
    public void Confidence_lies_between_0_and_1() =>
        Assert.All(new[] { Major, Minor, "C", "Bb7 | E7" },
            t => Assert.All(KeyFinder.Find(ChartText.Read(t), []).Spans, s => Assert.InRange(s.Confidence, 0, 1)));

    private static Chart Move(Chart chart, int by) => chart with
    {
        Chords = [.. chart.Chords.Select(c => c with { Chord = c.Chord with { Root = PitchName.Nearest(c.Chord.Root.PitchClass + by, 0) } })],
    };
}
