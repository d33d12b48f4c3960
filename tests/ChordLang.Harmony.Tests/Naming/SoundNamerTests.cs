// Names of sounds against what the trade's tables say.
using System.Collections.Immutable;
using ChordLang.Harmony.Naming;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Tests.Naming;

public class SoundNamerTests
{
    // Common practice: textbook names of textbook chords.
    [Theory]
    [InlineData("C3 E3 G3", "C")]
    [InlineData("E3 G3 C4", "C/E")]
    [InlineData("A2 C3 E3", "Am")]
    [InlineData("C3 E3 G3 B3", "Cmaj7")]
    [InlineData("D3 F3 A3 C4", "Dm7")]
    [InlineData("G2 F3 B3 D4", "G7")]
    [InlineData("B2 D3 F3 A3", "Bm7b5")]
    [InlineData("C3 Eb3 Gb3 A3", "Cdim7")]
    [InlineData("C3 E3 G#3", "Caug")]
    [InlineData("C3 F3 G3 Bb3", "C7sus4")]
    [InlineData("Bb2 Eb3 Ab3 C4 F4", "Bb9sus4")]
    [InlineData("C3 E3 Bb3 D4 A4", "C13")]
    [InlineData("C3 E3 Bb3 D#4", "C7#9")]
    [InlineData("C3 E3 Bb3 Db4 G4", "C7b9")]
    [InlineData("C3 E3 Bb3 D4 F#4 A4", "C13#11")]
    [InlineData("C3 E3 G3 A3 D4", "C6/9")]
    [InlineData("C3 Eb3 G3 B3", "Cm(maj7)")]
    [InlineData("C3 G3", "C5")]
    [InlineData("C3 D3 G3", "Csus2")]
    public void Plain_sounds_have_their_plain_name(string pitches, string symbol) =>
        Assert.Equal(symbol, Name(pitches).Readings[0].Symbol);

    // Common practice: three tones that make a whole triad are that triad over its third or fifth, not a sixth chord that lacks its fifth.
    [Theory]
    [InlineData("C3 E3 A3", "Am/C")]
    [InlineData("C3 E3 A3 C4 E4", "Am/C")]
    [InlineData("Eb3 G3 C4", "Cm/Eb")]
    [InlineData("E3 A3 C4", "Am/E")]
    [InlineData("D3 F3 B3", "Bdim/D")]
    [InlineData("F3 B3 D4", "Bdim/F")]
    [InlineData("G3 C4 E4", "C/G")]
    [InlineData("C3 E3 G3 A3", "C6")]
    [InlineData("D3 F3 A3 B3", "Dm6")]
    public void A_whole_triad_comes_before_a_sixth_without_its_fifth(string pitches, string symbol) =>
        Assert.Equal(symbol, Name(pitches).Readings[0].Symbol);

    // Common practice: a sound is written in the letters of its chord, whatever the frets were taken for; with a diminished seventh, and for what
    // would take two accidentals, in plain names.
    [Theory]
    [InlineData("E2 B2 E3 Ab3 B3 E4", "E", "E2 B2 E3 G#3 B3 E4")]
    [InlineData("E3 Ab3 D4 G4", "E7#9", "E3 G#3 D4 G4")]
    [InlineData("C#3 Ab3 C#4 F4 Ab4", "Db", "Db3 Ab3 Db4 F4 Ab4")]
    [InlineData("B2 Eb3 A3 B3", "B7", "B2 D#3 A3 B3")]
    [InlineData("F2 Eb3 Ab3 B3", "Fm7b5", "F2 Eb3 Ab3 Cb4")]
    [InlineData("F3 B3 D4 G#4", "Fdim7", "F3 B3 D4 Ab4")]
    [InlineData("C3 F#3 A3 Eb4", "Cdim7", "C3 Gb3 A3 Eb4")]
    public void A_sound_is_written_in_the_letters_of_its_chord(string pitches, string symbol, string written)
    {
        var first = Name(pitches, NamingContext.None).Readings[0];
        Assert.Equal((symbol, written), (first.Symbol, string.Join(' ', first.Written)));
    }

