// What makes one fingering better than another: a table of weighed terms, and how much of each term a fingering has.
using System.Collections.Immutable;

namespace ChordLang.Fretboard.Fingering;

/// <summary>A row of terms of the cost of a fingering; a negative weight is a preference.</summary>
/// <param name="Name">What is counted.</param>
/// <param name="Of">What each weight of the row is for, comma-separated.</param>
/// <param name="Weights">Cost of one of it, in logarithmic odds of being chosen.</param>
public sealed record FingeringTerms(string Name, string Of, ImmutableArray<double> Weights)
{
    /// <summary>
    /// The table. Source: ours, fitted (conditional logit) to fingerings of chord shapes that players have published and checked on shapes
    /// left out of the fit; no such shape is shipped. The last row is set by us, as players take minor sevenths (common practice): x-1-3-1-2-x and
    /// 5-x-5-5-5-x with a barre.
    /// </summary>
    public static ImmutableArray<FingeringTerms> Table { get; } =
    [
        new("a finger is used", "1, 2, 3, 4", [-1.82, -0.38, -0.72, -0.46]),
        new("lowest finger", "2, 3, 4", [0.75, 0.59, 0.47]),
        new("a finger lies across strings", "1, 2, 3, 4", [-1.30, 1.21, 2.86, 4.44]),
        new("each string beyond two under it", "1, 2, 3, 4", [-2.76, -1.84, -1.77, 2.52]),
        new("a string fretted higher under a barre", "of the first finger, of another", [0.50, 1.09]),
        new("a string not played under a barre", "any", [3.68]),
        new("open strings beside a barre", "of the first finger, of another", [-0.74, -0.26]),
        new("barre of the first finger", "to the highest string, near the nut, flat", [-0.48, 0.33, -0.53]),
        new("two fingers on one fret", "the higher on the lower string, each string apart", [4.22, 0.13]),
        new("strings that the higher finger lies above the lower", "1-2, 2-3, 3-4, others", [1.00, 1.19, 1.14, 0.25]),
        new("strings that the higher finger lies below the lower", "1-2, 2-3, 3-4, others", [-0.54, -0.36, -0.90, -0.02]),
        new("how many fingers", "one, three, four, two beside open strings", [1.47, 0.09, -1.00, 1.31]),
        new("fret 1 without the first finger", "any", [0.61]),
        new("lowest finger beside open strings", "1, 2, 3, 4", [-0.12, -0.95, 0.59, 0.47]),
        new("frets off the rule of one finger a fret", "near the nut with open strings, higher with open strings, without", [0.22, 0.21, 0.99]),
        new("top string of a finger", "1 on string 1 to 6, then 2, 3, 4",
        [
            -1.06, -0.16, 0.30, 0.18, -1.54, 0.45, 0.70, 0.10, 0.39, -1.13, -0.40, -0.03,
            1.16, 0.40, 0.08, -0.91, -0.72, -0.73, -0.80, 0.21, 0.35, -0.95, -0.64, 1.38,
        ]),
        new("the same, beside open strings", "1 on string 1 to 6, then 2, 3, 4",
        [
            -0.68, 0.25, -0.01, -0.15, 1.06, -0.59, -0.84, -0.05, -0.24, -0.16, -1.05, 0.52,
            -0.47, 0.01, 0.30, -0.39, -1.18, 0.28, 1.99, 0.94, 0.58, 1.05, -0.16, 0.30,
        ]),
        new("a barre", "leaves a note of its fret to another finger, on the highest fret, and to the highest string, without a gap",
            [2.05, -1.59, -1.12, 0.19]),
        new("frets between neighbouring fingers", "1-2: 0 1 2 3, then 1-3, 1-4, 2-3, 2-4, 3-4",
        [
            -1.64, -1.42, 1.63, 0.31, 0.56, 0.73, -1.71, 0.50, 0.51, 1.67, -2.01, -2.30,
            -2.40, -1.58, 2.48, 0.10, 1.26, 0.65, -1.47, 0.05, -1.66, -0.05, 1.08, 1.34,
        ]),
        new("a finger where the first could lie across", "without open strings: under a string fretted higher, four fingers side by side", [0.40, 0.50]),
    ];

    /// <summary>How many weights the table has.</summary>
    internal static int Count { get; } = Table.Sum(t => t.Weights.Length);

    private static readonly double[] Flat = [.. Table.SelectMany(t => t.Weights)];

    // Where each row of the table begins.
    private const int Used = 0, Lowest = 4, Across = 7, Width = 11, OverFretted = 15, OverUnplayed = 17, BesideOpen = 18, FirstBarre = 20,
        OneFret = 23, Above = 25, Below = 29, HowMany = 33, NoFirst = 37, LowestOpen = 38, OffRule = 42, TopString = 45, TopStringOpen = 69,
        Barre = 93, Apart = 97, Spared = 121;

    /// <summary>The cost of a candidate.</summary>
    internal static double Cost(ReadOnlySpan<int> frets, ReadOnlySpan<byte> fingers)
    {
        Span<double> amounts = stackalloc double[Count];
        Measure(frets, fingers, amounts);
        var cost = 0.0;
        for (var k = 0; k < amounts.Length; k++)
            cost += amounts[k] * Flat[k];
        return cost;
    }

