// A spelled pitch class: the letter and its accidentals, so that Eb and D# stay two names of one key.
namespace ChordLang.Theory.Pitches;

/// <summary>The seven letters, in order of the scale from C.</summary>
public enum Letter { C, D, E, F, G, A, B }

/// <summary>A pitch without its octave, as spelled: <c>Eb</c>, <c>F##</c>.</summary>
/// <param name="Letter">The letter.</param>
/// <param name="Alteration">Semitones above the letter's natural pitch; flats are negative.</param>
public readonly record struct PitchName(Letter Letter, int Alteration) : IComparable<PitchName>
{
    private const string Letters = "CDEFGAB";
    private const string FifthsOrder = "FCGDAEB";
    private static readonly int[] Naturals = [0, 2, 4, 5, 7, 9, 11];

    /// <summary>Semitones of a natural letter above C, 0 to 11.</summary>
    public static int Natural(Letter letter) => Naturals[(int)letter];

    /// <summary>Semitones above C, 0 to 11.</summary>
    public int PitchClass => Modulo(Natural(Letter) + Alteration, 12);

    /// <summary>Place on the line of fifths: C is 0, G is 1, F is -1, Bb is -2, F# is 6.</summary>
    public int Fifths => FifthsOrder.IndexOf(Letters[(int)Letter]) - 1 + 7 * Alteration;

    /// <summary>The name at a place on the line of fifths, C being 0.</summary>
    public static PitchName FromFifths(int fifths)
    {
        var alteration = (int)Math.Floor((fifths + 1) / 7.0);
        var letter = FifthsOrder[fifths + 1 - 7 * alteration];
        return new((Letter)Letters.IndexOf(letter), alteration);
    }

    /// <summary>The spelling of a pitch class that lies nearest to a place on the line of fifths; on a tie, the flat side.</summary>
    public static PitchName Nearest(int pitchClass, double fifths)
    {
        var best = int.MinValue;
        for (var k = -15; k <= 21; k++)
            if (Modulo(7 * k, 12) == Modulo(pitchClass, 12) && (best == int.MinValue || Math.Abs(k - fifths) < Math.Abs(best - fifths)))
                best = k;
        return FromFifths(best);
    }

    /// <summary>The name a number of scale steps and semitones higher: a minor third is (2, 3).</summary>
    public PitchName Up(int steps, int semitones)
    {
        var letter = (Letter)Modulo((int)Letter + steps, 7);
        var octaves = (int)Math.Floor(((int)Letter + steps) / 7.0);
        var natural = Natural(letter) + 12 * octaves - Natural(Letter);
        return new(letter, Alteration + semitones - natural);
    }

    /// <summary>Reads <c>C</c>, <c>Eb</c>, <c>F##</c>, <c>Bbb</c>, with ♭ ♯ 𝄪 𝄫 and <c>x</c> (double sharp) too; capital letter, at most three accidentals.</summary>
    public static bool TryParse(ReadOnlySpan<char> text, out PitchName name)
    {
        name = default;
        if (text.Length == 0 || Letters.IndexOf(text[0]) is var letter && letter < 0)
            return false;
        if (!TryAlteration(text[1..], out var alteration))
            return false;
        name = new((Letter)letter, alteration);
        return true;
    }

    internal static bool TryAlteration(ReadOnlySpan<char> text, out int alteration)
    {
        alteration = 0;
        for (var i = 0; i < text.Length; i++)
        {
            var step = text[i] switch { '#' or '♯' => 1, 'b' or '♭' => -1, 'x' => 2, _ => 0 };
            if (step == 0 && i + 1 < text.Length && text[i] == '\uD834')
                step = text[++i] switch { '\uDD2A' => 2, '\uDD2B' => -2, _ => 0 };
            if (step == 0 || alteration != 0 && Math.Sign(step) != Math.Sign(alteration))
                return false;
            alteration += step;
        }
        return Math.Abs(alteration) <= 3;
    }

    /// <inheritdoc/>
    public int CompareTo(PitchName other) => Fifths.CompareTo(other.Fifths);

    /// <summary>Plain text: <c>Eb</c>, <c>F##</c>.</summary>
    public override string ToString() => Letters[(int)Letter] + (Alteration >= 0 ? new string('#', Alteration) : new string('b', -Alteration));

    internal static int Modulo(int value, int by) => ((value % by) + by) % by;
}
