// Reads the triad over the bass a step below it as what players hear: the bass's own dominant with its third held back.
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;

namespace ChordLang.Harmony.Functions;

/// <summary>Slash chords that are suspended dominants by another name. Common practice: F/G and Fmaj7/G stand for G9sus4 and G13sus4.</summary>
internal static class HeldThird
{
    /// <summary>The suspended dominant on the bass, under the symbol as written; any other chord as it is. Over the tonic the bass is a pedal, and stays one.</summary>
    public static Chord Read(Chord chord, Key? key)
    {
        if (chord.Bass is not { } bass || (bass.PitchClass - chord.Root.PitchClass + 12) % 12 != 2 || bass.PitchClass == key?.Tonic?.PitchClass
            || !chord.Tones.All(t => t.Degree.Interval is 0 or 4 or 7 or 11) || chord.Tones.Length < 3)
            return chord;
        return ChordReader.Read($"{bass}9sus4").Chord is { } held ? held with { Symbol = chord.Symbol } : chord;
    }
}
