// A place above a root as players number it: 1, b3, #11, 13.
namespace ChordLang.Theory.Pitches;

/// <summary>A chord or scale degree: number and alteration against the major scale, <c>b9</c> is (9, -1).</summary>
/// <param name="Number">1 to 15; 8 and above lie an octave higher.</param>
/// <param name="Alteration">Semitones against the major scale's degree.</param>
public readonly record struct Degree(int Number, int Alteration)
{
    private static readonly int[] Major = [0, 2, 4, 5, 7, 9, 11];

    /// <summary>Semitones above the root, 0 to 26: b9 is 13. (Common practice: alterations count from the major scale.)</summary>
    public int Semitones => Major[(Number - 1) % 7] + 12 * ((Number - 1) / 7) + Alteration;

    /// <summary>Semitones above the root within one octave, 0 to 11.</summary>
    public int Interval => PitchName.Modulo(Semitones, 12);

    /// <summary>The spelled name of this degree above a root: b3 above C is Eb.</summary>
    public PitchName Above(PitchName root) => root.Up(Number - 1, Semitones);

    /// <summary>Reads <c>b9</c>, <c>#11</c>, <c>bb7</c>, <c>♭13</c>.</summary>
    public static bool TryParse(ReadOnlySpan<char> text, out Degree degree)
    {
        degree = default;
        var k = 0;
        while (k < text.Length && !char.IsAsciiDigit(text[k]))
            k++;
        if (!PitchName.TryAlteration(text[..k], out var alteration) || !int.TryParse(text[k..], out var number) || number is < 1 or > 15)
            return false;
        degree = new(number, alteration);
        return true;
    }

    /// <summary>Plain text: <c>b9</c>.</summary>
    public override string ToString() => (Alteration >= 0 ? new string('#', Alteration) : new string('b', -Alteration)) + Number;
}
