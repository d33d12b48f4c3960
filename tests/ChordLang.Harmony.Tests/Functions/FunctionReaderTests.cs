// Functions and roles in planted charts, all our own; what is expected is common practice.
using System.Collections.Immutable;
using ChordLang.Harmony.Functions;
using ChordLang.Harmony.Keys;
using ChordLang.Harmony.Tests.Charts;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;

namespace ChordLang.Harmony.Tests.Functions;

public class FunctionReaderTests
{
    [Theory]
    [InlineData("C | D7 | G7 | C", 1, "applied-dominant", 2, "V7/V")]
    [InlineData("C | A7 | Dm7 G7 | C", 1, "applied-dominant", 2, "V7/ii")]
    [InlineData("C | F#dim7 | G7 | C", 1, "applied-diminished", 2, "vii°7/V")]
    [InlineData("C | Dm7 | G7 | C", 1, "related-two", 2, "ii7")]
    [InlineData("C | Dm7 | G7 | C", 2, "two-five-one", 3, "V7")]
    [InlineData("C | Dm7 | Db7 | Cmaj7", 2, "tritone-substitute", 3, "bII7")]
    [InlineData("Cmaj7 | Fm7 | Bb7 | Cmaj7", 2, "backdoor-dominant", 3, "bVII7")]
    [InlineData("C | Em7 | Ebdim7 | Dm7 | G7 | C", 2, "passing-diminished", 3, "biii°7")]
    [InlineData("C | Cdim7 | C | G7 | C", 1, "common-tone-diminished", 2, "i°7")]
    [InlineData("C | G7 | Am7 | F", 1, "deceptive", 2, "V7")]
    [InlineData("C | G7sus4 | G7 | C", 1, "sus-resolution", 2, "V7sus")]
    [InlineData("C | Abmaj7 | Dm7 | G7", 1, "borrowed", null, "bVImaj7")]
    [InlineData("C | E7 | A7 | D7 | G7 | C", 2, "dominant-chain", null, "V7/ii")]
    [InlineData("C | Am | Am(maj7) | Am7 | Am6 | G7 | C", 2, "line-cliche", null, "vimaj7")]
    [InlineData("C | Am | Am(maj7) | Am7 | Fmaj7 | G7 | C", 3, "line-cliche", null, "vi7")]
    [InlineData("C | Caug | C6 | Caug | F", 2, "line-cliche", null, "I6")]
    [InlineData("Dm | Dm/C# | Dm/C | Dm/B | Gm", 1, "line-cliche", null, "ii")]
    [InlineData("C Am7 | Dm7 G7 | C", 1, "turnaround", 4, "vi7")]
    [InlineData("C Eb7 | Ab7 Db7 | C", 1, "turnaround", null, "bIII7")]
    [InlineData("C C#dim7 | Dm7 G7 | C", 1, "turnaround", null, "vii°7/ii")]
    [InlineData("C | Bdim7 | C", 1, "leading-tone-diminished", 2, "vii°7")]
    [InlineData("Cmaj7 | Fmaj7 Bb9 | Em7 A7 | Dm7 | G7 | C", 2, "backdoor-dominant", 3, "bVII7")]
    [InlineData("Cmaj7 | Em7b5 A7b9 | Dm7 | G7 | C", 1, "related-two", 2, "iiø7/ii")]
    [InlineData("C7 | F7 | C7 | Gm7 C7 | F7 | F7 | C7", 4, "applied-dominant", 5, "V7/IV")]
    [InlineData("C | E7 | F | G7 | C", 1, "deceptive", 2, "V7/vi")]
    [InlineData("C | D9sus4 | D7 | G7 | C", 1, "sus-resolution", 2, "II7sus")]
    [InlineData("C/G | Dm7/G | G7 | C", 1, "pedal", null, "ii7")]
    [InlineData("C | Ebmaj7 | Dmaj7 | Dbmaj7 | C", 2, "planing", null, "IImaj7")]
    public void A_chord_plays_its_role(string chart, int index, string role, int? target, string numeral)
    {
        var reading = Read(chart)[index];
        Assert.Contains(role, reading.Roles);
        Assert.Equal(numeral, reading.Numeral);
        if (target is not null)
            Assert.Equal(target, reading.Target);
    }