    /// <summary>Writes how much of each term a candidate has. The thumb counts for nothing here.</summary>
    internal static void Measure(ReadOnlySpan<int> frets, ReadOnlySpan<byte> fingers, Span<double> into)
    {
        into.Clear();
        var grip = new Outline(frets);
        Span<Held> held = stackalloc Held[5];
        Gather(frets, fingers, held);
        int used = 0, before = 0;
        for (var f = 1; f <= 4; f++)
        {
            if (held[f].Strings == 0)
                continue;
            used++;
            into[Used + f - 1]++;
            Alone(f, held[f], grip, into);
            if (held[f].Strings > 1)
                Lying(f, held[f], frets, grip, into);
            if (before == 0)
                LowestOf(f, grip, into);
            else
                Beside(before, held[before], f, held[f], into);
            before = f;
        }
        if (held[1].Strings > 0 && grip.Open == 0)
            Sparing(held, frets, fingers, into);
        if (used == 1) into[HowMany]++;
        if (used == 3) into[HowMany + 1]++;
        if (used == 4) into[HowMany + 2]++;
        if (used == 2 && grip.Open > 0) into[HowMany + 3]++;
    }

    private static void Sparing(ReadOnlySpan<Held> held, ReadOnlySpan<int> frets, ReadOnlySpan<byte> fingers, Span<double> into)
    {
        for (var i = 0; i < fingers.Length; i++)
            if (fingers[i] is > 1 and <= 4 && frets[i] == held[1].Fret && Math.Min(i, held[1].Low) is var from && Math.Max(i, held[1].Low) is var to
                && !FingeringCandidates.LowerNoteBetween(frets, from, to) && frets[from..to].ContainsAnyInRange(held[1].Fret + 1, int.MaxValue))
                into[Spared]++;
        if (held[2].Fret == held[1].Fret && held[3].Fret == held[1].Fret && held[4].Fret == held[1].Fret) into[Spared + 1]++;
    }

    private static void LowestOf(int f, Outline grip, Span<double> into)
    {
        if (f > 1) into[Lowest + f - 2]++;
        if (f > 1 && grip.Lowest == 1) into[NoFirst]++;
        if (grip.Open > 0) into[LowestOpen + f - 1]++;
    }

    private static void Alone(int f, Held held, Outline grip, Span<double> into)
    {
        var nearNut = grip.Open > 0 && grip.Highest <= 5;
        into[OffRule + (nearNut ? 0 : grip.Open > 0 ? 1 : 2)] += Math.Abs((nearNut ? held.Fret : held.Fret - grip.Lowest + 1) - f);
        var fromTop = Math.Min(5, grip.Strings - 1 - held.High);
        into[TopString + 6 * (f - 1) + fromTop]++;
        if (grip.Open > 0) into[TopStringOpen + 6 * (f - 1) + fromTop]++;
    }

    private static void Lying(int f, Held held, ReadOnlySpan<int> frets, Outline grip, Span<double> into)
    {
        int fretted = 0, unplayed = 0, same = 0;
        for (var i = held.Low + 1; i < held.High; i++)
        {
            unplayed += frets[i] < 0 ? 1 : 0;
            fretted += frets[i] > held.Fret ? 1 : 0;
        }
        foreach (var fret in frets)
            same += fret == held.Fret ? 1 : 0;
        var toTop = held.High == grip.Strings - 1;
        into[Across + f - 1]++;
        into[Width + f - 1] += held.Strings - 2;
        into[OverFretted + (f == 1 ? 0 : 1)] += fretted;
        into[OverUnplayed] += unplayed;
        if (grip.Open > 0) into[BesideOpen + (f == 1 ? 0 : 1)]++;
        if (f == 1 && toTop) into[FirstBarre]++;
        if (f == 1 && grip.Lowest <= 2) into[FirstBarre + 1]++;
        if (f == 1 && fretted == 0) into[FirstBarre + 2]++;
        if (same > held.Strings) into[Barre]++;
        if (f > 1 && held.Fret == grip.Highest) into[Barre + 1]++;
        if (f > 1 && held.Fret == grip.Highest && toTop) into[Barre + 2]++;
        if (held.High - held.Low + 1 == held.Strings) into[Barre + 3]++;
    }

    private static void Beside(int f, Held lower, int g, Held upper, Span<double> into)
    {
        var pair = f == 1 ? g - 2 : f == 2 ? g : 5; // 1-2 1-3 1-4 2-3 2-4 3-4
        into[Apart + 4 * pair + Math.Clamp(upper.Fret - lower.Fret, 0, 3)]++;
        var above = Math.Max(0, upper.Low - lower.High);
        if (upper.Fret == lower.Fret)
        {
            if (upper.Low < lower.Low) into[OneFret]++;
            into[OneFret + 1] += Math.Max(0, above - 1);
            return;
        }
        var kind = g - f > 1 ? 3 : f - 1;
        into[Above + kind] += above;
        into[Below + kind] += Math.Max(0, lower.Low - upper.High);
    }

    private static void Gather(ReadOnlySpan<int> frets, ReadOnlySpan<byte> fingers, Span<Held> held)
    {
        for (var i = 0; i < fingers.Length; i++)
            if (fingers[i] is > 0 and <= 4 and var f)
                held[f] = new(frets[i], held[f].Strings == 0 ? i : held[f].Low, i, held[f].Strings + 1);
    }

    private readonly record struct Held(int Fret, int Low, int High, int Strings);

    private readonly struct Outline
    {
        public Outline(ReadOnlySpan<int> frets)
        {
            (Strings, Lowest) = (frets.Length, int.MaxValue);
            foreach (var fret in frets)
            {
                if (fret == 0) Open++;
                if (fret > 0) Lowest = Math.Min(Lowest, fret);
                Highest = Math.Max(Highest, fret);
            }
        }

        public readonly int Strings, Open, Lowest, Highest;
    }
}
