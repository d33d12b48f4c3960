// Symbols as players write them, held against what the standard and the handbooks say they are.
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;
using CsCheck;

namespace ChordLang.Theory.Tests.Chords;

public class ChordReaderTests
{
    // MusicXML 4.0, simple type kind-value: the documented degrees. The two differences are the eleventh that nobody plays over a major third.
    [Theory]
    [InlineData("C", "major", "1 3 5")]
    [InlineData("Cm", "minor", "1 b3 5")]
    [InlineData("Caug", "augmented", "1 3 #5")]
    [InlineData("Cdim", "diminished", "1 b3 b5")]
    [InlineData("C7", "dominant", "1 3 5 b7")]
    [InlineData("Cmaj7", "major-seventh", "1 3 5 7")]
    [InlineData("Cm7", "minor-seventh", "1 b3 5 b7")]
    [InlineData("Cdim7", "diminished-seventh", "1 b3 b5 bb7")]
    [InlineData("Caug7", "augmented-seventh", "1 3 #5 b7")]
    [InlineData("Cm7b5", "half-diminished", "1 b3 b5 b7")]
    [InlineData("Cm(maj7)", "major-minor", "1 b3 5 7")]
    [InlineData("C6", "major-sixth", "1 3 5 6")]
    [InlineData("Cm6", "minor-sixth", "1 b3 5 6")]
    [InlineData("C9", "dominant-ninth", "1 3 5 b7 9")]
    [InlineData("Cmaj9", "major-ninth", "1 3 5 7 9")]
    [InlineData("Cm9", "minor-ninth", "1 b3 5 b7 9")]
    [InlineData("C11", "dominant-11th", "1 3 5 b7 9 11")]
    [InlineData("Cmaj11", "major-11th", "1 3 5 7 9 11")]
    [InlineData("Cm11", "minor-11th", "1 b3 5 b7 9 11")]
    [InlineData("C13", "dominant-13th", "1 3 5 b7 9 13")]
    [InlineData("Cmaj13", "major-13th", "1 3 5 7 9 13")]
    [InlineData("Cm13", "minor-13th", "1 b3 5 b7 9 11 13")]
    [InlineData("Csus2", "suspended-second", "1 2 5")]
    [InlineData("Csus4", "suspended-fourth", "1 4 5")]
    [InlineData("CN6", "Neapolitan", "1 3 5")]
    [InlineData("CIt+6", "Italian", "1 3 #6")]
    [InlineData("CFr+6", "French", "1 3 #4 #6")]
    [InlineData("CGer+6", "German", "1 3 5 #6")]
    [InlineData("Cpedal", "pedal", "1")]
    [InlineData("C5", "power", "1 5")]
    [InlineData("CTristan", "Tristan", "1 #4 #6 #9")]
    public void Each_kind_of_the_standard_is_read(string symbol, string kind, string degrees)
    {
        Assert.Equal(kind, Sounds.Chord(symbol).Kind);
        Assert.Equal(degrees, Sounds.Degrees(symbol));
        Assert.Contains(kind, ChordKinds.All.Select(k => k.Value));
    }

    [Fact]
    public void The_standard_has_33_kinds_and_each_that_has_a_text_reads_back_as_itself()
    {
        Assert.Equal(33, ChordKinds.All.Select(k => k.Value).Distinct().Count());
        foreach (var kind in ChordKinds.All.Where(k => k.Suffix is not null))
            Assert.Equal(kind.Value, Sounds.Chord("C" + kind.Suffix).Kind);
    }

    // MusicXML 4.0 speaks of a kind and degrees added to it, altered or subtracted: the kind that needs the fewest.
    [Theory]
    [InlineData("C7#9", "dominant")]
    [InlineData("C7b9", "dominant")]
    [InlineData("C7b5", "dominant")]
    [InlineData("C7alt", "dominant")]
    [InlineData("C6/9", "major-sixth")]
    [InlineData("Cm6/9", "minor-sixth")]
    [InlineData("Cadd9", "major")]
    [InlineData("C7sus4", "suspended-fourth")]
    [InlineData("C9sus", "suspended-fourth")]
    [InlineData("Cmaj7#11", "major-seventh")]
    [InlineData("Cmaj7#5", "major-seventh")]
    [InlineData("C13b9", "dominant-13th")]
    [InlineData("C13#11", "dominant-13th")]
    [InlineData("Cø9", "half-diminished")]
    [InlineData("C7#5#9", "augmented-seventh")]
    [InlineData("Cno3", "power")]
    [InlineData("C9no3", "dominant-ninth")]
    [InlineData("Cdimmaj7", "diminished")]
    [InlineData("Cdim(maj7)", "diminished")]
    [InlineData("C°Δ", "diminished")]
    [InlineData("Cm(maj7)b5", "major-minor")]
    [InlineData("Cm7b5", "half-diminished")]
    [InlineData("C13sus", "suspended-fourth")]
    [InlineData("C7sus4(b9,13)", "suspended-fourth")]
    public void Other_symbols_have_the_nearest_kind(string symbol, string kind) => Assert.Equal(kind, Sounds.Chord(symbol).Kind);

