// Says in one sentence why a chord has its function and roles.
using ChordLang.Theory.Keys;

namespace ChordLang.Harmony.Functions;

internal static class FunctionReason
{
    private const double Unsure = 0.5;

    public static string Of(KeyedChart keyed, int at, Key key, FunctionGuess guess, IReadOnlyList<ChordRole> roles)
    {
        string Symbol(int k) => keyed.Chart.Chords[k].Chord.Symbol;
        var me = Symbol(at);
        var role = roles.Count > 0 ? roles[0] : null;
        var to = role?.Target is { } target ? Symbol(target) : null;
        return role?.Name switch
        {
            "applied-dominant" when to is not null => $"{me} is the dominant of {to}: it raises a tone to the leading tone of {to}.",
            "applied-dominant" => $"{me} is the dominant of the {Ordinal(keyed, at)} degree, which does not follow at once.",
            "applied-diminished" when to is not null => $"{me} stands on the leading tone of {to} and resolves up a semitone.",
            "applied-diminished" => $"{me} stands on a leading tone foreign to {key}, without its resolution.",
            "related-two" => $"{me} prepares {to}: it is the related two, a fifth above.",
            "tritone-substitute" => $"{me} replaces the dominant a tritone away, shares its guide tones, and slides down a semitone to {to}.",
            "backdoor-dominant" => $"{me} comes home to {to} by the back door: a whole step up from the flat seventh degree.",
            "common-tone-diminished" => $"{me} holds the root of {to} while its other tones lean into it.",
            "passing-diminished" => $"{me} fills the step to {to} with a semitone on each side.",
            "deceptive" => $"{me} promises the tonic but resolves to {to}.",
            "sus-resolution" => $"{me} holds its third back; {to} lets it fall.",
            "borrowed" => $"{me} is borrowed from the parallel minor of {key}.",
            "two-five-one" when to is not null => $"{me} takes part in a two-five-one that ends on {to}.",
            "two-five-one" => $"{me} is where the two-five-one arrives.",
            "turnaround" => $"{me} takes part in a turnaround that leads back to the beginning.",
            "dominant-chain" => $"{me} is a link in a chain of dominants, each resolving to the next.",
            "line-cliche" => $"{me} stays while one inner voice walks {role.Detail}: a line cliché.",
            "planing" => $"{me} moves in parallel with its neighbours: chromatic planing.",
            "pedal" => $"{me} sounds over a pedal: the bass stays while the chords change.",
            _ => Plain(me, key, guess),
        };
    }

    private static string Plain(string me, Key key, FunctionGuess guess) => guess switch
    {
        { Confidence: < Unsure } => $"The function of {me} in {key} is unknown: neighbours speak for more than one.",
        { Function: HarmonicFunction.Tonic } => $"{me} is at rest: a tonic in or near {key}.",
        { Function: HarmonicFunction.Subdominant } => $"{me} moves away from the tonic of {key} and needs no dominant to return.",
        { Function: HarmonicFunction.Dominant } => $"{me} pulls onward by falling fifths towards a tonic.",
        { Function: HarmonicFunction.DominantSubstitute } => $"{me} stands in for a dominant a tritone away.",
        { Function: HarmonicFunction.Backdoor } => $"{me} returns to the tonic by the minor subdominant side.",
        { Function: HarmonicFunction.Passing } => $"{me} joins its neighbours by step and claims nothing of its own.",
        _ => $"{me} colours the chord around it and goes back.",
    };

    private static string Ordinal(KeyedChart keyed, int at)
    {
        string[] words = ["first", "flat second", "second", "flat third", "third", "fourth", "sharp fourth", "fifth", "flat sixth", "sixth", "flat seventh", "seventh"];
        return words[AppliedChords.At(keyed, at)!.Degree];
    }
}
