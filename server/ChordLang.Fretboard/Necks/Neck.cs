// The neck: tuning, frets, scale length and capo, and where each fret lies.
namespace ChordLang.Fretboard.Necks;

/// <summary>A neck. Frets count from the capo, if there is one; fret 0 is the open (or capoed) string.</summary>
/// <param name="Tuning">The open strings without capo.</param>
/// <param name="Frets">Number of frets the instrument has, counted from the nut.</param>
/// <param name="ScaleLength">Vibrating length of the open string without capo, in millimetres.</param>
/// <param name="Capo">Fret of the capo counted from the nut, 0 for none.</param>
public sealed record Neck(Tuning Tuning, int Frets, double ScaleLength, int Capo)
{
    /// <summary>Six strings in standard tuning, 22 frets, 25.5 inches (647.7 mm), no capo.</summary>
    public static Neck Standard { get; } = new(Tuning.Standard, 22, 647.7, 0);

    /// <summary>The highest fret that can be named, counted from the capo.</summary>
    public int HighestFret => Frets - Capo;

    /// <summary>Sounding MIDI number of a fret (from the capo) on a string (1 = highest).</summary>
    public int Midi(int stringNumber, int fret) => Tuning[stringNumber].Midi + Capo + fret;

    /// <summary>The fret (from the capo) that sounds a MIDI number on a string, or null where the string cannot reach it.</summary>
    public int? FretOf(int stringNumber, int midi) =>
        midi - Midi(stringNumber, 0) is var fret && fret >= 0 && fret <= HighestFret ? fret : null;

    /// <summary>
    /// Distance of a fret (from the capo) from the nut, in millimetres: L(1 - 2^(-n/12)), the rule of twelve-tone equal temperament.
    /// </summary>
    public double Position(int fret) => ScaleLength * (1 - Math.Pow(2, -(fret + Capo) / 12.0));

    /// <summary>Distance between two frets along the string, in millimetres, never negative.</summary>
    public double Distance(int fret, int other) => Math.Abs(Position(fret) - Position(other));
}