    // Common practice; each is a spelling that players use for what stands beside it.
    [Theory]
    [InlineData("C-", "Cm")]
    [InlineData("Cmin", "Cm")]
    [InlineData("CMI7", "Cm7")]
    [InlineData("C-7", "Cm7")]
    [InlineData("C−7", "Cm7")]
    [InlineData("CMA7", "Cmaj7")]
    [InlineData("CM7", "Cmaj7")]
    [InlineData("C7M", "Cmaj7")]
    [InlineData("CΔ", "Cmaj7")]
    [InlineData("C∆7", "Cmaj7")]
    [InlineData("Cmin(maj9)", "Cm(maj9)")]
    [InlineData("CmM7", "Cm(maj7)")]
    [InlineData("Cm7M", "Cm(maj7)")]
    [InlineData("C+", "Caug")]
    [InlineData("C7+", "C7#5")]
    [InlineData("C+7", "C7#5")]
    [InlineData("Co", "Cdim")]
    [InlineData("C°7", "Cdim7")]
    [InlineData("Cø", "Cm7b5")]
    [InlineData("Ch7", "Cm7b5")]
    [InlineData("C-7b5", "Cm7b5")]
    [InlineData("Cm7(♭5)", "Cm7b5")]
    [InlineData("C7-9", "C7b9")]
    [InlineData("C7/b9", "C7b9")]
    [InlineData("C7(b9)(#11)", "C7b9#11")]
    [InlineData("C13(b9,#11)", "C13b9#11")]
    [InlineData("C69", "C6/9")]
    [InlineData("C6(9)", "C6/9")]
    [InlineData("Csus", "Csus4")]
    [InlineData("C4", "Csus4")]
    [InlineData("C2", "Cadd9")]
    [InlineData("C(9)", "Cadd9")]
    [InlineData("C7(9)", "C9")]
    [InlineData("C7(4)", "C7sus4")]
    [InlineData("C7(4)(9)", "C9sus4")]
    [InlineData("C(no3)", "C5")]
    [InlineData("Comit3", "C5")]
    [InlineData("C major seventh", "Cmaj7")]
    public void Spellings_of_one_chord_ask_for_the_same_tones(string symbol, string plain) =>
        Assert.Equal(Sounds.Chord(plain).Tones.Select(t => (t.Degree, t.Role)), Sounds.Chord(symbol).Tones.Select(t => (t.Degree, t.Role)));

    // Spelling by degrees: common practice.
    [Theory]
    [InlineData("B7", "B D# F# A")]
    [InlineData("Cb7", "Cb Eb Gb Bbb")]
    [InlineData("Cdim7", "C Eb Gb Bbb")]
    [InlineData("F#m7b5", "F# A C E")]
    [InlineData("G#7", "G# B# D# F#")]
    [InlineData("Eb7#9", "Eb G Bb Db F#")]
    [InlineData("Bb5", "Bb F")]
    public void Tones_are_spelled_by_their_degree(string symbol, string names) => Assert.Equal(names, Sounds.Names(symbol));

    [Theory]
    [InlineData("C7", "1 b9 9 #9 3 11 #11 5 b13 13 b7 7")]
    [InlineData("C7#5", "1 b9 9 #9 3 11 #11 5 #5 13 b7 7")]
    [InlineData("Cm", "1 b9 9 b3 3 4 b5 5 b6 6 b7 7")]
    [InlineData("Cdim7", "1 b9 9 b3 3 11 b5 5 b13 bb7 b7 7")]
    [InlineData("C6", "1 b9 9 #9 3 4 #11 5 #5 6 b7 7")]
    [InlineData("Csus2", "1 b9 2 b3 3 4 b5 5 b6 6 b7 7")]
    public void Each_interval_has_the_name_that_players_give_it(string symbol, string names) =>
        Assert.Equal(names, string.Join(' ', Sounds.Chord(symbol).Degrees));

    [Theory]
    [InlineData("C/Bb", "Bb")]
    [InlineData("C6/9/E", "E")]
    [InlineData("Dm7/G", "G")]
    [InlineData("C♭/E♭", "Eb")]
    public void A_capital_after_the_slash_is_the_bass(string symbol, string bass) => Assert.Equal(bass, Sounds.Chord(symbol).Bass.ToString());

