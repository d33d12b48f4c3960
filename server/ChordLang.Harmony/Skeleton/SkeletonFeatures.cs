// What speaks for one chord depending on another, and for a stretch of chords forming one gesture.
using ChordLang.Harmony.Functions;

namespace ChordLang.Harmony.Skeleton;

/// <summary>Features of arcs (a chord prepares or prolongs a later one) and of spans (a gesture from one chord to the chord it ends on).</summary>
public sealed class SkeletonFeatures
{
    private readonly KeyedChart keyed;
    private readonly string[] names;
    private readonly double[] starts;
    private readonly int[] repeats;

    /// <summary>Prepares the features of a chart.</summary>
    public SkeletonFeatures(KeyedChart keyed)
    {
        this.keyed = keyed;
        var chords = keyed.Chart.Chords;
        names = [.. Enumerable.Range(0, keyed.Length).Select(i => keyed.Degrees[i] + keyed.Colours[i])];
        starts = [.. chords.Select(c => c.Bar - chords[0].Bar + c.Onset / keyed.Chart.Counts)];
        repeats = Repeats();
    }

    private double End(int at) => at + 1 < starts.Length ? starts[at + 1] : Math.Ceiling(starts[at] + 0.01);

    /// <summary>Features of an arc from a chord to a later chord.</summary>
    public IEnumerable<string> Arc(int from, int to)
    {
        var motion = keyed.Motion(from, to);
        var (here, there) = (keyed.Colours[from], keyed.Colours[to]);
        var gap = to - from == 1 ? "next" : to - from == 2 ? "2" : to - from < 5 ? "few" : to - from < 10 ? "many" : "far";
        var bars = Length(starts[to] - starts[from]);
        var pair = $"{here} {motion} {there}";
        yield return $"arc {pair}";
        yield return $"arc {motion} {gap}";
        yield return $"arc {pair} {gap}";
        yield return $"arc {names[from]} {names[to]}";
        yield return $"arc {names[from]} {names[to]} {(to - from == 1 ? "next" : "later")}";
        yield return $"arc to {names[to]} {gap}";
        yield return $"arc from {names[from]} {gap}";
        yield return $"arc bars {bars} {motion}";
        yield return $"arc weight {Weight(from)} {Weight(to)}";
        yield return $"arc weight {Weight(from)} {Weight(to)} {(motion == 0 ? "same" : motion == 5 ? "fifth" : "other")}";
        if (to == starts.Length - 1)
            yield return $"arc to the end {names[from]} {gap}";
        foreach (var feature in Gesture(from, to, motion, gap))
            yield return feature;
        if (to - from == 1)
            yield break;
        // What comes right after the chord is what it passes over.
        var over = keyed.Motion(from, from + 1);
        yield return $"arc over {here} {over} {keyed.Colours[from + 1]}";
        yield return $"arc {pair} over {over} {keyed.Colours[from + 1]}";
        var (same, likeFrom) = (0, 0);
        for (var k = from + 1; k < to; k++)
        {
            same += names[k] == names[to] ? 1 : 0;
            likeFrom += names[k] == names[from] ? 1 : 0;
        }
        yield return $"arc skips {Math.Min(same, 2)} of its target {(motion == 0 ? "same" : "other")}";
        yield return $"arc skips {Math.Min(likeFrom, 2)} like itself {(motion == 0 ? "same" : "other")}";
        yield return $"arc {motion} skips {Math.Min(same, 1)} {Math.Min(likeFrom, 1)}";
    }

    // What kind of step the arc is, over what it goes, and whether its goal is held on.
    private IEnumerable<string> Gesture(int from, int to, int motion, string gap)
    {
        var (here, there) = (keyed.Colours[from], keyed.Colours[to]);
        var kind = motion switch { 5 => "fifth", 11 when here is "7" or "M" => "semitone", 0 => "same", _ => "other" };
        if (to - from > 1)
        {
            var over = Over(from, to);
            yield return $"arc {kind} over {over}";
            yield return $"arc {kind} {here} {there} over {over}";
            yield return $"arc {here} {motion} {there} over {over}";
        }
        var held = to + 1 < names.Length && keyed.Motion(to, to + 1) == 0 && keyed.Colours[to + 1] == there ? "held" : "left";
        yield return $"arc {kind} {held}";
        yield return $"arc {kind} {gap} {held}";
        yield return $"arc {kind} {here} {there} then {keyed.Motion(from, from + 1)}{keyed.Colours[from + 1]} {Math.Min(to - from, 3)}";
        if (from > 0)
            yield return $"arc {kind} {here} {there} after {keyed.Motion(from - 1, from)}{keyed.Colours[from - 1]}";
    }

