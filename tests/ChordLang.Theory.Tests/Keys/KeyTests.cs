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

    // Harmonic minor (common practice): the leading tone is the seventh degree raised, whatever its other name would be.
    [Theory]
    [InlineData("C minor", 11, "B")]
    [InlineData("E minor", 3, "D#")]
    [InlineData("A aeolian", 8, "G#")]
    [InlineData("Eb minor", 2, "D")]
    [InlineData("C minor", 8, "Ab")]
    [InlineData("C minor", 1, "Db")]
    [InlineData("C major", 8, "Ab")]
    [InlineData("C major", 6, "F#")]
    public void A_key_spells_the_twelve_pitches(string text, int pitch, string name)
    {
        Assert.True(Key.TryParse(text, out var key));
        Assert.Equal(name, key.Spell(pitch).ToString());
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
