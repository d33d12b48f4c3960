// Follows the key through a chart, chord by chord: a hidden Markov model with the twenty-four keys as its states.
using System.Collections.Immutable;
using ChordLang.Harmony.Charts;
using ChordLang.Harmony.Weights;

namespace ChordLang.Harmony.Keys;

/// <summary>The path of keys through a chart. Keys are numbered 0 to 23: the tonic's pitch class, plus 12 for minor.</summary>
public static class LocalKeys
{
    /// <summary>Number of keys.</summary>
    public const int Count = 24;

    // Tuned on charts with the key of every section: cost of any change, and of each fifth that the signatures lie apart.
    private const double Change = 5.5, PerFifth = 0.3;
    private const double StepShare = 0.7, Floor = 1e-4;

    private static readonly WeightTable Table = WeightTable.Load("localkeys.tsv");

    /// <summary>Log likelihood of each chord, given the chord before it, under each key.</summary>
    public static double[][] Likelihoods(Chart chart) => Likelihoods(chart, Table);

    internal static double[][] Likelihoods(Chart chart, WeightTable table)
    {
        var rows = new double[chart.Chords.Length][];
        // A piece has few pairs of chords, and comes back to them.
        var known = new Dictionary<(int, string, int, string), double[]>();
        for (var i = 0; i < rows.Length; i++)
        {
            var (chord, before) = (chart.Chords[i].Chord, i == 0 ? null : chart.Chords[i - 1].Chord);
            var pair = (chord.Root.PitchClass, chord.Colour(), before?.Root.PitchClass ?? -1, before?.Colour() ?? "");
            if (known.TryGetValue(pair, out rows[i]!))
                continue;
            known[pair] = rows[i] = new double[Count];
            for (var key = 0; key < Count; key++)
            {
                var sign = key < 12 ? "major" : "minor";
                var here = Name(chart, i, key);
                var alone = table[$"{sign} {here}"];
                var step = i == 0 ? alone : table[$"{sign} {Name(chart, i - 1, key)} {here}"];
                rows[i][key] = Math.Log(StepShare * step + (1 - StepShare) * alone + Floor);
            }
        }
        return rows;
    }

    /// <summary>The best path of keys, one a chord (Viterbi).</summary>
    /// <param name="likelihoods">From <see cref="Likelihoods(Chart)"/>.</param>
    /// <param name="home">The key of the whole.</param>
    /// <param name="pull">How much each chord is drawn to the key of the whole, in natural-log units.</param>
    public static ImmutableArray<int> Path(double[][] likelihoods, int home, double pull)
    {
        var n = likelihoods.Length;
        var best = new double[Count];
        var from = new int[n][];
        for (var i = 0; i < n; i++)
        {
            from[i] = new int[Count];
            var next = new double[Count];
            for (var key = 0; key < Count; key++)
            {
                var (top, source) = (best[key], key);
                for (var last = 0; i > 0 && last < Count; last++)
                    if (last != key && best[last] - Change - PerFifth * Apart(last, key) is var score && score > top)
                        (top, source) = (score, last);
                next[key] = top + likelihoods[i][key] + (key == home ? pull : 0);
                from[i][key] = source;
            }
            best = next;
        }
        var path = new int[n];
        for (var i = n - 1; i >= 0; i--)
            path[i] = i == n - 1 ? Array.IndexOf(best, best.Max()) : from[i + 1][path[i + 1]];
        return [.. path];
    }

    private static string Name(Chart chart, int at, int key) =>
        $"{(chart.Chords[at].Chord.Root.PitchClass - key % 12 + 12) % 12}{chart.Chords[at].Chord.Colour()}";

    // Fifths between the two signatures, 0 to 6.
    private static int Apart(int from, int to)
    {
        var fifths = (Signature(to) - Signature(from)) * 7 % 12;
        fifths = (fifths + 12) % 12;
        return Math.Min(fifths, 12 - fifths);
    }

    private static int Signature(int key) => key < 12 ? key : (key + 3) % 12;
}
