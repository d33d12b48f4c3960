// Finds the figures that several chords make together: cadences, turnarounds, chains, moving lines, planing, pedals.

namespace ChordLang.Harmony.Functions;

/// <summary>Rules for figures of several chords; each chord of a figure gets its role. Common practice throughout.</summary>
internal static class RoleGroups
{
    /// <summary>Adds the roles of all figures.</summary>
    public static void Mark(KeyedChart keyed, List<ChordRole>[] roles)
    {
        for (var at = 0; at < roles.Length; at++)
        {
            TwoFiveOne(keyed, at, roles);
            Turnaround(keyed, at, roles);
            Chain(keyed, at, roles);
            if (MovingLines.From(keyed, at) is { } line)
                Add(roles, "line-cliche", null, Range(at, line.Last), line.Text);
            Planing(keyed, at, roles);
            Pedal(keyed, at, roles);
        }
    }

    private static void TwoFiveOne(KeyedChart keyed, int at, List<ChordRole>[] roles)
    {
        if (roles[at].Any(r => r.Name == "related-two") && keyed.Next(at) is >= 0 and var five && keyed.Next(five) is >= 0 and var one
            && keyed.Motion(five, one) == 5 && keyed.Colours[one] is "M" or "m" or "m7" or "7")
            Add(roles, "two-five-one", one, Range(at, one));
    }

    // Four chords from the tonic, or its third, back to the tonic: I VI II V, any of the last three replaced by its tritone substitute, the second
    // also by a passing diminished chord.
    private static void Turnaround(KeyedChart keyed, int at, List<ChordRole>[] roles)
    {
        if (Run(keyed, at, 4) is not { } four)
            return;
        var home = keyed.Next(four[3]);
        var (first, second, third, fourth) = (keyed.Degrees[at], keyed.Degrees[four[1]], keyed.Degrees[four[2]], keyed.Degrees[four[3]]);
        var leads = first is 0 or 4
            && (second == 9 || second == 3 && keyed.Colours[four[1]] is "7" or "M" or "o" || second == 1 && keyed.Colours[four[1]] == "o")
            && (third == 2 || third == 8 && keyed.Colours[four[2]] is "7" or "M")
            && (fourth == 7 && keyed.Colours[four[3]] is "7" or "M" || fourth == 1 && keyed.Colours[four[3]] is "7" or "M");
        // In two bars anywhere; in four where they close the chart. Elsewhere four slow chords are a phrase of their own.
        var (bars, closes) = (keyed.Chart.Chords[four[3]].Bar - keyed.Chart.Chords[at].Bar, home < 0);
        if (leads && (bars <= 1 || bars <= 3 && closes) && (home < 0 || keyed.Degrees[home] is 0 or 4))
            Add(roles, "turnaround", home < 0 ? null : home, Range(at, four[3]));
    }

    // Three dominants or more, each a fifth or a semitone above the next. The last is a link only where it resolves too; at the end of the chart it may
    // lead back to the beginning.
    private static void Chain(KeyedChart keyed, int at, List<ChordRole>[] roles)
    {
        var links = new List<int> { at };
        while (IsLink(keyed, links[^1]) && keyed.Next(links[^1]) is >= 0 and var next && IsLink(keyed, next) && keyed.Motion(links[^1], next) is 5 or 11)
            links.Add(next);
        if (links.Count < 3)
            return;
        var end = keyed.Next(links[^1]);
        if (end < 0 && keyed.Motion(links[^1], 0) is 5 or 11)
            Add(roles, "dominant-chain", null, Range(at, keyed.Length - 1));
        else
        {
            var goal = end >= 0 && keyed.Motion(links[^1], end) is 5 or 11 && keyed.Colours[end] is not ("o" or "h" or "+") ? end : links[^1];
            Add(roles, "dominant-chain", goal, Range(at, goal - 1));
        }
    }

    private static bool IsLink(KeyedChart keyed, int at) => keyed.Colours[at] == "7" && !AppliedChords.IsBluesTonic(keyed, at);

    private static void Planing(KeyedChart keyed, int at, List<ChordRole>[] roles)
    {
        if (Run(keyed, at, 3) is { } plane && plane.All(k => keyed.Colours[k] == keyed.Colours[at] && keyed.Colours[k] is not ("o" or "7"))
            && keyed.Motion(plane[0], plane[1]) == keyed.Motion(plane[1], plane[2]) && keyed.Motion(plane[0], plane[1]) is 1 or 11)
            Add(roles, "planing", keyed.Motion(plane[2], keyed.Next(plane[2]) is >= 0 and var end ? end : plane[2]) is 1 or 11 ? keyed.Next(plane[2]) : null, Range(at, plane[2]));
    }

    private static void Pedal(KeyedChart keyed, int at, List<ChordRole>[] roles)
    {
        if (at + 2 < keyed.Length && Bass(keyed, at) is var bass && Bass(keyed, at + 1) == bass && Bass(keyed, at + 2) == bass
            && Range(at, at + 2).Select(k => keyed.Chart.Chords[k].Chord.Root.PitchClass).Distinct().Count() > 1)
            Add(roles, "pedal", null, Range(at, at + 2), $"{keyed.Chart.Chords[at].Chord.Bass ?? keyed.Chart.Chords[at].Chord.Root}");
    }

    private static int Bass(KeyedChart keyed, int at) => (keyed.Chart.Chords[at].Chord.Bass ?? keyed.Chart.Chords[at].Chord.Root).PitchClass;

    private static int[]? Run(KeyedChart keyed, int at, int length)
    {
        var run = new List<int> { at };
        while (run.Count < length && keyed.Next(run[^1]) is >= 0 and var next)
            run.Add(next);
        return run.Count == length ? [.. run] : null;
    }

    private static IEnumerable<int> Range(int from, int to) => Enumerable.Range(from, to - from + 1);

    private static void Add(List<ChordRole>[] roles, string name, int? target, IEnumerable<int> at, string detail = "")
    {
        foreach (var k in at)
            if (roles[k].All(r => r.Name != name))
                roles[k].Add(new(name, target == k ? null : target, detail));
    }
}
