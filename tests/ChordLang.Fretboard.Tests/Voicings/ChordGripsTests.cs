// Grips of a chord, against the inversions that method books print and against the chord's own tones.
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
using ChordLang.Theory.Chords;

namespace ChordLang.Fretboard.Tests.Voicings;

public sealed class ChordGripsTests
{
    [Theory]
    // The four drop-2 inversions of Cmaj7 on strings 5 to 2, and drop-3 on strings 6, 4, 3, 2 (common practice of jazz guitar).
    [InlineData("Cmaj7", "x-3-5-4-5-x")]
    [InlineData("Cmaj7", "x-7-9-5-8-x")]
    [InlineData("Cmaj7", "x-10-10-9-12-x")]
    [InlineData("Cmaj7", "x-2-2-0-1-x")]
    [InlineData("Cmaj7", "8-x-9-9-8-x")]
    // A ninth chord without its root, a half-diminished chord, a triad, a slash chord (common practice).
    [InlineData("C9", "x-x-2-3-3-3")]
    [InlineData("Bm7b5", "x-2-3-2-3-x")]
    [InlineData("C", "x-x-5-5-5-x")]
    [InlineData("C/E", "x-x-2-0-1-x")]
    public void Grips_that_players_know_are_found(string symbol, string grip) =>
        Assert.Contains(ChordGrips.Of(Neck.Standard, ChordReader.Read(symbol).Chord!), v => $"{v}" == grip);

    [Theory]
    [InlineData("Cmaj7")]
    [InlineData("F#m7b5")]
    [InlineData("Bb13")]
    [InlineData("G7alt")]
    [InlineData("Ebdim7")]
    [InlineData("A7sus4")]
    [InlineData("Dm7/G")]
    [InlineData("C5")]
    public void All_sound_the_chord_and_lie_under_a_hand(string symbol)
    {
        var chord = ChordReader.Read(symbol).Chord!;
        var grips = ChordGrips.Of(Neck.Standard, chord).ToList();
        Assert.NotEmpty(grips);
        Assert.Equal(grips.Count, grips.Distinct().Count());
        foreach (var grip in grips)
        {
            var midi = grip.Played.Select(s => Neck.Standard.Midi(s, grip[s]!.Value)).ToList();
            Assert.Equal(midi.Order(), midi);
            Assert.All(midi, m => Assert.True(chord.Names(m), $"{grip} holds a strange tone"));
            var fretted = grip.Slots.OfType<int>().Where(f => f > 0).ToList();
            Assert.True(fretted.Count == 0 || fretted.Max() - fretted.Min() <= 4, $"{grip}");
            if (chord.Bass is { } bass)
                Assert.Equal(bass.PitchClass, midi[0] % 12);
            else if (chord.Tones.Count(t => t.Role == ToneRole.Essential) <= 4)
                Assert.Empty(chord.Missing(midi));
        }
    }
}
