// Says in one sentence why a chord has its function and roles.
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Keys;

namespace ChordLang.Harmony.Functions;

internal static class FunctionReason
{
    private const double Unsure = 0.5;

    /// <summary>What is said of the chord in one sentence: its first role, or else its function.</summary>
    public static string Of(KeyedChart keyed, int at, Key key, FunctionGuess guess, IReadOnlyList<ChordRole> roles) =>
        roles.Count > 0 ? OfRole(keyed, at, key, roles[0]) : Plain(keyed, at, key, guess);

    /// <summary>Why it has a role.</summary>
    public static string OfRole(KeyedChart keyed, int at, Key key, ChordRole role)
    {
        var me = Symbol(keyed, at);
        var to = role.Target is { } target ? Symbol(keyed, target) : null;
        return role.Name switch
        {
            "applied-dominant" when to is not null && keyed.OpensKey(at, role.Target!.Value) => $"{me} is the dominant of {to}, the tonic of the key that follows.",
            "applied-dominant" when to is not null => Applied(keyed, at, role.Target!.Value, key),
            "applied-dominant" when keyed.Next(at) is >= 0 and var goal && keyed.Degrees[goal] == keyed.AppliedAt(at)!.Degree => $"{me} is the dominant of the {Ordinal(keyed, at)} degree, where {Symbol(keyed, goal)} stands in place of a chord at rest.",
            "applied-dominant" when keyed.Next(at) < 0 && keyed.Degrees[0] == keyed.AppliedAt(at)!.Degree => $"{me} is the dominant of the {Ordinal(keyed, at)} degree, with which the chart begins again.",
            "applied-dominant" => $"{me} is the dominant of the {Ordinal(keyed, at)} degree, which does not follow at once.",
            "applied-diminished" when to is not null => $"{me} stands on the leading tone of {to} and resolves up a semitone.",
            "applied-diminished" => $"{me} stands on a leading tone foreign to {key}, without its resolution.",
            "related-two" => $"{me} prepares {to}: it is the related two, a fifth above.",
            "tritone-substitute" => $"{me} replaces the dominant a tritone away, shares its guide tones, and slides down a semitone to {to}.",
            "backdoor-dominant" when keyed.Degrees[role.Target!.Value] == 4 => $"{me} takes the back door home, and {to} stands where the tonic would.",
            "backdoor-dominant" => $"{me} comes home to {to} by the back door: a whole step up from the flat seventh degree.",
            "leading-tone-diminished" => $"{me} stands on the leading tone of {key} and resolves up a semitone to {to}.",
            "common-tone-diminished" => $"{me} holds the root of {to} while its other tones lean into it.",
            "passing-diminished" when !ChordRoles.Fills(keyed, at) => $"{me} passes down a semitone to {to}, from the flat third degree to the second.",
            "passing-diminished" => $"{me} fills the step to {to} with a semitone on each side.",
            "deceptive" => $"{me} promises a tonic a fifth below but climbs a step to {to}: a deceptive resolution.",
            "sus-resolution" => $"{me} holds its third back; {to} lets it fall.",
            "borrowed" => $"{me} is borrowed from the parallel minor of {key}.",
            "picardy-third" => $"{me} ends a piece in {key} on the major third: a Picardy third.",
            "two-five-one" when to is not null => $"{me} takes part in a two-five-one that ends on {to}.",
            "two-five-one" => $"{me} is where the two-five-one arrives.",
            "turnaround" when to is not null && keyed.Degrees[role.Target!.Value] == 4 => $"{me} takes part in a turnaround that leads to {to}, which stands where the tonic would.",
            "turnaround" when to is not null => $"{me} takes part in a turnaround that leads back to {to}.",
            "turnaround" => $"{me} takes part in a turnaround that leads back to the beginning.",
            "dominant-chain" when to is not null => $"{me} is a link in a chain of dominants, each resolving to the next, that ends on {to}.",
            "dominant-chain" => $"{me} is a link in a chain of dominants, each resolving to the next.",
            "line-cliche" => $"{me} stays while {role.Detail}: a line cliché.",
            "planing" when to is not null => $"{me} slides with its neighbours by semitones in parallel, towards {to}: chromatic planing.",
            "planing" => $"{me} slides with its neighbours by semitones in parallel: chromatic planing.",
            "pedal" => $"{me} sounds over a pedal: the bass stays on {role.Detail} while the chords change.",
            _ => throw new InvalidOperationException($"no words for the role {role.Name}"),
        };
    }

