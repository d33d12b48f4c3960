// Finds the roles that chords play with their neighbours, by the trade's names.
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
    private static readonly int[] MajorScale = [0, 2, 4, 5, 7, 9, 11], MinorScale = [0, 2, 3, 5, 7, 8, 10];

    /// <summary>The roles of every chord, the one that says most first.</summary>
    public static List<ChordRole>[] Of(KeyedChart keyed)
    {
        var roles = new List<ChordRole>[keyed.Length];
        for (var i = 0; i < roles.Length; i++)
            roles[i] = [.. Alone(keyed, i)];
        for (var i = 0; i < roles.Length; i++)
            Groups(keyed, i, roles);
        return roles;
    }

    private static IEnumerable<ChordRole> Alone(KeyedChart keyed, int at)
    {
        var (colour, degree) = (keyed.Colours[at], keyed.Degrees[at]);
        var (next, before) = (keyed.Next(at), keyed.Previous(at));
        var motion = next < 0 ? -1 : keyed.Motion(at, next);
        var applied = AppliedChords.At(keyed, at);
        var substitute = colour == "7" && motion == 11;
        if (applied is { Two: false } && !substitute)
            yield return new(applied.Diminished ? "applied-diminished" : "applied-dominant", applied.Target);
        if (colour is "m7" or "h" or "m" && motion == 5 && keyed.Colours[next] == "7")
            yield return new("related-two", next);
        if (substitute)
            yield return new("tritone-substitute", next);
        if (degree == 10 && colour == "7" && next >= 0 && keyed.Degrees[next] == 0)
            yield return new("backdoor-dominant", next);
        if (colour == "o" && next >= 0)
        {
            if (motion == 0 || Shares(keyed, at, next))
                yield return new("common-tone-diminished", next);
            else if (before >= 0 && motion is 1 or 11 && keyed.Motion(before, at) is 1 or 11)
                yield return new("passing-diminished", next);
        }
        if (colour == "7" && degree == 7 && next >= 0 && keyed.Degrees[next] == (keyed.Minor[at] ? 8 : 9) && keyed.Colours[next] is "m" or "m7" or "M")
            yield return new("deceptive", next);
        if (at + 1 < keyed.Length && IsSus(keyed, at) && !IsSus(keyed, at + 1) && keyed.Motion(at, at + 1) == 0)
            yield return new("sus-resolution", at + 1);
        if (!keyed.Minor[at] && applied is null && Borrowed(keyed, at))
            yield return new("borrowed", null);
    }

    private static bool IsSus(KeyedChart keyed, int at) =>
        keyed.Chart.Chords[at].Chord is var chord && !chord.Asks(3) && !chord.Asks(4) && (chord.Asks(5) || chord.Asks(2));

    // The root of the chord that follows is a tone of the diminished chord.
    private static bool Shares(KeyedChart keyed, int at, int next) =>
        keyed.Motion(at, next) is 3 or 6 or 9 && keyed.Colours[next] is "M" or "7" or "m" or "m7";

    private static bool Borrowed(KeyedChart keyed, int at)
    {
        var tones = keyed.Chart.Chords[at].Chord.Tones.Select(t => (keyed.Degrees[at] + t.Degree.Interval) % 12).ToArray();
        return !tones.All(MajorScale.Contains) && tones.All(MinorScale.Contains);
    }

    private static void Groups(KeyedChart keyed, int at, List<ChordRole>[] roles)
    {
        if (roles[at].Any(r => r.Name == "related-two") && keyed.Next(at) is >= 0 and var five && keyed.Next(five) is >= 0 and var one
            && keyed.Motion(five, one) == 5 && keyed.Colours[one] is "M" or "m" or "m7" or "7")
            Mark(roles, "two-five-one", one, Range(at, one));
        int[] turn = [0, 9, 2, 7];
        if (Run(keyed, at, 4) is { } four && four.Select((k, i) => keyed.Degrees[k] == turn[i] || i == 0 && keyed.Degrees[k] == 4).All(x => x)
            && keyed.Chart.Chords[four[3]].Bar - keyed.Chart.Chords[at].Bar <= 3 && (keyed.Next(four[3]) is var home && (home < 0 || keyed.Degrees[home] is 0 or 4)))
            Mark(roles, "turnaround", home < 0 ? null : home, Range(at, four[3]));
        if (Run(keyed, at, 3) is { } chain && chain.All(k => keyed.Colours[k] == "7")
            && keyed.Motion(chain[0], chain[1]) is 5 or 11 && keyed.Motion(chain[1], chain[2]) is 5 or 11)
            Mark(roles, "dominant-chain", keyed.Next(chain[2]) is >= 0 and var end ? end : null, Range(at, chain[2]));
        if (Line(keyed, at) is var (last, line) && last > at)
            Mark(roles, "line-cliche", null, Range(at, last), line);
        if (Run(keyed, at, 3) is { } plane && plane.All(k => keyed.Colours[k] == keyed.Colours[at] && keyed.Colours[k] is not ("o" or "7"))
            && keyed.Motion(plane[0], plane[1]) == keyed.Motion(plane[1], plane[2]) && keyed.Motion(plane[0], plane[1]) is 1 or 11)
            Mark(roles, "planing", null, Range(at, plane[2]));
        if (at + 2 < keyed.Length && Bass(keyed, at) is var bass && Bass(keyed, at + 1) == bass && Bass(keyed, at + 2) == bass
            && Range(at, at + 2).Select(k => keyed.Degrees[k]).Distinct().Count() > 1)
            Mark(roles, "pedal", null, Range(at, at + 2));
    }

    private static int Bass(KeyedChart keyed, int at) => (keyed.Chart.Chords[at].Chord.Bass ?? keyed.Chart.Chords[at].Chord.Root).PitchClass;

    // A chord that stays while one inner voice walks by semitones: root, major seventh, seventh, sixth; or fifth, sharp fifth, sixth, seventh.
    private static (int Last, string Line) Line(KeyedChart keyed, int at)
    {
        foreach (var (steps, line) in new[] { (new[] { 12, 11, 10, 9 }, "1 7 b7 6"), (new[] { 7, 8, 9, 10 }, "5 #5 6 b7") })
        {
            var k = at;
            while (k + 1 < keyed.Length && k + 1 - at < steps.Length && keyed.Motion(at, k + 1) == 0 && Walks(keyed, k + 1, steps[k + 1 - at], steps[1..]))
                k++;
            if (k - at >= 2 && !Walks(keyed, at, steps[1], steps[1..]))
                return (k, line);
        }
        return (-1, "");
    }

    private static bool Walks(KeyedChart keyed, int at, int tone, int[] line) =>
        keyed.Chart.Chords[at].Chord is var chord && chord.Asks(tone) && line.All(t => t == tone || !chord.Asks(t));

    private static int[]? Run(KeyedChart keyed, int at, int length)
    {
        var run = new List<int> { at };
        while (run.Count < length && keyed.Next(run[^1]) is >= 0 and var next)
            run.Add(next);
        return run.Count == length ? [.. run] : null;
    }

    private static IEnumerable<int> Range(int from, int to) => Enumerable.Range(from, to - from + 1);

    private static void Mark(List<ChordRole>[] roles, string name, int? target, IEnumerable<int> at, string detail = "")
    {
        foreach (var k in at)
            if (roles[k].All(r => r.Name != name))
                roles[k].Add(new(name, target == k ? null : target, detail));
    }
}
