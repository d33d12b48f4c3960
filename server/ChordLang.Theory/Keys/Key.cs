// A key: tonic, mode and the signature they call for.
using System.Diagnostics.CodeAnalysis;
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

    /// <summary>Reads <c>G major</c>, <c>D dorian</c>, <c>F#</c> (major), <c>Am</c>, <c>2 flats</c>, <c>1 sharp</c>, <c>no sharps or flats</c>. A signature has at most seven.</summary>
    public static bool TryParse(string text, [NotNullWhen(true)] out Key? key)
    {
        key = null;
        var words = text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        switch (words)
        {
            case ["no", "sharps" or "flats"] or ["no", "sharps", "or", "flats"] or ["no", "flats", "or", "sharps"]:
                key = Signature(0);
                break;
            case [[>= '0' and <= '7'] count, "sharp" or "sharps"]:
                key = Signature(count[0] - '0');
                break;
            case [[>= '0' and <= '7'] count, "flat" or "flats"]:
                key = Signature('0' - count[0]);
                break;
            case [var tonic] when PitchName.TryParse(tonic, out var major):
                key = Of(major, Mode.Major);
                break;
            case [[.. var tonic, 'm']] when PitchName.TryParse(tonic, out var minor):
                key = Of(minor, Mode.Minor);
                break;
            case [var tonic, var mode] when PitchName.TryParse(tonic, out var name) && Enum.TryParse<Mode>(mode, true, out var known) && char.IsAsciiLetter(mode[0]):
                key = Of(name, known);
                break;
        }
        if (key is { Fifths: < -7 or > 7 })
            key = null;
        return key is not null;
    }

    /// <summary>True where a pitch class (or MIDI number) is one of the seven tones of the signature.</summary>
    public bool Holds(int pitch) => Spell(pitch) is var name && name.Fifths >= Fifths - 1 && name.Fifths <= Fifths + 5;

    /// <summary>The spelling of a pitch class (or MIDI number) nearest to the middle of the signature; in minor the raised seventh keeps the seventh's letter.</summary>
    public PitchName Spell(int pitch) => PitchName.Nearest(pitch, Fifths + (Mode is Mode.Minor or Mode.Aeolian ? LeansToLeadingTone : 2));

    /// <summary>As the setting writes it: <c>G major</c>, <c>2 flats</c>.</summary>
    public override string ToString() => Tonic is { } t ? $"{t} {Mode.ToString().ToLowerInvariant()}"
        : Fifths >= 0 ? $"{Fifths} sharps" : $"{-Fifths} flats";

    // The leading tone of minor lies six fifths above the middle and its other name six below: B, not Cb, in C minor (harmonic minor, common practice).
    private const double LeansToLeadingTone = 2.5;

    private static int Lift(Mode mode) => mode switch
    {
        Mode.Lydian => -1, Mode.Mixolydian => 1, Mode.Dorian => 2, Mode.Minor or Mode.Aeolian => 3, Mode.Phrygian => 4, Mode.Locrian => 5, _ => 0,
    };
}
