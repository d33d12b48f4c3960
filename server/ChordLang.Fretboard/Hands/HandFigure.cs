// Every number the hand model rests on, with where it comes from, so that nobody takes a guess for a measurement.
using System.Collections.Immutable;

namespace ChordLang.Fretboard.Hands;

/// <summary>Where a figure comes from.</summary>
public enum FigureOrigin
{
    /// <summary>Measured and published.</summary>
    Published,
    /// <summary>A fact of the trade.</summary>
    CommonPractice,
    /// <summary>Chosen by this project; a parameter, not a measurement.</summary>
    Ours,
}

/// <summary>One figure of the hand model.</summary>
/// <param name="Name">What it measures.</param>
/// <param name="Value">Its value.</param>
/// <param name="Unit">mm, degrees, fingers, frets, bits a second or a ratio.</param>
/// <param name="Origin">Published, common practice or ours.</param>
/// <param name="Source">The publication, or why this value was chosen.</param>
public sealed record HandFigure(string Name, double Value, string Unit, FigureOrigin Origin, string Source)
{
    private const string FingerStudy = "Chatzioglou et al. 2024, 51 young adults, means";
    private const string PairChoice =
        "no published stretch limit by finger pair is known; a parameter of the hand, set so that the grips that players publish stay within it";

    /// <summary>All figures, in the order a reader wants them.</summary>
    public static ImmutableArray<HandFigure> All { get; } =
    [
        new("length of the first finger", 63.9, "mm", FigureOrigin.Published, FingerStudy),
        new("length of the second finger", 70.7, "mm", FigureOrigin.Published, FingerStudy),
        new("length of the third finger", 65.5, "mm", FigureOrigin.Published, FingerStudy),
        new("length of the little finger", 53.3, "mm", FigureOrigin.Published, FingerStudy),
        new("largest angle between first and second finger", 17.2, "degrees", FigureOrigin.Published, FingerStudy),
        new("largest angle between second and third finger", 14.3, "degrees", FigureOrigin.Published, FingerStudy),
        new("largest angle between third and little finger", 32.1, "degrees", FigureOrigin.Published, FingerStudy),
        new("fingers on the strings", 4, "fingers", FigureOrigin.CommonPractice, "the thumb stays behind the neck unless it is asked over it"),
        new("frets of one hand position", 4, "frets", FigureOrigin.CommonPractice, "one finger a fret"),
        new("fingers left beside a thumb over the neck", 3, "fingers", FigureOrigin.Ours,
            "the turned wrist takes the reach of one finger; five digits at once are never proposed"),
        .. Hand.MediumReach.SelectMany(r => new[]
        {
            new HandFigure($"comfortable reach, {r.Pair}", r.Comfortable, "mm", FigureOrigin.Ours, PairChoice),
            new HandFigure($"largest reach, {r.Pair}", r.Limit, "mm", FigureOrigin.Ours, PairChoice),
        }),
        new("rate of a shift", Shift.BitsPerSecond, "bits a second", FigureOrigin.Ours,
            "Fitts 1954 found about 10 bits a second for tapping at sight (from memory); a player knows the neck, so more is granted here"),
        new("rate of a shift of a whole grip", Shift.GripBitsPerSecond, "bits a second", FigureOrigin.Ours,
            "the 10 bits of Fitts 1954 (from memory) and no more: three or four fingers have to land at once, and nobody plays on before all of them do"),
        new("frets of one hand position, the little finger stretched", Shift.FretsOfPosition, "frets", FigureOrigin.CommonPractice, "one finger a fret, and one more"),
        new("small hand against medium", Hand.SmallRatio, "ratio", FigureOrigin.Ours, "round figure; declare your own reach instead"),
        new("large hand against medium", Hand.LargeRatio, "ratio", FigureOrigin.Ours, "round figure; declare your own reach instead"),
    ];
}