    private string Over(int from, int to)
    {
        var (goal, itself, two, near) = (true, true, true, true);
        for (var k = from + 1; k < to; k++)
        {
            var up = keyed.Motion(k, to);
            goal &= up == 0;
            itself &= keyed.Motion(from, k) == 0;
            two &= up == 0 || up == 5 && keyed.Colours[k] is "m7" or "m" or "h" or "s";
            near &= up is 0 or 5 or 11 or 1 or 10;
        }
        return goal ? "goal" : itself ? "itself" : two ? "its two" : near ? "near" : "far";
    }

    /// <summary>Features of a span of chords, first and last included.</summary>
    public IEnumerable<string> Span(int first, int last)
    {
        var (from, to) = (starts[first], End(last));
        var length = Length(to - from);
        yield return $"span {length}";
        yield return $"span starts {Grid(from)}";
        yield return $"span starts {Grid(from)} {length}";
        yield return $"span ends {Grid(to)} {length}";
        yield return $"span grid {Grid(from)} {Grid(to)}";
        yield return $"span chords {Math.Min(last - first, 8)}";
        yield return $"span from {names[first]}";
        yield return $"span to {names[last]}";
        yield return $"span {names[first]} {names[last]}";
        yield return $"span {names[first]} {names[last]} {length}";
        if (first > 0)
        {
            var cut = $"{keyed.Colours[first - 1]} {keyed.Motion(first - 1, first)} {keyed.Colours[first]}";
            yield return $"span cuts {cut}";
            yield return $"span cuts {names[first - 1]} {names[first]}";
            yield return $"span cuts {cut} {Grid(from)}";
            yield return $"span before {names[first - 1]} {names[last]}";
        }
        if (last + 1 < names.Length)
        {
            yield return $"span then {keyed.Colours[last]} {keyed.Motion(last, last + 1)} {keyed.Colours[last + 1]}";
            yield return $"span then {names[last]} {names[last + 1]}";
            yield return $"span then {names[last]} {Grid(to)}";
        }
        if (first > 0 && names[first - 1] == names[last])
            yield return "span returns to the chord before it";
        if (repeats[first] >= last - first + 1)
            yield return $"span comes again {length}";
    }

    // How many chords from here come again, in the same order, elsewhere on the same place of the eight-bar grid.
    private int[] Repeats()
    {
        var best = new int[names.Length];
        for (var gap = 1; gap < names.Length; gap++)
        {
            var run = 0;
            for (var i = names.Length - 1 - gap; i >= 0; i--)
            {
                run = names[i] == names[i + gap] && Math.Abs(starts[i + gap] - starts[i]) % 4 == 0 ? run + 1 : 0;
                best[i] = Math.Max(best[i], run);
                best[i + gap] = Math.Max(best[i + gap], run);
            }
        }
        return best;
    }

    // Strength of a place in the bar and among bars: 16, 8, 4, 2, 1, or inside a bar.
    private int Weight(int at) => Grid(starts[at]);

    private static int Grid(double bar)
    {
        if (bar != Math.Floor(bar))
            return 0;
        var n = (int)bar;
        return n % 16 == 0 ? 16 : n % 8 == 0 ? 8 : n % 4 == 0 ? 4 : n % 2 == 0 ? 2 : 1;
    }

    private static string Length(double bars) => bars switch
    {
        <= 0.5 => "half", <= 1 => "1", <= 2 => "2", <= 3 => "3", <= 4 => "4", < 7 => "5", <= 8 => "8", < 15 => "12", <= 16 => "16", < 31 => "24", _ => "32",
    };
}
