// Keys against the circle of fifths and the modes on it (common practice).
using ChordLang.Theory.Keys;

namespace ChordLang.Theory.Tests.Keys;

public class KeyTests
{
    [Theory]
    [InlineData("G major", 1)]
    [InlineData("G", 1)]
    [InlineData("Bb minor", -5)]
    [InlineData("F#m", 3)]
    [InlineData("D dorian", 0)]
    [InlineData("E phrygian", 0)]
    [InlineData("F lydian", 0)]
    [InlineData("G Mixolydian", 0)]
    [InlineData("B locrian", 0)]
    [InlineData("2 flats", -2)]
    [InlineData("1 sharp", 1)]
    [InlineData("no sharps or flats", 0)]
    [InlineData("C# major", 7)]
    public void A_key_has_the_signature_of_its_mode(string text, int fifths)
    {
        Assert.True(Key.TryParse(text, out var key));
        Assert.Equal(fifths, key.Fifths);
    }

    [Theory]
    [InlineData("")]
    [InlineData("H major")]
    [InlineData("G 1")]
    [InlineData("9 sharps")]
    [InlineData("G# major")]
    [InlineData("happy")]
    public void What_is_no_key_is_refused(string text) => Assert.False(Key.TryParse(text, out _));
}