    [Theory]
    [InlineData("C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | G7 | F7 | C7 | G7", 0)]
    [InlineData("C | F | G | C", 1)]
    [InlineData("C | Bb | F | C", 1)]
    [InlineData("C | F7 | Bb | C", 1)]
    public void What_belongs_to_its_key_is_not_applied(string chart, int index) =>
        Assert.DoesNotContain(Read(chart)[index].Roles, r => r.StartsWith("applied", StringComparison.Ordinal));

    // Between the tonic and the third the second degree leads nowhere. Common practice.
    [Theory]
    [InlineData("Cmaj7 | Dm7 | Em7 | Dm7 | Cmaj7 | Dm7 | G7 | Cmaj7", 1, HarmonicFunction.Colour)]
    [InlineData("Cmaj7 | Dm7 | Em7 | Dm7 | Cmaj7 | Dm7 | G7 | Cmaj7", 5, HarmonicFunction.Dominant)]
    public void A_second_degree_that_only_fills_a_step_is_no_dominant(string chart, int index, HarmonicFunction function)
    {
        var reading = Read(chart)[index];
        Assert.Equal(function, reading.Function);
        Assert.Equal(function == HarmonicFunction.Colour, reading.Reason.Contains("fills the step between Cmaj7 and Em7", StringComparison.Ordinal));
    }

    // A chart that writes its basses: what belongs to one passing key is told under one target. Common practice.
    [Fact]
    public void A_passage_in_a_passing_key_has_one_target()
    {
        var readings = Read("C | F/A | C/G | G7/B | C | Em7b5/G | A7/G | Dm/F | A7/E | Dm | Dm7/F | G7 | C");
        Assert.Equal("iiø7/ii", readings[5].Numeral);
        Assert.Equal("V7/ii", readings[6].Numeral);
        Assert.Equal("V7/ii", readings[8].Numeral);
        Assert.Equal("I", readings[12].Numeral);
    }

    [Fact]
    public void A_cadence_has_its_functions()
    {
        var functions = Read("Dm7 | G7 | Cmaj7 | Cmaj7 | Dm7 | Db7 | Cmaj7 | Cmaj7").Select(r => r.Function).ToArray();
        Assert.Equal(HarmonicFunction.Dominant, functions[1]);
        Assert.Equal(HarmonicFunction.Tonic, functions[2]);
        Assert.Equal(HarmonicFunction.DominantSubstitute, functions[5]);
        Assert.Equal(HarmonicFunction.Tonic, functions[7]);
    }

    // Property: a reason is one sentence of at most 25 words, and targets and confidences keep their ranges.
    [Fact]
    public void Reasons_are_short_sentences()
    {
        string[] kinds = ["", "m", "7", "maj7", "m7", "m7b5", "dim7", "aug", "7sus4", "m6", "5"];
        for (var n = 0; n < 300; n++)
        {
            var chart = string.Join(" | ", Enumerable.Range(0, 12).Select(i => "C Db D Eb E F F# G Ab A Bb B".Split(' ')[(n * 7 + i * i * 5 + i * n) % 12] + kinds[(n + i * (n % 5 + 1)) % kinds.Length]));
            foreach (var (reading, i) in Read(chart).Select((r, i) => (r, i)))
            {
                Assert.InRange(reading.Reason.Split(' ').Length, 3, 25);
                Assert.EndsWith(".", reading.Reason, StringComparison.Ordinal);
                Assert.Equal(reading.Roles, reading.Reasons.Select(r => r.Name));
                Assert.All(reading.Reasons, r => Assert.InRange(r.Sentence.Split(' ').Length, 3, 25));
                Assert.All(reading.Roles, r => Assert.Contains(r, ChordRoles.Names));
                Assert.InRange(reading.Confidence, 0, 1);
                Assert.True(reading.Target is null || reading.Target is >= 0 and < 12 && reading.Target != i);
                Assert.InRange(reading.Degree, 0, 11);
            }
        }
    }

