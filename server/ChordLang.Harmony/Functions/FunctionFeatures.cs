// What speaks for the function of a chord: where it stands in the key, what came before and where it goes.
using System.Collections.Immutable;
using ChordLang.Harmony.Charts;
using ChordLang.Harmony.Keys;
using ChordLang.Theory.Keys;

namespace ChordLang.Harmony.Functions;

/// <summary>A chart with what its chords are in their keys.</summary>
/// <param name="Chart">The chart.</param>
/// <param name="Degrees">For each chord, semitones of its root above the local tonic, 0 to 11.</param>
/// <param name="Minor">For each chord, whether the local key is minor.</param>
/// <param name="Colours">For each chord, its colour sign.</param>
/// <param name="InMode">For each chord, whether the key is one of the old modes and holds all its tones; null where no key is such a mode.</param>
public sealed record KeyedChart(Chart Chart, int[] Degrees, bool[] Minor, string[] Colours, bool[]? InMode = null)
{
    private readonly Lazy<Applied?[]> applied = new(() => AppliedChords.Of(new(Chart, Degrees, Minor, Colours, InMode)));
    private readonly Lazy<(int[] Next, int[] Previous)> others = new(() => Others(new(Chart, Degrees, Minor, Colours)));

    /// <summary>What a chord is applied to, or null.</summary>
    public Applied? AppliedAt(int at) => applied.Value[at];

    private readonly Lazy<(bool Major, bool Minor)> sevenths = new(() => (MostlySeventh(new(Chart, Degrees, Minor, Colours), false), MostlySeventh(new(Chart, Degrees, Minor, Colours), true)));

    /// <summary>True where the tonic of the major keys, or of the minor ones, is mostly a dominant seventh.</summary>
    public bool SeventhAtHome(bool minor) => minor ? sevenths.Value.Minor : sevenths.Value.Major;

    /// <summary>True for a chord of an old mode, such as dorian, that has all its tones from it; of a vamp of dorian also where its key is called minor.</summary>
    public bool BelongsToMode(int at) => InMode is not null && InMode[at] || IsDorianFourth(at) || Next(at) is >= 0 and var next && IsDorianFourth(next);

    // A dominant seventh on the fourth degree of minor that comes from the tonic and goes back there, or with the end of the chart to its beginning:
    // what dorian sounds like (common practice).
    private bool IsDorianFourth(int at) =>
        Minor[at] && Degrees[at] == 5 && Colours[at] == "7" && IsMinorTonic(Previous(at)) && IsMinorTonic(Math.Max(0, Next(at)));

    private bool IsMinorTonic(int at) => at >= 0 && Minor[at] && Degrees[at] == 0 && Colours[at] is "m7" or "m";

    /// <summary>Number of chords.</summary>
    public int Length => Degrees.Length;

    /// <summary>Puts a chart under its keys.</summary>
    public static KeyedChart Of(Chart chart, KeyPlan keys)
    {
        var n = chart.Chords.Length;
        var (degrees, minor, colours, modes) = (new int[n], new bool[n], new string[n], new bool[n]);
        var chords = chart.Chords.ToBuilder();
        for (var i = 0; i < n; i++)
        {
            var key = keys.At(chart.Chords[i].Bar);
            chords[i] = chords[i] with { Chord = HeldThird.Read(chart.Chords[i].Chord, i > 0 ? chart.Chords[i - 1].Chord : null, key) };
            degrees[i] = (chords[i].Chord.Root.PitchClass - (key?.Tonic?.PitchClass ?? 0) + 12) % 12;
            minor[i] = key is not null && Numeral.IsMinor(key.Mode);
            colours[i] = chords[i].Chord.Colour();
            modes[i] = key?.Mode is Mode.Dorian or Mode.Phrygian or Mode.Lydian or Mode.Mixolydian or Mode.Locrian
                && chords[i].Chord is var chord && chord.Tones.All(t => key.Holds(chord.Root.PitchClass + t.Degree.Interval));
        }
        return new(chart with { Chords = chords.ToImmutable() }, degrees, minor, colours, modes.Contains(true) ? modes : null);
    }

    /// <summary>The next chord that is another chord, or -1.</summary>
    public int Next(int at) => others.Value.Next[at];

    /// <summary>The last chord before that is another chord, or -1.</summary>
    public int Previous(int at) => others.Value.Previous[at];

    /// <summary>True where two chords have one root and colour. Their degrees do not tell: the key may change between them.</summary>
    public bool Same(int a, int b) => Motion(a, b) == 0 && Colours[a] == Colours[b];

    /// <summary>True where a chord is the tonic of another key than an earlier one stands in.</summary>
    public bool OpensKey(int earlier, int at) => Degrees[at] == 0 && (Degrees[earlier] + Motion(earlier, at)) % 12 != 0;

    /// <summary>Semitones from the root of one chord up to that of another, 0 to 11.</summary>
    public int Motion(int from, int to) =>
        (Chart.Chords[to].Chord.Root.PitchClass - Chart.Chords[from].Chord.Root.PitchClass + 12) % 12;

    /// <summary>True where the chord before is a dominant seventh a fifth above, which leads here.</summary>
    internal bool IsLedTo(int at) => Previous(at) is >= 0 and var before && Colours[before] == "7" && Motion(before, at) == 5;

