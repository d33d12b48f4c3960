// Degrees as a teacher says them, for messages that are read aloud.
namespace ChordLang.Theory.Pitches;

/// <summary>Degrees in words.</summary>
public static class DegreeWords
{
    private static readonly string[] Numbers =
    [
        "", "root", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave", "ninth", "tenth", "eleventh", "twelfth", "thirteenth",
        "fourteenth", "fifteenth",
    ];

    /// <summary>The words without an article: <c>minor third</c>, <c>flat seventh</c>, <c>sharp eleventh</c>. Common practice of jazz teaching.</summary>
    public static string Spoken(this Degree degree) => (degree.Number, degree.Alteration) switch
    {
        (3, 0) => "major third",
        (3, -1) => "minor third",
        (5, -1) => "diminished fifth",
        (5, 1) => "augmented fifth",
        (7, 0) => "major seventh",
        (7, -1) => "minor seventh",
        (7, -2) => "diminished seventh",
        (_, 0) => Numbers[degree.Number],
        (_, 1) => "sharp " + Numbers[degree.Number],
        (_, 2) => "double-sharp " + Numbers[degree.Number],
        (_, -1) => "flat " + Numbers[degree.Number],
        _ => "double-flat " + Numbers[degree.Number],
    };
}