    [Fact]
    public void An_empty_chart_has_no_functions() =>
        Assert.Empty(FunctionReader.Read(new([], 4), KeyFinder.Find(new([], 4), [])));

    // The line that walks is told by its notes (common practice: the root of a minor chord down to its sixth, the fifth of a major one up).
    [Theory]
    [InlineData("C | Am | Am(maj7) | Am7 | Am6 | G7 | C", 3, "Am7 stays while one voice walks A G# G F#: a line cliché.")]
    [InlineData("C | Caug | C6 | C7 | F", 1, "Caug stays while one voice walks G G# A Bb: a line cliché.")]
    [InlineData("C | Dm | Dm/C# | Dm/C | Dm/B | Gm", 2, "Dm/C# stays while the bass walks D C# C B: a line cliché.")]
    public void The_moving_line_is_named(string chart, int index, string sentence) =>
        Assert.Contains(sentence, Read(chart)[index].Reasons.Select(r => r.Sentence));

    // The dominant of the key is no substitute where a half-diminished chord follows a semitone lower, a blues has no chain of dominants in its
    // tonic, and four slow chords inside a piece are no turnaround (common practice).
    [Theory]
    [InlineData("C | Fm7 | G7 | F#m7b5 | B7 | Em", 2, "tritone-substitute")]
    [InlineData("C7 | F7 | C7 | C7 | F7 | F7 | C7 | A7 | Dm7 | G7 | C7 | F7 C7", 6, "turnaround")]
    [InlineData("C7 | F7 | C7 | C7 | F7 | F7 | C7 | A7 | Dm7 | G7 | C7 F7 | C7", 10, "dominant-chain")]
    [InlineData("C7 | F7 | F#dim7 | C7 | G7 | C7", 2, "applied-diminished")]
    public void A_likeness_is_no_role(string chart, int index, string role) => Assert.DoesNotContain(role, Read(chart)[index].Roles);

    // A substitute is named by the step it falls from, whatever it is spelled as; a degree outside the key has a dominant where it follows at once;
    // a triad over the bass a step below it is that bass's suspended dominant; the flat third's diminished chord passes down to the second degree
    // whatever goes before; in minor degrees are counted as in the numerals of its own chords (common practice).
    [Theory]
    [InlineData("Eb", Mode.Major, "Ebmaj7 | Fm7 E7 | Ebmaj7", 2, "tritone-substitute", "bII7")]
    [InlineData("D", Mode.Minor, "Dm | Bb7 | A7 | Dm", 1, "tritone-substitute", "bVI7")]
    [InlineData("D", Mode.Minor, "Dm7 | G#7 | Gm7 | Dm", 1, "tritone-substitute", "bV7")]
    [InlineData("Eb", Mode.Major, "Ebmaj7 Gb7 | Cbmaj7 E7 | Ebmaj7", 1, "applied-dominant", "V7/bVI")]
    [InlineData("Eb", Mode.Major, "Fm7 Bb7 | Ab/Bb Bb13 | Ebmaj7", 2, "sus-resolution", "V7sus")]
    [InlineData("D", Mode.Minor, "Dm | C7 | Fmaj7 | Fdim7 | Em7b5 | A7 | Dm", 3, "passing-diminished", "biii°7")]
    [InlineData("D", Mode.Minor, "Dm | Gm7 | C7 | Fmaj7 | Dm", 2, "applied-dominant", "V7/bIII")]
    [InlineData("C", Mode.Minor, "Cm | Cm Cm/B | Cm/Bb Am7b5 | Abmaj7 G7 | Cm", 2, "line-cliche", "i")]
    [InlineData("C", Mode.Minor, "Cm | Dm7b5 G7 | Cm | D7 Db7 | Cm", 4, "applied-dominant", "V7/V")]
    [InlineData("D", Mode.Minor, "Em7b5 | A7alt | Dm", 1, "two-five-one", "V7alt")]
    [InlineData("C", Mode.Minor, "Cm7 | A7 | D7 | G7 | Cm7", 1, "applied-dominant", "V7/II")]
    public void A_chord_is_named_as_players_name_it(string tonic, Mode mode, string chart, int index, string role, string numeral)
    {
        var reading = Read(chart, tonic, mode)[index];
        Assert.Contains(role, reading.Roles);
        Assert.Equal(numeral, reading.Numeral);
    }

