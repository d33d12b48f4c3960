// What each of the twelve pitches is to each family of chords.
using System.Collections.Immutable;

namespace ChordLang.Theory.Chords;

/// <summary>A family of chords that take the same tensions.</summary>
/// <param name="Third">Its third or what stands for it: 3, b3, 4, 2, or - for none.</param>
/// <param name="Fifth">5, b5 or #5; * for any.</param>
/// <param name="Seventh">6, b7, 7, bb7, or - for none.</param>
/// <param name="Roles">One letter an interval, 0 to 11 semitones: e essential, o optional, t tension, x contradiction.</param>
/// <param name="Source">Where the row comes from.</param>
internal sealed record RoleRow(string Third, string Fifth, string Seventh, string Roles, string Source);

/// <summary>
/// Available tensions and avoided notes by chord family. Sources, from memory: B. Nettles and R. Graf, The Chord Scale Theory and Jazz
/// Harmony (1997), available tensions; M. Levine, The Jazz Theory Book (1995), chapters on chord scales and on voicings. What the symbol
/// itself names is laid over the row by the reader; the first row that fits counts.
/// </summary>
internal static class RoleTable
{
    private const string Scales = "Nettles and Graf, available tensions; Levine, chord scales; from memory";
    private const string Practice = "common practice";

    public static readonly ImmutableArray<RoleRow> Rows =
    [   //                        1  b9 9  b3 3  11 b5 5  b6 6  b7 7
        new("3", "5", "b7", Read("o  t  t  t  e  x  t  o  t  t  e  x"), Scales),
        new("3", "b5", "b7", Read("o  t  t  t  e  x  e  x  t  t  e  x"), Scales),
        new("3", "#5", "b7", Read("o  t  t  t  e  x  t  x  e  x  e  x"), Scales),
        new("3", "-", "b7", Read("o  t  t  t  e  x  t  x  t  x  e  x"), Scales),
        new("3", "5", "7", Read("o  x  t  x  e  x  t  o  x  t  x  e"), Scales),
        new("3", "b5", "7", Read("o  x  t  x  e  x  e  x  x  t  x  e"), Scales),
        new("3", "#5", "7", Read("o  x  t  x  e  x  t  x  e  t  x  e"), Scales),
        new("3", "*", "6", Read("o  x  t  x  e  x  t  o  x  e  x  t"), Scales),
        // A plain letter is read as major: a minor seventh would make it a dominant, another function.
        new("3", "5", "-", Read("o  x  t  x  e  x  t  o  x  t  x  t"), Practice),
        new("3", "b5", "-", Read("o  x  t  x  e  x  e  x  x  t  t  t"), Practice),
        new("3", "#5", "-", Read("o  x  t  x  e  x  t  x  e  x  t  t"), Practice),
        new("3", "-", "-", Read("o  x  t  x  e  x  t  x  x  t  x  t"), Practice),
        new("b3", "5", "b7", Read("o  x  t  e  x  t  x  o  x  t  e  x"), Scales),
        new("b3", "b5", "b7", Read("o  x  t  e  x  t  e  x  t  x  e  x"), Scales),
        new("b3", "#5", "b7", Read("o  x  t  e  x  t  x  x  e  x  e  x"), Scales),
        new("b3", "b5", "bb7", Read("o  x  t  e  x  t  e  x  t  e  x  t"), Scales),
        new("b3", "b5", "7", Read("o  x  t  e  x  t  e  x  t  x  x  e"), Scales),
        new("b3", "*", "7", Read("o  x  t  e  x  t  x  o  x  t  x  e"), Scales),
        new("b3", "*", "6", Read("o  x  t  e  x  t  x  o  x  e  x  t"), Scales),
        new("b3", "b5", "-", Read("o  x  t  e  x  t  e  x  t  t  x  t"), Practice),
        new("b3", "#5", "-", Read("o  x  t  e  x  t  x  x  e  x  t  t"), Practice),
        new("b3", "*", "-", Read("o  x  t  e  x  t  x  o  x  t  t  t"), Practice),
        // Over a suspended dominant the third may sound above the fourth (Levine, sus chords; from memory).
        new("4", "*", "b7", Read("o  t  t  x  t  e  x  o  t  t  e  x"), Scales),
        new("4", "*", "7", Read("o  x  t  x  x  e  x  o  x  t  x  e"), Practice),
        new("4", "*", "*", Read("o  x  t  x  x  e  x  o  x  t  t  x"), Practice),
        new("2", "*", "*", Read("o  x  e  x  x  t  x  o  x  t  t  t"), Practice),
        new("-", "*", "b7", Read("o  t  t  x  t  t  x  o  t  t  e  x"), Practice),
        new("-", "*", "*", Read("o  x  x  x  x  x  x  o  x  x  x  x"), Practice),
    ];

    /// <summary>A named degree that shuts out another pitch: who names a b9 does not want the 9 (common practice).</summary>
    public static readonly ImmutableArray<(string Named, string Out)> Exclusions =
    [
        ("9", "b9 #9"), ("b9", "9"), ("#9", "9"), ("13", "b13"), ("6", "b13"), ("b13", "13"), ("11", "#11"), ("#11", "11"), ("4", "#11"),
        ("b5", "5"), ("#5", "5"),
    ];

    /// <summary>The first row that fits.</summary>
    public static RoleRow For(string third, string fifth, string seventh) =>
        Rows.First(r => r.Third == third && Fits(r.Fifth, fifth) && Fits(r.Seventh, seventh) || r.Third == "-" && r.Fifth == "*" && r.Seventh == "*");

    private static bool Fits(string pattern, string value) => pattern == "*" || pattern == value;

    private static string Read(string spaced) => spaced.Replace(" ", "", StringComparison.Ordinal);
}
