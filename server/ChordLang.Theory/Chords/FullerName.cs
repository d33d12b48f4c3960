// Proposes the symbol that also names the colours which sound over a chord: G7 with an E on top is G13.
namespace ChordLang.Theory.Chords;

/// <summary>Fuller symbols.</summary>
public static class FullerName
{
    /// <summary>
    /// The symbol players would write for a chord and the tensions that sound over it. Null where nothing new sounds, where a tone
    /// contradicts the chord (then the symbol is wrong, not short), or where no symbol says it.
    /// </summary>
    /// <param name="chord">The chord as written.</param>
    /// <param name="sounding">MIDI numbers or pitch classes.</param>
    public static string? Of(Chord chord, IEnumerable<int> sounding)
    {
        var pitches = sounding.ToArray();
        if (pitches.Any(p => chord.RoleOf(p) == ToneRole.Contradiction) || pitches.All(p => chord.RoleOf(p) != ToneRole.Tension))
            return null;
        var colours = pitches.Where(p => chord.RoleOf(p) == ToneRole.Tension).Select(chord.DegreeOf);
        return ChordWriter.Write(chord.Root, chord.Tones.Select(t => t.Degree).Concat(colours), chord.Bass, loosely: true);
    }
}