    // Where the key changes, chords are held against each other by their sound, not by their degrees, each of which counts from its own tonic.
    [Fact]
    public void A_new_key_is_led_to_by_its_own_dominant()
    {
        var (from, to) = (Key.Of(ChordReader.Read("Eb").Chord!.Root, Mode.Major), Key.Of(ChordReader.Read("G").Chord!.Root, Mode.Major));
        var chart = ChartText.Read("Ebmaj7 | Am7 D7 | Gmaj7 | Gmaj7 G6 | Gm7 C7 | Fm7 Bb7 | Ebmaj7");
        var readings = FunctionReader.Read(chart, new(from, [new(1, from, true, 1), new(3, to, true, 1), new(5, from, true, 1)]));
        Assert.Equal(["Imaj7", "ii7/III", "V7/III", "Imaj7"], readings.Take(4).Select(r => r.Numeral));
        Assert.Equal("D7 is the dominant of Gmaj7, the tonic of the key that follows.", readings[2].Reason);
        Assert.All(readings, r => Assert.DoesNotContain("pedal", r.Roles));
    }

    // A half-diminished chord on its way down leads to no tonic above it (common practice: the sixth degree of minor under a falling bass).
    [Fact]
    public void A_half_diminished_chord_that_falls_is_not_applied()
    {
        var reading = Read("Cm | Cm Cm/B | Cm/Bb Am7b5 | Abmaj7 G7 | Cm", "C", Mode.Minor)[4];
        Assert.Equal("viø7", reading.Numeral);
        Assert.DoesNotContain("applied-diminished", reading.Roles);
    }

    // Over its own tonic a bass is a pedal, no dominant.
    [Fact]
    public void Over_the_tonic_the_bass_is_a_pedal() =>
        Assert.Contains("pedal", Read("C | Bb/C | C | F/C | C")[1].Roles);

    // In minor the chord on the fourth degree belongs to the key: nothing comes home by a back door there.
    [Fact]
    public void In_minor_the_fourth_degree_is_no_back_door() =>
        Assert.DoesNotContain(Read("Dm | Dm Gm | A7 | Dm | Bb Gm | A7 | Dm", "D", Mode.Minor), r => r.Function == HarmonicFunction.Backdoor);

    // The fourth degree is no tonic where no dominant has led to it, and in minor no mere colour on its way to the half-diminished second (common practice:
    // subdominant to dominant). Where its dominant has led to it, it rests.
    [Theory]
    [InlineData("Cm7 | Fm7 | Dm7b5 | G7 | Cm7", Mode.Minor, 1, HarmonicFunction.Subdominant)]
    [InlineData("Cmaj7 | Cmaj7 | Fmaj7 | Fmaj7 | G7 | G7 | Cmaj7", Mode.Major, 2, HarmonicFunction.Subdominant)]
    [InlineData("Cmaj7 | Gm7 C7 | Fmaj7 | Fmaj7 | Dm7 | G7 | Cmaj7", Mode.Major, 3, HarmonicFunction.Tonic)]
    public void The_fourth_degree_is_what_led_to_it(string chart, Mode mode, int index, HarmonicFunction function) =>
        Assert.Equal(function, Read(chart, "C", mode)[index].Function);