    [Theory]
    [InlineData("C-5", "C(b5)", "Cm")]
    [InlineData("C+11", "Caug(add11)", "C(#11)")]
    [InlineData("Abb5", "Ab(b5)", "Abb(no3)")]
    public void A_symbol_that_players_read_in_two_ways_gets_both(string symbol, string one, string other)
    {
        Assert.Equal(new[] { one, other }, ChordReader.Read(symbol).Trouble!.Nearest.ToArray());
        Assert.All(new[] { one, other }, s => Assert.NotNull(ChordReader.Read(s).Chord));
    }

    [Theory]
    [InlineData("Cmja7", 2, "Cmaj7")]
    [InlineData("Cmaj7#12", 5, "Cmaj7#11")]
    [InlineData("C7(b9", 2, "C7(b9)")]
    [InlineData("C7b", 2, "C7b9")]
    [InlineData("C7/H", 3, "C7")]
    [InlineData("Csus5", 4, "Csus")]
    [InlineData("Hm7", 0, "Bm7")]
    [InlineData("cm7", 0, "Cm7")]
    public void A_slip_is_blamed_where_it_is_and_the_near_symbol_offered(string symbol, int at, string near)
    {
        var trouble = ChordReader.Read(symbol).Trouble!;
        Assert.Equal(at, trouble.At);
        Assert.Contains(near, trouble.Nearest);
        Assert.All(trouble.Nearest, n => Assert.NotNull(ChordReader.Read(n).Chord));
    }

    [Theory]
    [InlineData("C5no5omit1", 5, "C5no5")]
    [InlineData("Cpedal(no1)/E", 7, "Cpedal/E")]
    public void A_symbol_that_leaves_out_all_its_tones_is_no_chord(string symbol, int at, string near)
    {
        var trouble = ChordReader.Read(symbol).Trouble!;
        Assert.Equal(at, trouble.At);
        Assert.Contains("no tone of the chord is left", trouble.Message, StringComparison.Ordinal);
        Assert.Contains(near, trouble.Nearest);
        Assert.All(trouble.Nearest, n => Assert.NotNull(ChordReader.Read(n).Chord));
    }

    [Fact]
    public void Every_spelling_of_the_table_reads_as_its_row()
    {
        foreach (var row in ChordTable.All)
            foreach (var spelling in row.Spellings.Where(s => s is not "+9"))
                Assert.Equal(row.Degrees.Select(d => d.Interval).Order(), Sounds.Intervals(ChordReader.Read("C", spelling, null).Chord!));
    }

    [Fact]
    public void No_text_makes_the_reader_fail_and_trouble_lies_inside_the_text() => Gen.OneOf(
            Gen.String, Gen.String[From("CDEFGABbcm7913#(),/+-°øΔ♭ suadjiglto%xHx".ToCharArray()), 0, 20]).Sample(text =>
        {
            var reading = ChordReader.Read(text);
            Assert.True(reading.Chord is null != reading.Trouble is null);
            if (reading.Trouble is { } trouble)
                Assert.True(trouble.At >= 0 && trouble.Length >= 0 && trouble.At + trouble.Length <= text.Length, $"{trouble}");
            else
                Assert.Equal((12, 12), (reading.Chord!.Roles.Length, reading.Chord.Degrees.Length));
        });

    [Fact]
    public void What_is_read_is_written_so_that_it_reads_as_the_same_tones()
    {
        var roots = Gen.Int[-8, 12].Select(PitchName.FromFifths);
        var bases = From(ChordTable.All.Where(b => b.Degrees.All(d => d != new Degree(6, 1)) && b.Text is not "pedal").Select(b => b.Text).ToArray());
        var modifiers = From(ModifierTable.All.Where(m => m.Kind is ModifierKind.Alter && m.Text != "b7" || m.Text is "add9" or "add11" or "no5" or "sus4").Select(m => m.Text).ToArray());
        Gen.Select(roots, bases, modifiers.Array[0, 2]).Sample((root, suffix, added) =>
        {
            if (ChordReader.Read(root.ToString(), suffix + (added.Length > 0 ? $"({string.Join(',', added)})" : ""), null).Chord is not { } chord)
                throw new InvalidOperationException($"{root}{suffix} {string.Join(' ', added)}");
            if (ChordWriter.Write(root, chord.Tones.Select(t => t.Degree)) is { } symbol)
                Assert.Equal(Sounds.Intervals(chord), Sounds.Intervals(Sounds.Chord(symbol)));
        });
    }

    private static Gen<T> From<T>(T[] choices) => Gen.Int[0, choices.Length - 1].Select(i => choices[i]);
}
