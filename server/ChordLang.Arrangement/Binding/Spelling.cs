// Pitches as written become pitches of theory; pitches that only sound get the spelling of their surroundings.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Binding;

/// <summary>Spells pitches.</summary>
internal static class Spelling
{
    private const string Letters = "CDEFGAB";

    /// <summary>The name of a written pitch.</summary>
    public static PitchName Name(PitchSyntax pitch) => new((Letter)Math.Max(0, Letters.IndexOf(pitch.Letter)), pitch.Alteration);

    /// <summary>The pitch of a MIDI number as the chord spells it, else the key, else the nearest to the naturals.</summary>
    public static Pitch Sounding(int midi, Chord? chord, Settings settings)
    {
        var name = chord?.Spell(midi) ?? settings.Key?.Spell(midi) ?? PitchName.Nearest(midi, 2);
        return name.PitchClass == ((midi % 12) + 12) % 12 ? Pitch.Of(midi, name) : Pitch.Nearest(midi);
    }
}
