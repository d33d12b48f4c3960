// Finds passing keys in charts that write their basses through, as music does whose voices are led: not only the dominants but all that belongs to them.
using ChordLang.Harmony.Charts;
using ChordLang.Harmony.Weights;

namespace ChordLang.Harmony.Functions;

/// <summary>Weighs, chord by chord and step by step, whether the home key or a passing key on one of the other eleven degrees holds: a conditional random field of twelve states.</summary>
internal static class PassingKeys
{
    // Below this share of slash chords a chart tells roots only, and rules read it better. Chosen on charts with numerals by analysts.
    private const double LeastSlashes = 0.2;
    private const double Sure = 0.45;
    private const int States = 12;

    private static readonly WeightTable Table = WeightTable.Load("applied.tsv");

    /// <summary>What each chord is applied to; null for a chart that the rules read better.</summary>
    public static Applied?[]? Of(KeyedChart keyed)
    {
        if (keyed.Length == 0 || keyed.Chart.Chords.Count(c => c.Chord.Bass is not null) < LeastSlashes * keyed.Length)
            return null;
        var features = new AppliedFeatures(keyed);
        var local = new double[keyed.Length][];
        for (var i = 0; i < local.Length; i++)
        {
            local[i] = new double[States];
            var away = Table.Sum(features.Of(i));
            for (var target = 1; target < States; target++)
                local[i][target] = away + Table.Sum(features.Within(i, target));
        }
        var steps = Steps();
        Applied?[] read = [.. FunctionTagger.Posteriors(local, _ => steps).Select((p, i) => 1 - p[0] > Sure ? Read(keyed, features, i) : null)];
        // A half-diminished chord on its way down a semitone leads to no tonic above it.
        for (var i = 0; i < read.Length; i++)
            if (read[i] is { Diminished: true, Target: null } && keyed.Colours[i] == "h" && keyed.Next(i) is >= 0 and var below && keyed.Motion(i, below) == 11)
                read[i] = null;
        for (var i = 0; i < read.Length; i++)
            if (read[i] is not null && keyed.Colours[i] is "h" or "m7" or "m" && keyed.Next(i) is >= 0 and var next && keyed.Motion(i, next) == 5
                && keyed.Colours[next] == "7" && read[next] is { Diminished: false, Within: null } dominant)
                read[i] = new(dominant.Degree, next, false, 2);     // The related two belongs to the key of its dominant.
        return read;
    }

    private static double[][] Steps()
    {
        var (leave, home, stay, move) = (Table["step home passing"], Table["step passing home"], Table["step passing passing"], Table["step passing other"]);
        return [.. Enumerable.Range(0, States).Select(a => Enumerable.Range(0, States)
            .Select(b => (a, b) switch { (0, 0) => 0, (0, _) => leave, (_, 0) => home, _ => a == b ? stay : move }).ToArray())];
    }

    private static Applied? Read(KeyedChart keyed, AppliedFeatures features, int at)
    {
        var (degree, colour) = (keyed.Degrees[at], keyed.Colours[at]);
        var leads = features.ChiefAt(at) ?? ((features.Nearest(at, 1) ?? features.Nearest(at, -1)) is var (k, _) ? features.ChiefAt(k) : null) ?? Own(keyed, at);
        if (leads is not { } target)
            return null;
        var within = (degree - target + 12) % 12;
        var next = keyed.Next(at);
        var lands = next >= 0 && keyed.Degrees[next] == target && keyed.Colours[next] is not ("o" or "h" or "+");
        return (within, colour) switch
        {
            (7, "7" or "M" or "+") when colour != "M" || !keyed.Chart.Chords[at].Chord.IsAtRest() => new(target, lands ? next : null, false),
            (11, "o" or "h") => new(target, lands ? next : null, true),
            _ => new(target, null, false, within),
        };
    }

    // Where no foreign dominant is near, a chord can only lead by its own kind.
    private static int? Own(KeyedChart keyed, int at)
    {
        var up = keyed.Colours[at] switch { "7" or "M" or "+" => 5, "o" or "h" => 1, _ => 0 };
        var target = (keyed.Degrees[at] + up) % 12;
        return up > 0 && (keyed.Minor[at] ? AppliedChords.MinorTargets : AppliedChords.MajorTargets).Contains(target) ? target : null;
    }
}
