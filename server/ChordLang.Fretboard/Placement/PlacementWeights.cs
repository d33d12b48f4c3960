// What makes one place for a note better than another: a table of weights.
using System.Collections.Immutable;

namespace ChordLang.Fretboard.Placement;

/// <summary>A row of the cost of a placement; a negative weight is a preference.</summary>
/// <param name="Says">What it is about, in plain words.</param>
/// <param name="Of">What each weight is for.</param>
/// <param name="Weights">Cost of one of it.</param>
public sealed record PlacementWeights(string Says, string Of, ImmutableArray<double> Weights)
{
    /// <summary>
    /// The table. Source: ours, fitted (averaged structured perceptron) to placements by human arrangers and checked on pieces left out of
    /// the fit; none of them is shipped. The rows about cut notes and held grips are set by us, above what the fit found, because a note
    /// that is told to sound must sound.
    /// </summary>
    public static ImmutableArray<PlacementWeights> Table { get; } =
    [
        new("which frets the notes lie on", "frets 0 to 15 and above: alone, highest, lowest, inner",
        [
            0.11, -0.60, 0.19, -0.74, 0.89, 0.05, -0.82, -0.10, 0.65, -0.80, -0.17, 0.76, 0.34, 0.00, 0.39, 0.63,
            -0.27, -0.25, -0.61, -0.62, -0.22, 0.52, 0.40, 0.18, 0.16, -0.15, 0.87, -0.21, 0.70, 0.47, 0.86, 1.33,
            -0.31, -0.33, -0.57, -0.54, -0.07, -0.15, -0.12, 0.07, -0.11, 0.28, 0.22, 0.36, 0.77, 0.36, 0.40, 1.59,
            -0.29, -0.29, -0.64, -0.47, -0.23, 0.28, -0.26, 0.12, 0.20, -0.20, 0.58, 0.23, 0.87, 0.40, 0.87, 1.65,
        ]),
        new("open strings", "strings 1 to 6", [0.43, -0.42, -0.16, -0.33, -0.10, 0.00]),
        new("which strings carry melody and bass", "strings 1 to 6: alone, highest, lowest, inner",
        [
            -0.20, -0.13, -0.17, 0.57, -0.45, 0.21, -0.55, 0.11, 0.67, 0.64, 0.78, 0.66,
            -0.59, -0.31, -0.49, -0.27, -0.02, 0.76, -0.80, -0.48, -0.09, 0.18, 0.92, 1.12,
        ]),
        new("how wide the grips are", "frets 0 to 6, square of 100 mm", [-0.06, -0.06, -0.27, 0.04, 0.92, 1.69, 1.33, 1.36]),
        new("how many fingers the grips take", "0 to 4, a barre", [-0.59, -0.10, 0.01, 0.37, 0.64, 0.09]),
        new("how the strings of a grip lie", "a string skipped, out of order, open beside fret 4, beside fret 7, three neighbours",
            [0.16, 0.96, 0.10, 0.61, -0.70]),
        new("notes nearby that the hand position does not reach", "within 1, 2.5, 5 quarters: share, its square, then four steps each",
            [0.69, 0.48, 0.69, 0.42, 0.23, 0.56, 0.03, 0.20, 0.47, 0.66, 0.06, 0.09, 0.59, 0.19, 0.01, -0.03, 0.60, 0.31]),
        new("shifts of the hand", "0 to 9 frets: within a quarter of a quarter, half, one, longer; each fret towards the nut",
        [
            -0.10, -0.08, -0.15, 0.12, 0.65, 0.73, 0.26, 0.80, 0.27, 0.65, -0.04, 0.13, 0.09, 0.43, 0.63, 0.63, 1.11, 0.88, 0.88, 0.88,
            -0.16, -0.12, -0.06, 0.09, 0.09, 0.25, 0.89, 0.13, 0.65, 0.12, -0.21, -0.17, -0.15, -0.10, 0.05, 0.47, 0.40, 0.31, -0.29, 0.34, 0.24,
        ]),
        new("the same note on the same string as before", "same within 1, 4, 16 quarters, longer; another string likewise",
            [-0.31, -0.19, -0.16, -0.15, 0.31, 0.19, 0.16, 0.15]),
        new("notes that are cut while they should sound", "a cut", [3.0]),
        new("grips with the notes that are held", "frets 0 to 7, out of reach, square of 100 mm, more than four fingers, four",
            [0.22, -0.10, -0.28, 0.35, 0.57, -0.17, 0.14, 0.23, 3.0, 0.44, 2.0, 0.51]),
    ];

    internal const int Fret = 0, Open = 64, Strings = 70, Width = 94, Needed = 102, Lie = 108, Reach = 113, Shift = 131, Again = 172, Cut = 180,
        Held = 181, Count = 193;

    internal static readonly double[] Flat = [.. Table.SelectMany(t => t.Weights)];
}
