// Finds the key of a chart from its chords alone, and where it changes.
using System.Collections.Immutable;
using ChordLang.Harmony.Charts;
using ChordLang.Harmony.Weights;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Keys;

/// <summary>A key and from which bar it holds.</summary>
/// <param name="FromBar">First bar.</param>
/// <param name="Key">The key.</param>
/// <param name="Given">True where the piece says so.</param>
/// <param name="Confidence">0 to 1; 1 where given.</param>
public sealed record KeySpan(int FromBar, Key Key, bool Given, double Confidence);

/// <summary>The keys of a chart.</summary>
/// <param name="Home">The key of the whole, or null for a chart without chords.</param>
/// <param name="Spans">Which key holds from which bar on, in order of bars.</param>
public sealed record KeyPlan(Key? Home, ImmutableArray<KeySpan> Spans)
{
    /// <summary>The key that holds in a bar.</summary>
    public Key? At(int bar)
    {
        int low = 0, high = Spans.Length - 1;
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            if (Spans[middle].FromBar <= bar) low = middle; else high = middle - 1;
        }
        return Spans.IsEmpty ? Home : Spans[low].Key;
    }
}

/// <summary>Finds keys.</summary>
public static class KeyFinder
{
    private const double FirstPull = 0.1;

    // Flattens the likelihoods of a passage into a confidence; chords of one passage are not independent witnesses.
    private const double Evidence = 0.25;

    private static readonly WeightTable Weights = WeightTable.Load("keys.tsv");

    /// <summary>The keys of a chart; where some are given, they are what holds.</summary>
    /// <param name="chart">The chords.</param>
    /// <param name="given">Keys that the piece states, in order of bars; signatures without tonic are taken as a hint.</param>
    public static KeyPlan Find(Chart chart, ImmutableArray<KeySpan> given)
    {
        if (given.Any(g => g.Key.Tonic is not null))
        {
            var spans = given.Where(g => g.Key.Tonic is not null).Select(g => g with { Given = true, Confidence = 1 }).ToImmutableArray();
            return new(Longest(spans, chart), spans);
        }
        if (chart.Chords.IsEmpty)
            return new(null, []);
        var scores = Scores(chart, given);
        var home = Array.IndexOf(scores, scores.Max());
        var likelihoods = LocalKeys.Likelihoods(chart);
        var pull = FirstPull;
        var path = LocalKeys.Path(likelihoods, home, pull);
        // The key of the whole is the one that holds longest; a modulation that would outlast it is a colour of home.
        while (Most(path, chart) != home)
            path = LocalKeys.Path(likelihoods, home, pull *= 2);
        return new(KeyOf(home), Spans(chart, path, likelihoods, home, Math.Min(Share(scores), Witnesses(chart))));
    }

    // One weight for each of the 24 keys.
    private static double[] Scores(Chart chart, ImmutableArray<KeySpan> hints)
    {
        const double Signature = 30;
        var scores = new double[LocalKeys.Count];
        for (var key = 0; key < scores.Length; key++)
        {
            foreach (var (name, value) in KeyFeatures.Of(chart, key % 12, key < 12 ? Mode.Major : Mode.Minor))
                scores[key] += Weights[name] * value;
            if (!hints.IsEmpty && (hints[0].Key.Fifths - KeyOf(key).Fifths) % 12 == 0)
                scores[key] += Signature;
        }
        return scores;
    }

    private static double Share(double[] scores) => 1 / scores.Sum(s => Math.Exp(s - scores.Max()));

    // The shares are calibrated on whole tunes. A chord or two belong to many keys, whichever is likeliest: each further root halves the doubt.
    private static double Witnesses(Chart chart) => 1 - Math.Pow(0.5, chart.Chords.Select(c => c.Chord.Root.PitchClass).Distinct().Count());

    private static int Most(ImmutableArray<int> path, Chart chart)
    {
        var bars = new int[LocalKeys.Count];
        for (var i = 0; i < path.Length; i++)
            if (i == 0 || path[i] != path[i - 1])
            {
                var end = i;
                while (end < path.Length && path[end] == path[i])
                    end++;
                bars[path[i]] += (end < path.Length ? chart.Chords[end].Bar : chart.Chords[^1].Bar + 1) - chart.Chords[i].Bar;
            }
        return Array.IndexOf(bars, bars.Max());
    }

    private static ImmutableArray<KeySpan> Spans(Chart chart, ImmutableArray<int> path, double[][] likelihoods, int home, double sure)
    {
        var spans = ImmutableArray.CreateBuilder<KeySpan>();
        for (var i = 0; i < path.Length;)
        {
            var end = i;
            var sums = new double[LocalKeys.Count];
            while (end < path.Length && path[end] == path[i])
            {
                for (var key = 0; key < sums.Length; key++)
                    sums[key] += Evidence * likelihoods[end][key];
                end++;
            }
            var confidence = path[i] == home ? sure : 1 / sums.Sum(s => Math.Exp(s - sums[path[i]]));
            // Two changes in one bar: the later holds from that bar on.
            if (spans.Count > 0 && spans[^1].FromBar == chart.Chords[i].Bar)
                spans.RemoveAt(spans.Count - 1);
            if (spans.Count == 0 || spans[^1].Key != KeyOf(path[i]))
                spans.Add(new(chart.Chords[i].Bar, KeyOf(path[i]), false, Math.Round(confidence, 3)));
            i = end;
        }
        return spans.ToImmutable();
    }

    private static Key? Longest(ImmutableArray<KeySpan> spans, Chart chart)
    {
        var last = chart.Chords.IsEmpty ? 1 : chart.Chords[^1].Bar + 1;
        return spans.Select((s, i) => (s.Key, Bars: (i + 1 < spans.Length ? spans[i + 1].FromBar : Math.Max(last, s.FromBar + 1)) - s.FromBar))
            .GroupBy(s => s.Key).MaxBy(g => g.Sum(s => s.Bars))?.Key;
    }

    // The tonics that key signatures up to six flats or sharps allow, flats where both do. Common practice.
    private static Key KeyOf(int key) => key < 12
        ? Key.Of(PitchName.Nearest(key, 0), Mode.Major)
        : Key.Of(PitchName.Nearest(key - 12, 3), Mode.Minor);
}
