// Finds the roles that chords play with their neighbours, by the trade's names.
using System.Collections.Immutable;
using ChordLang.Harmony.Charts;

namespace ChordLang.Harmony.Functions;

/// <summary>A role of a chord.</summary>
/// <param name="Name">The trade's name, in kebab-case.</param>
/// <param name="Target">Index of the chord it leads to or leans on, or null.</param>
/// <param name="Detail">What the reason adds: the moving line of a line cliché; else empty.</param>
public sealed record ChordRole(string Name, int? Target, string Detail = "");

/// <summary>Rules for roles. Common practice throughout.</summary>
public static class ChordRoles
{
    /// <summary>Every role there is.</summary>
    public static ImmutableArray<string> Names { get; } =
    [
        "applied-dominant", "applied-diminished", "related-two", "tritone-substitute", "backdoor-dominant", "leading-tone-diminished",
        "passing-diminished", "common-tone-diminished", "deceptive", "sus-resolution", "borrowed", "picardy-third", "two-five-one", "turnaround",
        "dominant-chain", "line-cliche", "planing", "pedal",
    ];

    /// <summary>The roles of every chord, the one that says most first.</summary>
    public static List<ChordRole>[] Of(KeyedChart keyed)
    {
        var roles = new List<ChordRole>[keyed.Length];
        for (var i = 0; i < roles.Length; i++)
            roles[i] = [.. Alone(keyed, i)];
        RoleGroups.Mark(keyed, roles);
        return roles;
    }

    private static IEnumerable<ChordRole> Alone(KeyedChart keyed, int at)
    {
        var (colour, degree) = (keyed.Colours[at], keyed.Degrees[at]);
        var next = keyed.Next(at);
        var motion = next < 0 ? -1 : keyed.Motion(at, next);
        var applied = keyed.AppliedAt(at);
        var substitute = IsSubstitute(keyed, at);
        if (applied is { Within: null } && !substitute)
            yield return new(applied.Diminished ? "applied-diminished" : "applied-dominant", applied.Target);
        if (colour is "m7" or "h" or "m" && motion == 5 && keyed.Colours[next] == "7" && !IsVamp(keyed, at, next))
            yield return new("related-two", next);
        if (substitute)
            yield return new("tritone-substitute", next);
        // Home is the tonic, or the minor chord on the third degree that stands for it; in another key it is not the home that this door leads to.
        if (degree == 10 && colour == "7" && !keyed.BelongsToMode(at) && (motion == 2 && keyed.Degrees[next] == 0 || motion == 6 && keyed.Degrees[next] == 4 && keyed.Colours[next] is "m7" or "m"))
            yield return new("backdoor-dominant", next);
        if (colour is "o" or "h" && degree == 11 && motion == 1)
            yield return new("leading-tone-diminished", next);
        if (colour == "o" && next >= 0)
        {
            if (motion == 0 || Shares(keyed, at, next))
                yield return new("common-tone-diminished", next);
            else if (motion == 11 && degree == 3 || Fills(keyed, at))
                yield return new("passing-diminished", next);
        }
        if (Deceives(keyed, at, next, applied is not null))
            yield return new("deceptive", next);
        if (at + 1 < keyed.Length && IsSus(keyed, at) && !IsSus(keyed, at + 1) && keyed.Motion(at, at + 1) == 0)
            yield return new("sus-resolution", at + 1);
        if (!keyed.Minor[at] && applied is null && !keyed.BelongsToMode(at) && !AppliedChords.IsBluesTonic(keyed, at) && Borrowed(keyed, at))
            yield return new("borrowed", null);
        if (keyed.Minor[at] && at == keyed.Length - 1 && degree == 0 && colour == "M")
            yield return new("picardy-third", null);
    }

    /// <summary>True for a chord whose root lies between its neighbours', a semitone from each.</summary>
    internal static bool Fills(KeyedChart keyed, int at) =>
        keyed.Previous(at) is >= 0 and var before && keyed.Next(at) is >= 0 and var next && keyed.Motion(at, next) is 1 or 11 && keyed.Motion(before, at) == keyed.Motion(at, next);

    /// <summary>True for a dominant that stands for the one a tritone away. The key's own dominant is nobody's substitute, nor is the dominant of the fifth degree before the chord that stands for that degree, nor the tonic of a blues; and a substitute resolves to a chord that can be a goal.</summary>
    internal static bool IsSubstitute(KeyedChart keyed, int at) =>
        keyed.Colours[at] == "7" && keyed.Degrees[at] != 7 && !AppliedChords.IsBluesTonic(keyed, at) && !(keyed.Degrees[at] == 2 && keyed.Next(at) is >= 0 and var five && keyed.Colours[five] == "7") && keyed.Next(at) is >= 0 and var next && keyed.Motion(at, next) == 11 && keyed.Colours[next] is not ("h" or "o");

    // The tonic of an old mode and the seventh on its fourth degree, with no chord a fifth below that: nothing is prepared.
    private static bool IsVamp(KeyedChart keyed, int at, int next) =>
        keyed.Degrees[at] == 0 && keyed.BelongsToMode(at) && keyed.BelongsToMode(next) && !(keyed.Next(next) is >= 0 and var one && keyed.Motion(next, one) == 5);

    private static bool IsSus(KeyedChart keyed, int at) =>
        keyed.Chart.Chords[at].Chord is var chord && !chord.Asks(3) && !chord.Asks(4) && (chord.Asks(5) || chord.Asks(2));

    // The root of the chord that follows is a tone of the diminished chord.
    private static bool Shares(KeyedChart keyed, int at, int next) =>
        keyed.Motion(at, next) is 3 or 6 or 9 && keyed.Colours[next] is "M" or "7" or "m" or "m7";

    // A dominant, of the key or applied, that climbs a step: to the sixth degree of the key it promised, minor by a whole step, major by a half.
    private static bool Deceives(KeyedChart keyed, int at, int next, bool applied) =>
        next >= 0 && keyed.Colours[at] == "7" && (keyed.Degrees[at] == 7 || applied)
        && (keyed.Motion(at, next), keyed.Colours[next]) is (2, "m" or "m7") or (1, "M");

    private static bool Borrowed(KeyedChart keyed, int at)
    {
        var tones = keyed.Chart.Chords[at].Chord.Tones.Select(t => (keyed.Degrees[at] + t.Degree.Interval) % 12).ToArray();
        return !tones.All(AppliedChords.MajorScale.Contains) && tones.All(AppliedChords.NaturalMinorScale.Contains);
    }
}
