// A spelled pitch with its octave: what a written or sounding note is.
namespace ChordLang.Theory.Pitches;

/// <summary>A pitch as spelled: <c>Eb4</c>. Middle C is C4; the octave number goes with the letter, so Cb4 sounds as B3.</summary>
/// <param name="Name">Letter and accidentals.</param>
/// <param name="Octave">Scientific octave number; middle C begins octave 4.</param>
public readonly record struct Pitch(PitchName Name, int Octave)
{
    /// <summary>MIDI note number: C4 is 60 (MIDI 1.0; middle C as note 60).</summary>
    public int Midi => 12 * (Octave + 1) + PitchName.Natural(Name.Letter) + Name.Alteration;

    /// <summary>The pitch of a MIDI number under a given spelling.</summary>
    /// <exception cref="ArgumentException">The name does not belong to that pitch class.</exception>
    public static Pitch Of(int midi, PitchName name)
    {
        var rest = midi - PitchName.Natural(name.Letter) - name.Alteration;
        if (PitchName.Modulo(rest, 12) != 0)
            throw new ArgumentException($"{name} does not sound as MIDI {midi}", nameof(name));
        return new(name, rest / 12 - 1);
    }

    /// <summary>The pitch of a MIDI number, spelled nearest to a place on the line of fifths (default: D, the middle of the naturals).</summary>
    public static Pitch Nearest(int midi, double fifths = 2) => Of(midi, PitchName.Nearest(midi, fifths));

    /// <summary>Reads <c>Eb4</c>; the octave is one digit, or <c>-1</c>.</summary>
    public static bool TryParse(ReadOnlySpan<char> text, out Pitch pitch)
    {
        pitch = default;
        var digits = text.EndsWith("-1") ? 2 : 1;
        if (text.Length <= digits || !int.TryParse(text[^digits..], out var octave) || !char.IsAsciiDigit(text[^1]))
            return false;
        if (!PitchName.TryParse(text[..^digits], out var name))
            return false;
        pitch = new(name, octave);
        return true;
    }

    /// <summary>Plain text: <c>Eb4</c>.</summary>
    public override string ToString() => $"{Name}{Octave}";
}
