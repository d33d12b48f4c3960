// Gives every chord its function: a linear-chain model over the seven functions.
using System.Collections.Frozen;
using System.Collections.Immutable;
using ChordLang.Harmony.Weights;

namespace ChordLang.Harmony.Functions;

/// <summary>A function and how sure it is.</summary>
/// <param name="Function">The function.</param>
/// <param name="Confidence">Posterior probability, 0 to 1.</param>
/// <param name="Other">The function that comes next to it, or null where no other is possible.</param>
public readonly record struct FunctionGuess(HarmonicFunction Function, double Confidence, HarmonicFunction? Other);

/// <summary>Weighs functions with a conditional random field: each chord's features, and each step from function to function by the way that the roots move.</summary>
public static class FunctionTagger
{
    internal static readonly ImmutableArray<HarmonicFunction> All = [.. Enum.GetValues<HarmonicFunction>()];

    // What each function gains where a label is chosen (not in its confidence): frequent ones would otherwise swallow the rare.
    // The log of their rarity among labelled chords, times 0.3: chosen on charts left out of the fit.
    private static readonly double[] RarityLift = [0.40, 1.25, 0.15, 0.90, 1.16, 1.15, 1.08];

    // The model is surer of itself than it is right. Raised to this power its confidences agree with how often it was right on charts it had not
    // been fitted to: they are off by 0.010 on average, by 0.025 without it.
    private const double Calm = 0.8;

    private static readonly WeightTable Table = WeightTable.Load("functions.tsv");

    // What each step from function to function gains, for each way that roots move.
    private static readonly FrozenDictionary<string, double[][]> Steps = FunctionFeatures.StepWays.ToFrozenDictionary(w => w,
        w => All.Select(a => All.Select(b => Table[FunctionFeatures.Step(w, a, b)]).ToArray()).ToArray(), StringComparer.Ordinal);

    // The same by feature: one weight for each function. A feature is looked up once for all of them.
    private static readonly FrozenDictionary<string, double[]> ByFeature = Table.Names.Where(n => !n.StartsWith("step ", StringComparison.Ordinal)).Select(n => n[(n.IndexOf(' ', StringComparison.Ordinal) + 1)..]).Distinct()
        .ToFrozenDictionary(f => f, f => All.Select(function => Table[$"{function} {f}"]).ToArray(), StringComparer.Ordinal);

    /// <summary>One function a chord: the most probable at each place.</summary>
    public static ImmutableArray<FunctionGuess> Tag(KeyedChart keyed) => Tag(keyed, new WeighedChart(keyed).Local);

    /// <summary>What speaks for each function at one chord.</summary>
    internal static double[] Weigh(KeyedChart keyed, int at)
    {
        var sums = new double[All.Length];
        foreach (var feature in FunctionFeatures.Of(keyed, at))
            if (ByFeature.TryGetValue(feature, out var weights))
                for (var f = 0; f < weights.Length; f++)
                    sums[f] += weights[f];
        return sums;
    }

    /// <summary>The functions of a chart whose chords have been weighed one by one.</summary>
    internal static ImmutableArray<FunctionGuess> Tag(KeyedChart keyed, double[][] local) =>
        [.. Posteriors(local, i => Steps[FunctionFeatures.StepWay(keyed, i)]).Select((p, i) => Guess(p, keyed, i))];

    /// <summary>The function that is said in the end, where theory knows better than a count of labels: of the second and fourth degree, of an old mode, of a blues tonic.</summary>
    internal static HarmonicFunction Settle(KeyedChart keyed, int at, HarmonicFunction function)
    {
        // The second degree between the tonic and the third leads to no fifth below: it only fills the step.
        if (function == HarmonicFunction.Dominant && Fills(keyed, at))
            return HarmonicFunction.Colour;
        // The tonic of an old mode is home in its own vamp, as is that of a blues before the chord a semitone below; the mode's other chords colour it.
        if (keyed.BelongsToMode(at) && keyed.Degrees[at] == 0 || function == HarmonicFunction.DominantSubstitute && AppliedChords.IsBluesTonic(keyed, at))
            return HarmonicFunction.Tonic;
        if (function == HarmonicFunction.Tonic && keyed.BelongsToMode(at) && Beside(keyed, keyed.Previous(at)) && Beside(keyed, keyed.Next(at)))
            return HarmonicFunction.Colour;
        if (keyed.Degrees[at] != 5 || keyed.Colours[at] is not ("M" or "m" or "m7"))
            return function;
        var (minor, next, before) = (keyed.Minor[at], keyed.Next(at), keyed.Previous(at));
        return function switch
        {
            // In minor it is at home, so that no door leads back; and on its way to the second degree it is no mere colour.
            HarmonicFunction.Backdoor when minor => HarmonicFunction.Subdominant,
            // Before the dominant of major it has left the tonic, unless its own dominant made it a place of rest.
            HarmonicFunction.Colour or HarmonicFunction.Tonic or HarmonicFunction.Passing when !minor && keyed.Colours[at] == "M" && next >= 0 && keyed.Degrees[next] == 7 && keyed.Colours[next] is "7" or "M" or "s" && !keyed.IsLedTo(at) => HarmonicFunction.Subdominant,
            HarmonicFunction.Colour when minor && next >= 0 && keyed.Degrees[next] == 2 => HarmonicFunction.Subdominant,
            // It rests only where a dominant has led to it.
            HarmonicFunction.Tonic when !minor && keyed.Colours[at] == "M" && (before < 0 || keyed.Colours[before] is not ("7" or "o" or "+")) => HarmonicFunction.Subdominant,
            _ => function,
        };
    }

