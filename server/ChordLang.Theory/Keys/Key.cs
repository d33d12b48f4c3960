// A key: tonic, mode and the signature they call for.
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Keys;

/// <summary>Modes by the names of the trade.</summary>
public enum Mode { Major, Minor, Ionian, Dorian, Phrygian, Lydian, Mixolydian, Aeolian, Locrian }

/// <summary>A key, or only its signature where the tonic is not known.</summary>
/// <param name="Tonic">The tonic, or null where only the signature is given.</param>
/// <param name="Mode">The mode; Major where only the signature is given.</param>
/// <param name="Fifths">Sharps of the signature; flats are negative.</param>
public sealed record Key(PitchName? Tonic, Mode Mode, int Fifths)
{
    /// <summary>The key of a tonic and mode, with the signature that follows from them.</summary>
    public static Key Of(PitchName tonic, Mode mode) => new(tonic, mode, tonic.Fifths - Lift(mode));

    /// <summary>The key of which only the signature is known.</summary>
    public static Key Signature(int fifths) => new(null, Mode.Major, fifths);

    /// <summary>True where a pitch class (or MIDI number) is one of the seven tones of the signature.</summary>
    public bool Holds(int pitch) => Spell(pitch) is var name && name.Fifths >= Fifths - 1 && name.Fifths <= Fifths + 5;

    /// <summary>The spelling of a pitch class (or MIDI number) nearest to the middle of the signature.</summary>
    public PitchName Spell(int pitch) => PitchName.Nearest(pitch, Fifths + 2);

    /// <summary>As the setting writes it: <c>G major</c>, <c>2 flats</c>.</summary>
    public override string ToString() => Tonic is { } t ? $"{t} {Mode.ToString().ToLowerInvariant()}"
        : Fifths >= 0 ? $"{Fifths} sharps" : $"{-Fifths} flats";

    private static int Lift(Mode mode) => mode switch
    {
        Mode.Lydian => -1, Mode.Mixolydian => 1, Mode.Dorian => 2, Mode.Minor or Mode.Aeolian => 3, Mode.Phrygian => 4, Mode.Locrian => 5, _ => 0,
    };
}
