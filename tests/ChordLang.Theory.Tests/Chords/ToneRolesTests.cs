// The table of tones against the handbooks' tables of available tensions, and the fuller names that follow from it.
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Tests.Chords;

public class ToneRolesTests
{
    // Nettles and Graf, The Chord Scale Theory and Jazz Harmony (1997), and Levine, The Jazz Theory Book (1995), from memory.
    [Theory]
    [InlineData("Cmaj7", "9 #11 13", "b9 #9 11 b13 b7")]
    [InlineData("C6", "9 #11 7", "b9 11 b7")]
    [InlineData("C7", "b9 9 #9 #11 b13 13", "11 7")]
    [InlineData("C9", "#11 b13 13", "b9 #9 11 7")]
    [InlineData("C7b9", "#9 #11 b13 13", "9 11 7")]
    [InlineData("C7alt", "", "9 5 13 11 7")]
    [InlineData("C7#5", "b9 9 #9 #11", "5 13 11 7")]
    [InlineData("C7b5", "b9 9 #9 b13 13", "5 11 7")]
    [InlineData("Cm7", "9 11 13", "b9 3 b13 7 b5")]
    [InlineData("Cm6", "9 11 7", "b9 3 b13 b7")]
    [InlineData("Cm(maj7)", "9 11 13", "b9 3 b13 b7")]
    [InlineData("Cm7b5", "9 11 b13", "b9 3 5 13 7")]
    [InlineData("Cdim7", "9 11 b13 7", "b9 3 5 b7")]
    [InlineData("C7sus4", "9 13", "b3 3 7 b5")]
    [InlineData("C", "9 6 7", "b9 b3 11 b5 b6 b7")]
    [InlineData("Cm", "9 11 6 7 b7", "b9 3 b5 b6")]
    [InlineData("C5", "9 6 b7", "b3 3 11 b5 7")]
    [InlineData("C13", "#11", "b9 #9 b13 7")]
    public void Tensions_agree_and_avoided_tones_contradict(string symbol, string tensions, string contradictions)
    {
        Assert.Equal(Intervals(tensions), Roles(symbol, ToneRole.Tension));
        Assert.Subset(Roles(symbol, ToneRole.Contradiction).ToHashSet(), Intervals(contradictions).ToHashSet());
    }

    // Players leave out the root, the plain fifth and the tensions under the highest (common practice of guitar voicings).
    [Theory]
    [InlineData("C7", "3 b7", "1 5")]
    [InlineData("C13", "3 b7 13", "1 5 9 11")]
    [InlineData("C11", "b7 11", "1 3 5 9")]
    [InlineData("Cm11", "b3 b7 11", "1 5 9")]
    [InlineData("C13(b9,#11)", "3 b7 b9 #11 13", "1 5")]
    [InlineData("C6/9", "3 6 9", "1 5")]
    [InlineData("C5", "5", "1")]
    [InlineData("C7sus4", "4 b7", "1 5")]
    [InlineData("C7#5", "3 #5 b7", "1")]
    public void Guide_tones_are_essential(string symbol, string essential, string optional)
    {
        Assert.Equal(Intervals(essential), Roles(symbol, ToneRole.Essential));
        Assert.Equal(Intervals(optional), Roles(symbol, ToneRole.Optional));
    }

    [Fact]
    public void A_tone_that_the_symbol_takes_away_contradicts_it()
    {
        Assert.Equal(ToneRole.Contradiction, Sounds.Chord("C7no3").Roles[4]);
        Assert.Equal(ToneRole.Contradiction, Sounds.Chord("C9no5").Roles[7]);
    }

    [Fact]
    public void Strict_naming_allows_what_is_named_and_misses_what_is_essential()
    {
        var chord = Sounds.Chord("C7/F");
        Assert.True(chord.Names(64));
        Assert.True(chord.Names(65));
        Assert.False(chord.Names(62));
        Assert.Equal("b7", Assert.Single(chord.Missing([60, 64, 67])).Degree.ToString());
        Assert.False(Sounds.Chord("C7#5").Names(67));
    }

    [Theory]
    [InlineData("G7", "F B E", "G13")]
    [InlineData("G7", "F A B E", "G13")]
    [InlineData("G7", "F A B", "G9")]
    [InlineData("G7", "F Ab B", "G7b9")]
    [InlineData("C", "C E G D", "Cadd9")]
    [InlineData("C", "C E G B", "Cmaj7")]
    [InlineData("C", "E A D", "C6/9")]
    [InlineData("Am7", "A C G B", "Am9")]
    [InlineData("Am7", "C G D", "Am11")]
    [InlineData("Am", "A C G", "Am7")]
    [InlineData("Cmaj7", "B E F#", "Cmaj7#11")]
    [InlineData("C7/E", "E Bb D", "C9/E")]
    public void The_fuller_name_is_what_players_would_write(string symbol, string sounding, string fuller)
    {
        var pitches = sounding.Split(' ').Select(n => PitchName.TryParse(n, out var p) ? p.PitchClass : throw new FormatException(n)).ToArray();
        Assert.Equal(fuller, FullerName.Of(Sounds.Chord(symbol), pitches));
    }

    [Fact]
    public void A_fuller_name_names_all_that_sounds()
    {
        foreach (var symbol in ChordTable.All.Select(r => "C" + r.Text))
        {
            var chord = Sounds.Chord(symbol);
            foreach (var tension in Roles(symbol, ToneRole.Tension))
            {
                var sounding = chord.Tones.Select(t => t.Degree.Interval).Append(tension).ToArray();
                if (FullerName.Of(chord, sounding) is not { } fuller)
                    continue;
                Assert.True(ChordReader.Read(fuller).Chord is { } read && sounding.All(read.Names), $"{symbol} with {tension}: {fuller}");
            }
        }
    }

    [Fact]
    public void Every_family_has_twelve_letters_and_a_source() =>
        Assert.All(ToneRoles.Families, f => Assert.True(f.Unnamed.Length == 12 && f.Source.Length > 0, f.Name));

    private static IEnumerable<int> Intervals(string degrees) => degrees.Split(' ', StringSplitOptions.RemoveEmptyEntries)
        .Select(t => Degree.TryParse(t, out var d) ? d.Interval : throw new FormatException(t)).Order();

    private static IEnumerable<int> Roles(string symbol, ToneRole role) =>
        Enumerable.Range(0, 12).Where(i => Sounds.Chord(symbol).Roles[i] == role);
}