    /// <summary>True for a minor second degree between the tonic and the third.</summary>
    internal static bool Fills(KeyedChart keyed, int at) =>
        !keyed.Minor[at] && keyed.Degrees[at] == 2 && keyed.Colours[at] is "m" or "m7"
        && (Neighbour(keyed, keyed.Previous(at)), Neighbour(keyed, keyed.Next(at))) is (0, 4) or (4, 0);

    // The degree of a tonic or of a third with its minor triad; else -1.
    private static int Neighbour(KeyedChart keyed, int at) =>
        at >= 0 && !keyed.Minor[at] && (keyed.Degrees[at], keyed.Colours[at]) is (0, "M" or "7") or (4, "m" or "m7") ? keyed.Degrees[at] : -1;

    private static bool Beside(KeyedChart keyed, int at) => at < 0 || keyed.Degrees[at] == 0 && keyed.BelongsToMode(at);

    // What theory settles is as sure as the label it takes and the one it gives together, and so is what theory leaves over.
    private static FunctionGuess Guess(double[] posterior, KeyedChart keyed, int at)
    {
        var possible = FunctionLimits.Of(keyed, at);
        double Weight(HarmonicFunction f) => Math.Pow(posterior[(int)f], Calm);
        var sum = possible.Sum(Weight);
        var chosen = possible.MaxBy(f => Math.Log(posterior[(int)f] + 1e-12) + RarityLift[(int)f]);
        var settled = Settle(keyed, at, chosen);
        var share = (Weight(settled) + (settled == chosen ? 0 : Weight(chosen))) / sum;
        return new(settled, Math.Round(Math.Min(1, share), 3), possible.Where(f => f != settled).Cast<HarmonicFunction?>().MaxBy(f => Weight(f!.Value)));
    }

    /// <summary>Posterior of each state at each place: forward and backward sums in the log domain.</summary>
    /// <param name="local">What speaks for each state at each place.</param>
    /// <param name="step">What each step from state to state gains on its way into a place.</param>
    internal static double[][] Posteriors(double[][] local, Func<int, double[][]> step)
    {
        var (n, m) = (local.Length, local.Length == 0 ? 0 : local[0].Length);
        var (forward, backward) = (new double[n][], new double[n][]);
        var terms = new double[m];
        for (var i = 0; i < n; i++)
        {
            forward[i] = new double[m];
            var into = i > 0 ? step(i) : [];
            for (var b = 0; b < m; b++)
            {
                for (var a = 0; i > 0 && a < m; a++)
                    terms[a] = forward[i - 1][a] + into[a][b];
                forward[i][b] = local[i][b] + (i > 0 ? LogSum(terms) : 0);
            }
        }
        for (var i = n - 1; i >= 0; i--)
        {
            backward[i] = new double[m];
            var onward = i + 1 < n ? step(i + 1) : [];
            for (var a = 0; i + 1 < n && a < m; a++)
            {
                for (var b = 0; b < m; b++)
                    terms[b] = onward[a][b] + local[i + 1][b] + backward[i + 1][b];
                backward[i][a] = LogSum(terms);
            }
        }
        for (var i = 0; i < n; i++)
        {
            for (var a = 0; a < m; a++)
                terms[a] = forward[i][a] + backward[i][a];
            var sum = LogSum(terms);
            for (var a = 0; a < m; a++)
                forward[i][a] = Math.Exp(forward[i][a] + backward[i][a] - sum);
        }
        return forward;
    }

    private static double LogSum(double[] terms)
    {
        var (most, sum) = (double.NegativeInfinity, 0.0);
        foreach (var term in terms)
            most = Math.Max(most, term);
        foreach (var term in terms)
            sum += Math.Exp(term - most);
        return most + Math.Log(sum);
    }
}
