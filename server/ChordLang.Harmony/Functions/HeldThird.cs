// Reads a triad over the bass a step above its root, or a minor seventh over its fourth, as what players hear: the bass's own dominant with its third held back.
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;

namespace ChordLang.Harmony.Functions;

/// <summary>Slash chords that are suspended dominants by another name. Common practice: F/G, Fmaj7/G and Dm7/G stand for G9sus4 and G13sus4.</summary>
internal static class HeldThird
{
    /// <summary>
    /// The suspended dominant on the bass, under the symbol as written; any other chord as it is. Over the tonic the bass is a pedal, and stays one; and
    /// over a bass that lies already a minor chord moves while that stays.
    /// </summary>
    /// <param name="chord">The chord.</param>
    /// <param name="before">The chord before it, or null.</param>
    /// <param name="key">The key that it stands in, or null.</param>
    public static Chord Read(Chord chord, Chord? before, Key? key)
    {
        if (chord.Bass is not { } bass || bass.PitchClass == key?.Tonic?.PitchClass || chord.Tones.Length < 3)
            return chord;
        var held = ((bass.PitchClass - chord.Root.PitchClass + 12) % 12) switch
        {
            2 => chord.Tones.All(t => t.Degree.Interval is 0 or 4 or 7 or 11),
            5 => chord.Tones.All(t => t.Degree.Interval is 0 or 3 or 7 or 10) && chord.Asks(7) && chord.Asks(10) && (before?.Bass ?? before?.Root)?.PitchClass != bass.PitchClass,
            _ => false,
        };
        return held && ChordReader.Read($"{bass}9sus4").Chord is { } suspended ? suspended with { Symbol = chord.Symbol } : chord;
    }
}
