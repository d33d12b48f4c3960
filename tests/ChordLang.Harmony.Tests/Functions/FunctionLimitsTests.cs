// What no musician would call a chord, whatever its neighbours; all charts are our own, what is expected is common practice.
using System.Collections.Immutable;
using ChordLang.Harmony.Functions;
using ChordLang.Harmony.Keys;
using ChordLang.Harmony.Tests.Charts;
using ChordLang.Theory.Keys;

namespace ChordLang.Harmony.Tests.Functions;

public class FunctionLimitsTests
{
    [Theory]
    [InlineData("C | F | G | Am | G | C", "C major", 2, HarmonicFunction.Dominant)]      // the triad on the fifth degree is a dominant too
    [InlineData("C | F | G | Am | G | C", "C major", 4, HarmonicFunction.Dominant)]
    [InlineData("C | G | F | C", "C major", 1, HarmonicFunction.Dominant)]
    [InlineData("C | G | Am | F | C | G | C", "C major", 5, HarmonicFunction.Dominant)]
    [InlineData("G | D/F# | Em | C | D | G", "G major", 1, HarmonicFunction.Dominant)]
    [InlineData("Gm | C/E | F | Bb", "Bb major", 1, HarmonicFunction.Dominant)]          // and so is that of the fifth degree's own key
    [InlineData("Eb | Ab6 | Bb7 | Cbmaj7", "Eb major", 2, HarmonicFunction.Dominant)]
    [InlineData("C | F | G | Am | G | C", "C major", 1, HarmonicFunction.Subdominant)]   // four, five, one
    [InlineData("Em9 | Am9 | D13 | Gmaj7", "E minor", 0, HarmonicFunction.Tonic)]        // a chart begins at home, even where a fifth below follows
    [InlineData("Fm7 | Bb7 | Ebmaj7 | Ab7 | Eb6", "Eb major", 2, HarmonicFunction.Tonic)]
    [InlineData("Am | Am(maj7) | Am7 | Am6 | Dm | E7 | Am", "A minor", 3, HarmonicFunction.Tonic)]
    public void A_chord_has_the_function_that_its_degree_demands(string chart, string key, int index, HarmonicFunction function) =>
        Assert.Equal(function, Read(chart, key)[index].Function);

    [Theory]
    [InlineData("Am | F | E7 | Am", "A minor", 1, HarmonicFunction.DominantSubstitute)]  // no tritone, no substitute
    [InlineData("Am | E7 | Fmaj7 | E7 | Am", "A minor", 2, HarmonicFunction.DominantSubstitute)]
    [InlineData("Am | Bb/D | E7 | Am", "A minor", 1, HarmonicFunction.Tonic)]            // the Neapolitan sixth
    [InlineData("C/G | G7 | Am | G | C", "C major", 2, HarmonicFunction.Backdoor)]
    public void A_chord_has_not_the_function_that_its_tones_forbid(string chart, string key, int index, HarmonicFunction function) =>
        Assert.NotEqual(function, Read(chart, key)[index].Function);

    // The tone that gives an applied dominant away: its third, or where the key has that, its seventh; a suspended one has neither third nor leading tone.
    [Theory]
    [InlineData("C | D7 | G7 | C", "C major", 1, "D7 is the dominant of G7: it raises a tone to the leading tone of G7.")]
    [InlineData("C | C7 | F | C", "C major", 1, "C7 is the dominant of F: its lowered seventh leads down to the third of F.")]
    [InlineData("Ebmaj7 | Eb9sus | Ab6 | Eb", "Eb major", 1, "Eb9sus is the dominant of Ab6, its third held back.")]
    [InlineData("C | C7 | F | C", "C major", 2, "F is at rest for the moment: its own dominant, C7, has led to it.")]
    [InlineData("Am | F | E7 | Am", "A minor", 1, "F stands for the tonic of A minor, with which it shares two tones.")]
    [InlineData("C | F | C | G7 | C", "C major", 1, "F colours the chord around it and goes back.")]
    [InlineData("Cm7 | Fm7 | Dm7b5 | G7", "C minor", 3, "G7 pulls back to the beginning, where Cm7 stands a fifth below.")]
    public void A_reason_names_what_is_heard(string chart, string key, int index, string sentence) => Assert.Equal(sentence, Read(chart, key)[index].Reason);

    [Theory]
    [InlineData("Gm | F#dim7 | Gm", "G minor", 1, "passing-diminished", false)]          // it comes back: nothing is passed
    [InlineData("Dm7 | D#dim7 | Em7", "C major", 1, "passing-diminished", true)]
    [InlineData("G7 | Dm7 | F | G7", "G mixolydian", 1, "borrowed", false)]              // the mode's own chords
    [InlineData("G7 | Dm7 | F | G7", "G mixolydian", 2, "borrowed", false)]
    [InlineData("G7 | Dm7 | F7 | G7", "G major", 2, "backdoor-dominant", true)]
    public void A_role_is_played_or_not(string chart, string key, int index, string role, bool plays) => Assert.Equal(plays, Read(chart, key)[index].Roles.Contains(role));

    // The dominant of the key that begins comes home by the front door.
    [Fact]
    public void No_back_door_leads_into_another_key()
    {
        var chart = ChartText.Read("Cmaj7 | Dm7 | Cmaj7 | Bb7 | Ebmaj7 | Fm7 | Ebmaj7");
        var plan = KeyFinder.Find(chart, [new(1, Named("C major"), true, 1), new(5, Named("Eb major"), true, 1)]);
        Assert.DoesNotContain("backdoor-dominant", FunctionReader.Read(chart, plan)[3].Roles);
    }

    // Dm7/G and F/G are both G9sus4; over a bass that lies already the minor chord moves on its own.
    [Theory]
    [InlineData("Cmaj7 | Dm7/G | Cmaj7 | F/G | Cmaj7", 1, "V7sus")]
    [InlineData("Cmaj7 | Dm7/G | Cmaj7 | F/G | Cmaj7", 3, "V7sus")]
    [InlineData("C/G | Dm7/G | G7 | C", 1, "ii7")]
    public void A_minor_seventh_over_its_fourth_is_a_suspended_dominant(string chart, int index, string numeral) => Assert.Equal(numeral, Read(chart, "C major")[index].Numeral);

    // A triad on the fifth degree that slides down can be one thing only.
    [Fact]
    public void Where_one_function_is_left_it_is_sure() => Assert.Equal((HarmonicFunction.Dominant, 1.0), Read("C | G | Gb | F | C", "C major")[1] is var g ? (g.Function, g.Confidence) : default);

    // Where two functions are as likely, both are said.
    [Fact]
    public void Doubt_names_both_readings()
    {
        var doubtful = Read("Cmaj7 | Abmaj7 | Ebmaj7 | Bmaj7 | C6 | F#7 | Bb7 | E7 | Am | Fm7 | Abm | C", "C major").Where(r => r.Reason.Contains("two ways", StringComparison.Ordinal)).ToArray();
        Assert.NotEmpty(doubtful);
        Assert.All(doubtful, r => Assert.Matches("^\\S+ may be read in two ways in C major: as .+ or as .+\\.$", r.Reason));
    }

    private static Key Named(string key) => Key.TryParse(key, out var found) ? found : throw new FormatException(key);

    private static ImmutableArray<ChordFunction> Read(string text, string key) => ChartText.Functions(text, Named(key));
}
