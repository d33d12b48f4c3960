// Says of every chord of a chart what it does: numeral, function, roles, where it leads, and why.
using System.Collections.Immutable;
using ChordLang.Harmony.Charts;
using ChordLang.Harmony.Keys;
using ChordLang.Theory.Keys;

namespace ChordLang.Harmony.Functions;

/// <summary>What one chord does.</summary>
/// <param name="Key">The key it is read in.</param>
/// <param name="Degree">Semitones of its root above the tonic, 0 to 11.</param>
/// <param name="Numeral">Roman numeral; over a numeral where it is applied: <c>V7/V</c>.</param>
/// <param name="Function">Its function.</param>
/// <param name="Confidence">How sure the function is, 0 to 1.</param>
/// <param name="Roles">Names of its roles, the one that says most first.</param>
/// <param name="Target">Index of the chord it leads to, or null.</param>
/// <param name="Reason">One sentence, at most 25 words.</param>
/// <param name="Reasons">The same for each of its roles, in their order.</param>
public sealed record ChordFunction(
    Key Key, int Degree, string Numeral, HarmonicFunction Function, double Confidence, ImmutableArray<string> Roles, int? Target, string Reason,
    ImmutableArray<RoleReason> Reasons);

/// <summary>Why a chord has a role.</summary>
/// <param name="Name">The role.</param>
/// <param name="Target">Index of the chord it leads to or leans on, or null.</param>
/// <param name="Sentence">One sentence, at most 25 words.</param>
public sealed record RoleReason(string Name, int? Target, string Sentence);

/// <summary>Reads functions.</summary>
public static class FunctionReader
{
    /// <summary>One reading a chord, in order of the chart.</summary>
    public static ImmutableArray<ChordFunction> Read(Chart chart, KeyPlan keys) => Of(new WeighedChart(KeyedChart.Of(chart, keys)), keys);

    /// <summary>The same of a chart that was weighed already.</summary>
    public static ImmutableArray<ChordFunction> Of(WeighedChart weighed, KeyPlan keys)
    {
        var keyed = weighed.Keyed;
        var (chart, guesses) = (keyed.Chart, FunctionTagger.Tag(keyed, weighed.Local));
        var roles = ChordRoles.Of(keyed);
        var readings = ImmutableArray.CreateBuilder<ChordFunction>(keyed.Length);
        for (var i = 0; i < keyed.Length; i++)
        {
            var key = keys.At(chart.Chords[i].Bar)!;
            var target = roles[i].Select(r => r.Target).FirstOrDefault(t => t is not null);
            readings.Add(new(key, keyed.Degrees[i], NumeralOf(keyed, i, key), guesses[i].Function, guesses[i].Confidence,
                [.. roles[i].Select(r => r.Name)], target, FunctionReason.Of(keyed, i, key, guesses[i], roles[i]),
                [.. roles[i].Select(r => new RoleReason(r.Name, r.Target, FunctionReason.OfRole(keyed, i, key, r)))]));
        }
        return readings.ToImmutable();
    }

    private static string NumeralOf(KeyedChart keyed, int at, Key key)
    {
        var chord = keyed.Chart.Chords[at].Chord;
        // A substitute is called by the step that it falls from, whatever it is spelled as: E7 to Ebmaj7 is bII7.
        if (ChordRoles.IsSubstitute(keyed, at))
            return Numeral.Within(chord, keyed.Degrees[at], true) + Numeral.Quality(chord);
        if (keyed.AppliedAt(at) is not { } applied)
            return Numeral.Of(chord, key.Tonic ?? default);
        var head = applied.Within is { } within ? Numeral.Within(chord, within) : applied.Diminished ? "vii" : "V";
        var goal = applied.Within is null ? applied.Target : applied.Target is { } dominant ? keyed.AppliedAt(dominant)?.Target : null;
        var degree = Numeral.OfDegree(applied.Degree, keyed.Minor[at]);
        // Of a key's own degree the case is that of its triad; the tonic of the next key says its own, and so does II7 in minor.
        if (goal is { } there && (keyed.Minor[at] && applied.Degree == 2 || keyed.Colours[there] == "M" && (keyed.OpensKey(at, there) || applied.Degree is 1 or 3 or 6 or 8 or 10 or 11)))
            degree = Numeral.Within(keyed.Chart.Chords[there].Chord, applied.Degree, true);
        return $"{head}{Numeral.Quality(chord)}/{degree}";
    }
}