    // What gives an applied dominant away: the leading tone of its goal, or where the key has that anyway, the seventh.
    private static string Applied(KeyedChart keyed, int at, int goal, Key key)
    {
        var (me, to, chord) = (Symbol(keyed, at), Symbol(keyed, goal), keyed.Chart.Chords[at].Chord);
        var third = keyed.Chart.Chords[goal].Chord is var rest && (rest.Asks(4) || rest.Asks(3));
        bool Foreign(int interval) => !key.Holds(chord.Root.PitchClass + interval);
        return chord.Asks(4) && Foreign(4) ? $"{me} is the dominant of {to}: it raises a tone to the leading tone of {to}."
            : !chord.Asks(4) ? $"{me} is the dominant of {to}, its third held back."
            : third && chord.Asks(10) && Foreign(10) ? $"{me} is the dominant of {to}: its lowered seventh leads down to the third of {to}."
            : $"{me} is the dominant of {to}, a fifth above it.";
    }

    // A chord on another degree that holds two tones of the tonic triad: the sixth or third degree of major, the flat third or flat sixth of minor.
    private static bool StandsForTonic(KeyedChart keyed, int at) =>
        keyed.Degrees[at] != 0 && new[] { 0, keyed.Minor[at] ? 3 : 4, 7 }.Count(t => keyed.Chart.Chords[at].Chord.Asks((t - keyed.Degrees[at] + 12) % 12)) == 2;

    private static string Symbol(KeyedChart keyed, int at) => keyed.Chart.Chords[at].Chord.Symbol;

    private static string Plain(KeyedChart keyed, int at, Key key, FunctionGuess guess)
    {
        var me = Symbol(keyed, at);
        return guess switch
        {
            { Confidence: < Unsure, Other: { } other } => $"{me} may be read in two ways in {key}: as a {guess.Function.Noun()} or as a {other.Noun()}.",
            { Function: HarmonicFunction.Tonic } when keyed.Degrees[at] != 0 && keyed.IsLedTo(at)
                => $"{me} is at rest for the moment: its own dominant, {Symbol(keyed, keyed.Previous(at))}, has led to it.",
            { Function: HarmonicFunction.Tonic } when StandsForTonic(keyed, at) => $"{me} stands for the tonic of {key}, with which it shares two tones.",
            { Function: HarmonicFunction.Tonic } => $"{me} is at rest: a tonic in or near {key}.",
            { Function: HarmonicFunction.Subdominant } when keyed.Next(at) is >= 0 and var next && keyed.Degrees[next] is not (0 or 4) => $"{me} moves away from the tonic of {key} and goes on to {Symbol(keyed, next)}.",
            { Function: HarmonicFunction.Subdominant } => $"{me} moves away from the tonic of {key} and needs no dominant to return.",
            { Function: HarmonicFunction.Dominant } when keyed.Next(at) is >= 0 and var fifth && keyed.Motion(at, fifth) == 5 => $"{me} pulls onward by falling fifths towards a tonic.",
            { Function: HarmonicFunction.Dominant } when keyed.Colours[at] is not ("7" or "+") && keyed.Next(at) is >= 0 and var on => $"{me} does not rest here: it is on its way to {Symbol(keyed, on)}.",
            { Function: HarmonicFunction.Dominant } when keyed.Next(at) < 0 && keyed.Motion(at, 0) == 5 => $"{me} pulls back to the beginning, where {Symbol(keyed, 0)} stands a fifth below.",
            { Function: HarmonicFunction.Dominant } => $"{me} pulls onward, and the chord a fifth below does not follow at once.",
            { Function: HarmonicFunction.DominantSubstitute } => $"{me} stands in for a dominant a tritone away.",
            { Function: HarmonicFunction.Backdoor } => $"{me} returns to the tonic by the minor subdominant side.",
            { Function: HarmonicFunction.Passing } => $"{me} joins its neighbours by step and claims nothing of its own.",
            _ when FunctionTagger.Fills(keyed, at) => $"{me} fills the step between {Symbol(keyed, keyed.Previous(at))} and {Symbol(keyed, keyed.Next(at))}; no dominant follows.",
            _ when keyed.Previous(at) is >= 0 and var last && keyed.Next(at) is >= 0 and var onward && !keyed.Same(last, onward) => $"{me} colours {Symbol(keyed, last)} before it and goes on to {Symbol(keyed, onward)}.",
            _ => $"{me} colours the chord around it and goes back.",
        };
    }

    private static string Ordinal(KeyedChart keyed, int at)
    {
        string[] words = ["first", "flat second", "second", "flat third", "third", "fourth", "sharp fourth", "fifth", "flat sixth", "sixth", "flat seventh", "seventh"];
        return words[keyed.AppliedAt(at)!.Degree];
    }
}
