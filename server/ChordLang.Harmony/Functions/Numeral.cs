// Writes the Roman numeral of a chord in its key.
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Functions;

/// <summary>Roman numerals. Common practice of jazz charts: counted against the major scale of the tonic, lower case for a minor third.</summary>
public static class Numeral
{
    private static readonly string[] Romans = ["I", "II", "III", "IV", "V", "VI", "VII"];

    /// <summary>The numeral of a chord: <c>ii7</c>, <c>bVImaj7</c>, <c>#iv°7</c>.</summary>
    public static string Of(Chord chord, PitchName tonic)
    {
        var steps = ((int)chord.Root.Letter - (int)tonic.Letter + 7) % 7;
        var alteration = (chord.Root.PitchClass - tonic.PitchClass - new Degree(steps + 1, 0).Interval + 30) % 12 - 6;
        // A major chord beside the key is counted from above, also where its sharp is the easier spelling: E in A flat is the flat sixth.
        if (alteration == 1 && steps is 0 or 1 or 4 or 5 && chord.Family() is ChordFamily.Major or ChordFamily.Dominant)
            (steps, alteration) = (steps + 1, -1);
        return new string('b', Math.Max(0, -alteration)) + new string('#', Math.Max(0, alteration)) + Cased(chord, Romans[steps]) + Quality(chord);
    }

    /// <summary>The numeral of a target under a slash: <c>V</c>, <c>ii</c>. Of a key's own degree, the case is that of its plain triad.</summary>
    public static string OfDegree(int interval, bool minorKey)
    {
        string[] major = ["I", "bII", "ii", "bIII", "iii", "IV", "#iv", "V", "bVI", "vi", "bVII", "vii"];
        string[] minor = ["i", "bII", "ii", "bIII", "iii", "iv", "#iv", "V", "bVI", "vi", "bVII", "vii"];
        return (minorKey ? minor : major)[interval];
    }

    /// <summary>The numeral of a chord by the place of its root, however it is spelled, without its quality: in a passing key, or of a tritone substitute.</summary>
    /// <param name="chord">The chord.</param>
    /// <param name="interval">Its root above the tonic, 0 to 11.</param>
    /// <param name="falls">True for a chord that falls a semitone, so that the sharp fourth is called the flat fifth.</param>
    public static string Within(Chord chord, int interval, bool falls = false)
    {
        string[] romans = ["I", "bII", "II", "bIII", "III", "IV", falls ? "bV" : "#IV", "V", "bVI", "VI", "bVII", "VII"];
        return romans[interval].TrimEnd('I', 'V') + Cased(chord, romans[interval].TrimStart('b', '#'));
    }

    /// <summary>What follows the letter of a numeral: <c>7</c>, <c>maj7</c>, <c>ø7</c>, <c>°7</c>, <c>+</c>, <c>sus</c>.</summary>
    public static string Quality(Chord chord) => chord.Family() switch
    {
        ChordFamily.Dominant => !chord.Asks(4) ? "7sus" : !chord.Asks(8) || chord.Asks(7) ? "7" : chord.Asks(6) && chord.Asks(1) ? "7alt" : "7#5",
        ChordFamily.HalfDiminished => "ø7",
        ChordFamily.Diminished => chord.Asks(9) ? "°7" : "°",
        ChordFamily.Augmented => "+",
        ChordFamily.Suspended => "sus",
        ChordFamily.Power => "5",
        _ => chord.Asks(10) ? "7" : chord.Asks(11) ? "maj7" : chord.Asks(9) ? "6" : "",
    };

    private static string Cased(Chord chord, string roman) =>
        chord.Family() is ChordFamily.Minor or ChordFamily.HalfDiminished or ChordFamily.Diminished ? roman.ToLowerInvariant() : roman;

    /// <summary>True for the modes with a minor third.</summary>
    public static bool IsMinor(Mode mode) => mode is Mode.Minor or Mode.Aeolian or Mode.Dorian or Mode.Phrygian or Mode.Locrian;
}