    // Common practice: the tonic has the third of its mode and no seventh that leads away from it; melodic minor lends minor its sixth and seventh.
    [Theory]
    [InlineData("A2 C3 E3 F#3", "A major", false)]
    [InlineData("D3 A3 C4 F4", "D major", false)]
    [InlineData("A2 E3 G3 C#4", "A minor", false)]
    [InlineData("C3 G3 Bb3 E4", "C major", false)]
    [InlineData("C3 G3 B3 E4", "C minor", false)]
    [InlineData("C3 F3 G3", "C major", false)]
    [InlineData("C3 Eb3 Gb3", "C minor", false)]
    [InlineData("C3 G3 B3 E4", "C major", true)]
    [InlineData("C3 E3 G3 A3", "C major", true)]
    [InlineData("A2 C3 E3 F#3", "A minor", true)]
    [InlineData("A2 C3 E3 G#3", "A minor", true)]
    [InlineData("A2 C3 E3 G3", "A minor", true)]
    [InlineData("D3 A3 C4 F4", "D dorian", true)]
    [InlineData("G2 F3 B3 D4", "G mixolydian", true)]
    [InlineData("C3 G3", "C minor", true)]
    public void Only_a_chord_that_fits_the_mode_is_called_the_tonic(string pitches, string key, bool tonic)
    {
        Assert.True(Key.TryParse(key, out var read));
        var why = Name(pitches, new(read, Spelled: true)).Readings.Single(r => r.Root == read.Tonic).Why;
        Assert.Equal(tonic, why.Contains($"it is the tonic of {read}", StringComparison.Ordinal));
    }

    // Common practice: the related two is a minor seventh, plain or half-diminished; with its major seventh a minor chord is at rest.
    [Theory]
    [InlineData("D3 F3 A3 C4", true)]
    [InlineData("D3 F3 Ab3 C4", true)]
    [InlineData("D3 F3 A3", true)]
    [InlineData("D3 F3 A3 C#4", false)]
    public void A_related_two_has_no_major_seventh(string pitches, bool two) =>
        Assert.Equal(two, Name(pitches, new(After: Read("G7"), Spelled: true)).Readings.Single(r => r.Root.PitchClass == Class("D")).Why.Contains("related two of G7", StringComparison.Ordinal));

    // Common practice: a diminished seventh divides the octave in four, so each of its tones may be the root.
    [Theory]
    [InlineData("F3 B3 D4 Ab4", "F Ab B D", 3, "diminished")]
    [InlineData("C3 E3 G#3", "C E G#", 4, "augmented")]
    [InlineData("C3 E3 Bb3 Db4 A4", "C Eb Gb A", 3, "half-whole")]
    [InlineData("C3 E3 Bb3 D4 G#4", "C D E F# G# Bb", 2, "whole-tone")]
    [InlineData("C3 E3 F#3 Bb3", "C F#", 6, "tritone")]
    public void A_symmetrical_sound_has_equal_roots(string pitches, string roots, int shift, string family)
    {
        var names = Name(pitches);
        Assert.Equal(roots.Split(' ').Select(Class), names.EqualRoots.Select(r => r.PitchClass));
        Assert.Equal((shift, family), (names.Shift!.Value, names.Family!));
    }

    [Theory]
    [InlineData("C3 E3 G3 B3")]
    [InlineData("C3 E3 G3")]
    [InlineData("C3 E3 Bb3 D4 A4")]
    public void A_plain_sound_has_no_equal_roots(string pitches)
    {
        var names = Name(pitches);
        Assert.Empty(names.EqualRoots);
        Assert.Null(names.Shift);
    }

    // Charts write no double flat and no B sharp under a slash where the chord itself stands on a plain root; the seventh of Db7 stays Cb (common practice).
    [Theory]
    [InlineData("G2 B3 Db4 F4", "Db7b5/G")]
    [InlineData("C3 E3 Bb3 Db4 A4", "A(addb9)/C")]
    [InlineData("B2 Db3 F3 Ab3", "Db7/Cb")]
    public void The_bass_under_a_slash_is_spelled_as_charts_do(string pitches, string symbol) =>
        Assert.Contains(symbol, Name(pitches).Readings.Select(r => r.Symbol));

    // Common practice: Dm6 holds the tones of Bm7b5 (a third below its root) and of G9 without G.
    [Theory]
    [InlineData("D3 F3 A3 B3", "D", "B", "G")]
    [InlineData("B2 F3 A3 D4", "D", "B", "G")]
    [InlineData("A2 D3 F3 B3", "D", "B", "G")]
    public void Minor_sixth_half_diminished_and_rootless_ninth_are_one_sound(string pitches, params string[] roots)
    {
        var readings = Name(pitches).Readings;
        foreach (var root in roots)
            Assert.Contains(readings, r => r.Root.PitchClass == Class(root));
        Assert.True(readings.Single(r => r.Root.PitchClass == Class("G")).Rootless);
        Assert.Equal("G9", readings.Single(r => r.Root.PitchClass == Class("G")).Symbol);
    }

