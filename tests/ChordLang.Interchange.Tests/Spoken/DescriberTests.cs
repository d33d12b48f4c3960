// The spoken text is complete: a listener who writes down the sentences gets the music back.
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Spoken;
using ChordLang.Testing;
using ChordLang.Theory.Chords;

namespace ChordLang.Interchange.Tests.Spoken;

public sealed class DescriberTests
{
    public static TheoryData<string> Samples => [.. Repository.Samples("valid")];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Pitches_strings_frets_and_rhythm_are_rebuilt_from_the_words(string sample)
    {
        var piece = Sample.Bind(sample);
        var placed = PlacedPiece.Of(piece, Hand.Medium);
        var words = string.Join('\n', Describer.Whole(piece, placed).Select(s => s.Text.Replace('\n', ' ')));
        Assert.Equal(Listener.Wanted(piece, placed).Order(StringComparer.Ordinal), Listener.Heard(words).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("G7b9", "G 7 flat 9")]
    [InlineData("F#m7b5/C", "F sharp minor 7 flat 5 over C")]
    [InlineData("Ebmaj7", "E flat major 7")]
    [InlineData("C13(b9,#11)", "C 13 flat 9 sharp 11")]
    [InlineData("Bb6/9", "B flat 6 9")]
    [InlineData("Dsus4", "D suspended 4")]
    [InlineData("Ao7", "A diminished 7")]
    [InlineData("C-7", "C minor 7")]
    [InlineData("CΔ", "C major 7")]
    public void Symbols_are_said_as_players_say_them(string symbol, string spoken)
    {
        var chart = Assert.IsType<ChartLine>(SyntaxTree.Parse("| " + symbol).Lines[0]);
        Assert.Equal(spoken, SpokenWords.Of(ChordReader.Read(symbol).Chord!, chart.Bars[0].Items[0].Symbol!));
    }

    [Theory]
    [InlineData(0, 1, "1")]
    [InlineData(3, 2, "2 and")]
    [InlineData(7, 3, "3 trip")]
    [InlineData(15, 4, "4 a")]
    [InlineData(12, 5, "3 plus 2/5")]
    public void Counts_are_said_as_they_are_counted(int numerator, int denominator, string spoken) =>
        Assert.Equal(spoken, SpokenWords.Count(Rational.Of(numerator, denominator)));
}