    private static bool MostlySeventh(KeyedChart keyed, bool minor)
    {
        var (sevenths, plain) = (0.0, 0.0);
        for (var i = 0; i < keyed.Length; i++)
            if (keyed.Degrees[i] == 0 && keyed.Minor[i] == minor)
                (sevenths, plain) = keyed.Colours[i] == "7" ? (sevenths + keyed.Chart.Chords[i].Duration, plain) : (sevenths, plain + keyed.Chart.Chords[i].Duration);
        return sevenths > plain;
    }

    // A chord that is repeated lies between the same two others all the while.
    private static (int[] Next, int[] Previous) Others(KeyedChart keyed)
    {
        var (next, previous) = (new int[keyed.Length], new int[keyed.Length]);
        for (var i = 0; i < keyed.Length; i++)
            previous[i] = i == 0 ? -1 : keyed.Same(i - 1, i) ? previous[i - 1] : i - 1;
        for (var i = keyed.Length - 1; i >= 0; i--)
            next[i] = i == keyed.Length - 1 ? -1 : keyed.Same(i + 1, i) ? next[i + 1] : i + 1;
        return (next, previous);
    }
}

/// <summary>Features of one chord.</summary>
public static class FunctionFeatures
{
    /// <summary>Names of the features that hold for a chord.</summary>
    public static IEnumerable<string> Of(KeyedChart keyed, int at) => Near(keyed, at).Concat(FunctionContext.Of(keyed, at));

    private static IEnumerable<string> Near(KeyedChart keyed, int at)
    {
        var (degree, colour) = (keyed.Degrees[at], keyed.Colours[at]);
        var mode = keyed.Minor[at] ? "minor" : "major";
        var chord = keyed.Chart.Chords[at];
        yield return "any";
        yield return $"colour {colour}";
        yield return $"chord {degree}{colour}";
        yield return $"{mode} chord {degree}{colour}";
        var broad = Broad(colour);
        yield return $"broad {degree}{broad}";
        var bars = chord.Duration / keyed.Chart.Counts;
        yield return $"length {(bars < 0.75 ? "part" : bars < 1.5 ? "bar" : "more")} {colour}";
        yield return $"place {(chord.Onset == 0 ? chord.Bar % 2 == 1 ? "odd bar" : "even bar" : "inside")} {colour}";
        var (next, before) = (keyed.Next(at), keyed.Previous(at));
        if (at + 1 < keyed.Length && keyed.Same(at, at + 1))
            yield return $"again after {colour}";
        if (at > 0 && keyed.Degrees[at] == keyed.Degrees[at - 1])
        {
            yield return $"again {colour}";
            yield return $"again {degree}{broad}";
        }
        if (next < 0)
        {
            yield return "last";
            yield return $"last {degree}{colour}";
        }
        else
        {
            var (motion, onward) = (keyed.Motion(at, next), keyed.Colours[next]);
            yield return $"to {motion}";
            yield return $"{colour} to {motion}";
            yield return $"{colour} to {motion} {onward}";
            yield return $"{degree}{colour} to {motion}";
            yield return $"{degree}{colour} to {motion} {onward}";
            yield return $"broad {degree}{broad} to {keyed.Degrees[next]}{Broad(onward)}";
            yield return $"broad {degree}{broad} to {motion}";
            if (keyed.Next(next) is >= 0 and var third)
                yield return $"{colour} to {motion} {onward} to {keyed.Motion(next, third)} {keyed.Colours[third]}";
        }
        if (before < 0)
        {
            yield return "first";
            yield return $"first {degree}{colour}";
            yield break;
        }
        var (arrival, from) = (keyed.Motion(before, at), keyed.Colours[before]);
        yield return $"from {from} by {arrival} {colour}";
        yield return $"from {from} by {arrival} {degree}{colour}";
        if (next >= 0)
        {
            yield return $"from {from} by {arrival} {colour} to {keyed.Motion(at, next)} {keyed.Colours[next]}";
            yield return $"between {arrival} {colour} {keyed.Motion(at, next)}";
            if (keyed.Same(before, next))
            {
                yield return $"back {arrival} {colour}";
                yield return $"back {degree}{colour}";
                yield return $"back {arrival} {broad} {keyed.Degrees[before]}";
            }
        }
        yield return $"broad {degree}{broad} from {keyed.Degrees[before]}{Broad(from)}";
        if (next >= 0)
            yield return $"broad {keyed.Degrees[before]}{Broad(from)} {degree}{broad} {keyed.Degrees[next]}{Broad(keyed.Colours[next])}";
        if (keyed.Previous(before) is >= 0 and var earlier)
            yield return $"from {keyed.Colours[earlier]} by {keyed.Motion(earlier, before)} {from} by {arrival} {colour}";
    }

    // Minor sevenths with minor triads: what stands on the fourth degree is a minor subdominant either way.
    internal static string Broad(string colour) => colour is "m7" or "m" ? "m" : colour;

    /// <summary>The ways into a chord that steps are told apart by: the chord again, its root again, down a fifth, down a semitone, any other.</summary>
    internal static readonly ImmutableArray<string> StepWays = ["again", "root", "fifth", "semitone", "other"];

    /// <summary>The way into a chord from the one before it.</summary>
    internal static string StepWay(KeyedChart keyed, int at) => keyed.Motion(at - 1, at) switch
    {
        0 => keyed.Colours[at - 1] == keyed.Colours[at] ? "again" : "root",
        5 => "fifth",
        11 => "semitone",
        _ => "other",
    };

    /// <summary>Feature of two functions that follow each other.</summary>
    internal static string Step(string way, HarmonicFunction before, HarmonicFunction here) => $"step {way} {before} {here}";
}