    // Common practice of the blues and of songs that end on one: a tonic with its seventh is home where its own dominant has led to it, or where it leads nowhere.
    [Theory]
    [InlineData("Fmaj7 | Gm7 | C7 | F7 | Bb7 | F6", 3)]
    [InlineData("Fmaj7 | Dm7 | Gm7 | C7 | F7", 4)]
    public void A_tonic_with_its_seventh_may_be_home(string chart, int index)
    {
        Assert.Equal("I7", Read(chart, "F")[index].Numeral);
        Assert.Empty(Read(chart, "F")[index].Roles.Where(r => r.StartsWith("applied", StringComparison.Ordinal)));
        Assert.Equal("V7/IV", Read("Fmaj7 | F7 | Bbmaj7 | C7 | F6", "F")[1].Numeral);
    }

    [Theory]
    [InlineData("C | Cmaj7 | C6 | G7", 1)]
    [InlineData("C | C7 | F | C", 1)]
    [InlineData("Dm | Dm/C | Bb | A7", 1)]
    public void Two_steps_are_no_line(string chart, int index) => Assert.DoesNotContain("line-cliche", Read(chart)[index].Roles);

    // A Picardy third: the piece in minor that ends on the major tonic (common practice).
    [Fact]
    public void A_minor_piece_may_end_in_major()
    {
        var last = Read("Am | Dm | E7 | A", "A", Mode.Minor)[3];
        Assert.Contains("picardy-third", last.Roles);
        Assert.DoesNotContain(Read("Am | A | Dm | Am", "A", Mode.Minor)[1].Roles, r => r == "picardy-third");
    }

    // In an old mode its own chords are told by its own degrees: dorian has a dominant seventh on its fourth, mixolydian on its tonic, lydian a major
    // second degree, and none of them leads away (common practice of modal playing).
    [Theory]
    [InlineData("D", Mode.Dorian, "Dm7 | Dm7 | Em7 | Dm7 | Dm7 | G7 | Dm7 | Dm7", 5, "IV7")]
    [InlineData("D", Mode.Dorian, "Dm7 | G7 | Dm7 | G7 | Dm7", 0, "i7")]
    [InlineData("A", Mode.Minor, "Am7 | D7 | Am7 | D7 | Am7", 0, "i7")]      // the same vamp, where the key is called minor
    [InlineData("A", Mode.Minor, "Am7 | D7 | Am7 | D7 | Am7", 1, "IV7")]
    [InlineData("A", Mode.Minor, "Am7 | D7 | Am7 | D7", 3, "IV7")]
    [InlineData("G", Mode.Mixolydian, "G7 | F/G | G7 | C/G | F | C | G7 | G7", 0, "I7")]
    [InlineData("G", Mode.Mixolydian, "G7 | F/G | G7 | C/G | F | C | G7 | G7", 1, "bVII")]
    [InlineData("G", Mode.Mixolydian, "G7 | F/G | G7 | C/G | F | C | G7 | G7", 3, "IV")]
    [InlineData("F", Mode.Lydian, "Fmaj7#11 | G/F | Fmaj7#11 | G/F | Em7 | Fmaj7#11", 1, "II")]
    public void In_an_old_mode_its_own_chords_lead_nowhere(string tonic, Mode mode, string chart, int index, string numeral)
    {
        var readings = Read(chart, tonic, mode);
        Assert.Equal(numeral, readings[index].Numeral);
        Assert.DoesNotContain(readings[index].Roles, r => r is "applied-dominant" or "related-two");
        Assert.All(readings.Where(r => r.Degree == 0), r => Assert.Equal(HarmonicFunction.Tonic, r.Function));
    }

