// What the wider surroundings say of a chord's function: the chain it begins, its length beside its neighbours, the ways home it may take.
namespace ChordLang.Harmony.Functions;

/// <summary>Features of one chord among its surroundings.</summary>
internal static class FunctionContext
{
    private const int LongestChain = 5;

    /// <summary>Names of the features that hold for a chord.</summary>
    public static IEnumerable<string> Of(KeyedChart keyed, int at)
    {
        var (degree, colour, broad) = (keyed.Degrees[at], keyed.Colours[at], FunctionFeatures.Broad(keyed.Colours[at]));
        var (steps, end, links) = Chain(keyed, at);
        yield return $"chain {broad} {steps}";
        yield return $"chain ends {keyed.Degrees[end]}{FunctionFeatures.Broad(keyed.Colours[end])} {Math.Min(links, 3)} {broad}";
        var (next, before) = (keyed.Next(at), keyed.Previous(at));
        if (next >= 0 && before >= 0)
        {
            var (into, outOf) = (keyed.Motion(before, at), keyed.Motion(at, next));
            var length = Length(keyed, before, at, next);
            yield return $"beside {length} {colour}";
            yield return $"beside {length} {into} {colour} {outOf}";
            var (from, to) = (FunctionFeatures.Broad(keyed.Colours[before]), FunctionFeatures.Broad(keyed.Colours[next]));
            yield return $"between {from} {keyed.Motion(before, next)} {to} {colour} {into}";
            yield return $"around {keyed.Degrees[before]}{from} {keyed.Degrees[next]}{to}";
        }
        var first = keyed.Chart.Chords[0].Bar;
        yield return $"grid {(keyed.Chart.Chords[at].Bar - first) % 4} {degree}{colour}";
        foreach (var way in WaysHome(keyed, at, next, before, degree, broad))
            yield return way;
        if (broad == "7" && next >= 0 && keyed.Motion(at, next) == 11)
        {
            yield return $"substitute to {FunctionFeatures.Broad(keyed.Colours[next])}";
            yield return $"substitute {degree} to {FunctionFeatures.Broad(keyed.Colours[next])}";
        }
    }

    // By the back door (the flat seventh degree, its related two before it), or from the fourth degree straight to the tonic.
    private static IEnumerable<string> WaysHome(KeyedChart keyed, int at, int next, int before, int degree, string broad)
    {
        if (degree == 10 && broad == "7" && IsHome(keyed, next))
        {
            yield return "back door";
            yield return $"back door {keyed.Degrees[next]}";
        }
        else if (degree == 5 && broad is "m" or "7" && next >= 0 && keyed.Degrees[next] == 10 && keyed.Colours[next] == "7")
        {
            var home = IsHome(keyed, keyed.Next(next)) ? "home" : "away";
            yield return $"back door two {home}";
            yield return $"back door two {broad} {home}";
        }
        else if (degree == 5 && broad is "m" or "7" or "M" && IsHome(keyed, next))
        {
            var counts = keyed.Chart.Chords[at].Duration + (at + 1 < keyed.Length && keyed.Same(at, at + 1) ? keyed.Chart.Chords[at + 1].Duration : 0)
                + (at > 0 && keyed.Same(at, at - 1) ? keyed.Chart.Chords[at - 1].Duration : 0);
            var length = counts >= 2 * keyed.Chart.Counts ? "long" : "short";
            var back = before >= 0 && keyed.Same(before, next) ? "back" : "on";
            yield return $"plagal {broad} {back} {length}";
            yield return $"plagal {broad} {back}";
            yield return $"plagal {length}";
            yield return $"plagal {broad}";
        }
    }

    // The tonic, or the minor chord on the third degree that stands for it.
    private static bool IsHome(KeyedChart keyed, int at) =>
        at >= 0 && (keyed.Degrees[at] == 0 && keyed.Colours[at] is "M" or "m" or "m7" or "7" || keyed.Degrees[at] == 4 && keyed.Colours[at] is "m7" or "m");

    // Falling fifths and semitones from here on, up to a chord at rest.
    private static (string Steps, int End, int Links) Chain(KeyedChart keyed, int at)
    {
        var (steps, links) = ("", 0);
        while (links < LongestChain)
        {
            var next = keyed.Next(at);
            if (next < 0)
                return (steps + "e", at, links);
            var motion = keyed.Motion(at, next);
            if (motion is not (5 or 11))
                break;
            (steps, at, links) = (steps + (motion == 5 ? '5' : 's'), next, links + 1);
            if (keyed.Colours[at] == "M")
                return (steps + ".", at, links);
        }
        return (steps, at, links);
    }

    private static string Length(KeyedChart keyed, int before, int at, int next)
    {
        var (left, here, right) = (keyed.Chart.Chords[before].Duration, keyed.Chart.Chords[at].Duration, keyed.Chart.Chords[next].Duration);
        return here < left && here <= right ? "shorter" : here > left && here >= right ? "longer" : "even";
    }
}
