// What a harmonic sounds, from the place where the string is touched.
using System.Collections.Frozen;
using ChordLang.Fretboard.Necks;

namespace ChordLang.Arrangement.Binding;

/// <summary>
/// Natural harmonics. A string touched at 1/2, 1/3, 1/4, 1/5 or 1/6 of its length sounds its 2nd to 6th partial, which lie 12, 19, 24, 28 and 31
/// semitones above it (the harmonic series, rounded to equal temperament); the places lie at or near the frets below (common practice).
/// A harmonic anywhere else is an artificial one: the fret is held, and the string sounds an octave above it.
/// </summary>
internal static class Harmonics
{
    private static readonly FrozenDictionary<int, int> Partials = new Dictionary<int, int>
    {
        [12] = 12, [7] = 19, [19] = 19, [5] = 24, [24] = 24, [4] = 28, [9] = 28, [16] = 28, [3] = 31,
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<int, int> Touches = new Dictionary<int, int>
    {
        [12] = 12, [19] = 7, [24] = 5, [28] = 4, [31] = 3,
    }.ToFrozenDictionary();

    /// <summary>The MIDI number that sounds, harmonic or not.</summary>
    public static int Midi(Neck neck, int stringNumber, int fret, bool harmonic) => !harmonic ? neck.Midi(stringNumber, fret)
        : neck.Midi(stringNumber, 0) + (Partials.TryGetValue(fret, out var partial) ? partial : fret + 12);

    /// <summary>True where a string is only touched there, and sounds a partial of its open sound; else it is held.</summary>
    public static bool IsNatural(int fret) => Partials.ContainsKey(fret);

    /// <summary>The fret to touch, hold or press for a MIDI number on a string, or null.</summary>
    public static int? Fret(Neck neck, int stringNumber, int midi, bool harmonic)
    {
        if (!harmonic)
            return neck.FretOf(stringNumber, midi);
        var above = midi - neck.Midi(stringNumber, 0);
        return Touches.TryGetValue(above, out var touch) ? touch : neck.FretOf(stringNumber, midi - 12);
    }
}