    // A chain of dominants ends on the chord that the last of its links resolves to (common practice): not on one that merely comes next.
    [Theory]
    [InlineData("Bb6 | Cm7 F7 | Bb7 | Eb7 Edim7 | Bb6", "Bb", "F7 is a link in a chain of dominants, each resolving to the next, that ends on Eb7.", 2, 3)]
    [InlineData("C6 | Eb7 Ab7 | G7 | Abmaj7 | C6", "C", "Eb7 is a link in a chain of dominants, each resolving to the next, that ends on G7.", 1, 2)]
    [InlineData("Bb6 | D7 | D7 | G7 | G7 | C7 | C7 | F7 | F7 | Bb6", "Bb", "D7 is a link in a chain of dominants, each resolving to the next, that ends on Bb6.", 1, 8)]
    public void A_chain_of_dominants_ends_where_it_resolves(string chart, string tonic, string sentence, int first, int last)
    {
        var readings = Read(chart, tonic);
        Assert.Contains(sentence, readings[first].Reasons.Select(r => r.Sentence));
        Assert.Equal(Enumerable.Range(first, last - first + 1), Enumerable.Range(0, readings.Length).Where(i => readings[i].Roles.Contains("dominant-chain")));
    }

    // The tonic of a blues replaces no dominant; a dominant may be followed by its degree as a half-diminished chord, or by the beginning of the form;
    // a major seventh leads nowhere; and what does not go on by a fifth is not said to (common practice throughout).
    [Theory]
    [InlineData("F7 | Bb7 | F7 | F7 | Bb7 | Bdim7 | F7 E7 | Am7b5 D7b9 | Gm7 | C7 | F7 | C7", "F", 6, "F7 is at rest: a tonic in or near F major.")]
    [InlineData("F7 | Bb7 | F7 | F7 | Bb7 | Bdim7 | F7 E7 | Am7b5 D7b9 | Gm7 | C7 | F7 | C7", "F", 7, "E7 is the dominant of the third degree, where Am7b5 stands in place of a chord at rest.")]
    [InlineData("Dm7 | G7 | Cmaj7 | A7", "C", 3, "A7 is the dominant of the second degree, with which the chart begins again.")]
    [InlineData("Bb6 Bdim7 | Cm7 C#dim7 | Dm7 G7 | Cm7 F7 | Bb6", "Bb", 2, "Cm7 does not rest here: it is on its way to C#dim7.")]
    [InlineData("Bb6 G7 | Cm7 F7 | Dm7 G7 | Cm7 F7 | Bb6", "Bb", 0, "Bb6 takes part in a turnaround that leads to Dm7, which stands where the tonic would.")]
    public void A_sentence_says_no_more_than_is_so(string chart, string tonic, int index, string sentence) => Assert.Equal(sentence, Read(chart, tonic)[index].Reason);

    // A major seventh a fifth above a minor chord is no dominant, and E beside A flat is its flat sixth however it is spelled (common practice).
    [Fact]
    public void A_key_passed_through_is_told_by_its_degrees()
    {
        var readings = Read("Abmaj7 | Dbmaj7 | Dm7 G7 | Cmaj7 | Cm7 | Fm7 | F#m7b5 B7 | Emaj7 | Bbm7 Eb7 | Abmaj7", "Ab");
        Assert.DoesNotContain("applied-dominant", readings[4].Roles);
        Assert.Equal("bVImaj7", readings.Single(r => r.Degree == 8).Numeral);
    }

    // Every role of the list is met above by a worked example, and each chord's roles come with their reasons.
    [Fact]
    public void Roles_are_those_of_the_list()
    {
        var met = typeof(FunctionReaderTests).GetMethod(nameof(A_chord_plays_its_role))!.GetCustomAttributesData()
            .Where(a => a.AttributeType == typeof(InlineDataAttribute)).Select(a => ((IReadOnlyCollection<System.Reflection.CustomAttributeTypedArgument>)a.ConstructorArguments[0].Value!).ElementAt(2).Value as string)
            .Append("picardy-third").Distinct().Order(StringComparer.Ordinal);
        Assert.Equal(ChordRoles.Names.Order(StringComparer.Ordinal), met);
    }

    private static ImmutableArray<ChordFunction> Read(string text, string tonic = "C", Mode mode = Mode.Major) =>
        ChartText.Functions(text, Key.Of(ChordReader.Read(tonic).Chord!.Root, mode));
}