    // Common practice: dominants a tritone apart share their guide tones, third and seventh changing places.
    [Fact]
    public void Guide_tones_name_two_dominants_a_tritone_apart()
    {
        var readings = Name("F3 B3").Readings;
        var (g, db) = (readings.Single(r => r.Symbol == "G7"), readings.Single(r => r.Symbol == "Db7"));
        Assert.Equal(["b7", "3"], g.Tones.Select(t => t.Degree.ToString()));
        Assert.Equal(["3", "b7"], db.Tones.Select(t => t.Degree.ToString()));
        Assert.True(g.Rootless && db.Rootless);
    }

    // Common practice: a diminished seventh is a dominant flat ninth without its root, for four dominants.
    [Fact]
    public void A_diminished_seventh_is_four_dominants_without_root() =>
        Assert.Equal(["Bb7b9", "Db7b9", "E7b9", "G7b9"],
            Name("F3 B3 D4 Ab4").Readings.Where(r => r.Rootless).Select(r => r.Symbol).Order(StringComparer.Ordinal));

    [Fact]
    public void The_chord_that_follows_says_which_dominant_the_guide_tones_mean()
    {
        Assert.Equal("G7", Name("F3 B3", new(After: Read("Cmaj7"))).Readings[0].Symbol);
        Assert.Equal("Db7", Name("F3 B3", new(After: Read("Gbmaj7"))).Readings[0].Symbol);
        Assert.Contains("dominant of Cmaj7", Name("F3 B3", new(After: Read("Cmaj7"))).Readings[0].Why, StringComparison.Ordinal);
    }

    [Fact]
    public void The_chart_overrules_the_grip_alone()
    {
        Assert.Equal("Dm6", Name("D3 F3 A3 B3").Readings[0].Symbol);
        var named = Name("D3 F3 A3 B3", new(Chart: Read("Bm7b5"))).Readings[0];
        Assert.Equal("Bm7b5/D", named.Symbol);
        Assert.Contains("the chart writes Bm7b5", named.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void The_key_spells_the_root()
    {
        Assert.Equal("Db", Name("C#3 F3 G#3", new(Key.Of(Read("Ab").Root, Mode.Major))).Readings[0].Symbol);
        Assert.Equal("C#", Name("C#3 E#3 G#3", new(Spelled: true)).Readings[0].Symbol);
    }

    [Fact]
    public void One_tone_is_no_chord()
    {
        Assert.Empty(Name("C3 C4").Readings);
        Assert.Empty(SoundNamer.Name([], NamingContext.None).Readings);
    }

    // Property: over every set of up to five tones and every bass, the first names keep to the contract.
    [Fact]
    public void Every_sound_is_named_consistently()
    {
        for (var set = 1; set < 4096; set++)
        {
            if (int.PopCount(set) is < 2 or > 5)
                continue;
            var pitches = Enumerable.Range(0, 12).Where(n => (set >> n & 1) != 0).Select(n => Pitch.Nearest(48 + n)).ToImmutableArray();
            var names = SoundNamer.Name(pitches, NamingContext.None);
            Assert.NotEmpty(names.Readings);
            Assert.Equal(names.Readings.Length, names.Readings.Select(r => r.Root.PitchClass).Distinct().Count());
            Assert.True(names.Readings.Zip(names.Readings.Skip(1)).All(p => p.First.Score >= p.Second.Score));
            Assert.InRange(names.Readings.Sum(r => r.Score), 0, 1.001);
            foreach (var reading in names.Readings)
            {
                Assert.Equal(pitches.Select(p => p.Midi), reading.Tones.Select(t => t.Pitch.Midi));
                Assert.Equal(reading.Rootless, reading.Tones.All(t => t.Degree.Interval != 0));
                Assert.All(reading.Tones, t => Assert.Equal(t.Degree.Interval, (t.Pitch.Name.PitchClass - reading.Root.PitchClass + 12) % 12));
            }
        }
    }

    private static SoundNames Name(string pitches, NamingContext? context = null) =>
        SoundNamer.Name([.. pitches.Split(' ').Select(t => Pitch.TryParse(t, out var p) ? p : throw new FormatException(t))], context ?? new NamingContext(Spelled: true));

    private static Chord Read(string symbol) => ChordReader.Read(symbol).Chord!;

    private static int Class(string name) => PitchName.TryParse(name, out var n) ? n.PitchClass : throw new FormatException(name);
}
