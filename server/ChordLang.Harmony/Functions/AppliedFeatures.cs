// What speaks for a chord being borrowed from a passing key, where a chart writes its basses and so can be read as voices are led.

namespace ChordLang.Harmony.Functions;

/// <summary>Features of chords that may belong to a passing key.</summary>
/// <param name="keyed">The chart.</param>
internal sealed class AppliedFeatures(KeyedChart keyed)
{
    private const int Hops = 3, Near = 6;

    private readonly int[][] outside = [.. Enumerable.Range(0, keyed.Length).Select(i => Outside(keyed, i))];
    private readonly int?[] chiefs = [.. Enumerable.Range(0, keyed.Length).Select(i => Chief(keyed, i))];
    private readonly int[] tonics = [.. Enumerable.Range(0, keyed.Length).Select(i => (keyed.Chart.Chords[i].Chord.Root.PitchClass - keyed.Degrees[i] + 12) % 12)];

    /// <summary>The degree that a dominant or leading-tone chord foreign to the key would lead to; null for any other chord.</summary>
    public int? ChiefAt(int at) => chiefs[at];

    /// <summary>Names of the features that hold for a chord if the passing key stands on a degree.</summary>
    /// <param name="at">The chord.</param>
    /// <param name="target">Semitones of the passing tonic above the tonic, 1 to 11.</param>
    public IEnumerable<string> Within(int at, int target)
    {
        var mode = keyed.Minor[at] ? "minor" : "major";
        var (me, to, from) = (Seen(at, target), Seen(keyed.Next(at), target), Seen(keyed.Previous(at), target));
        yield return $"t {mode} {target}";
        yield return $"w {me}";
        yield return $"w {me} over {Over(at)}";
        yield return $"w {mode} {target} {me}";
        yield return $"w {me} to {to}";
        yield return $"w {me} from {from}";
        yield return $"w {from} {me} {to}";
        yield return $"w {me} next {(at + 1 < keyed.Length ? $"{Seen(at + 1, target)} over {Over(at + 1)}" : "-")}";
        yield return $"w {mode} ahead leads {Leads(at, 1, target)}";
        yield return $"w {mode} behind leads {Leads(at, -1, target)}";
    }

    // How many chords away the nearest foreign dominant or leading-tone chord of the passing key stands, ahead or behind; 0 for none near.
    private int Leads(int at, int step, int target)
    {
        for (var (k, away) = (at + step, 1); away <= Near && k >= 0 && k < keyed.Length && SameKey(k, at); (k, away) = (k + step, away + 1))
            if (chiefs[k] == target)
                return away;
        return 0;
    }

    private string Seen(int at, int target) => at < 0 ? "-" : $"{(keyed.Degrees[at] - target + 12) % 12}{keyed.Colours[at]}";

    /// <summary>The nearest such chord of the same key within three roots, ahead or behind; its index and how many roots away, or null.</summary>
    public (int At, int Hops)? Nearest(int at, int step)
    {
        var k = at;
        for (var hops = 1; hops <= Hops && (k = Root(k, step)) >= 0; hops++)
            if (SameKey(k, at) && chiefs[k] is not null)
                return (k, hops);
        return null;
    }

    /// <summary>Names of the features that hold for a chord.</summary>
    public IEnumerable<string> Of(int at)
    {
        var (degree, colour, mode) = (keyed.Degrees[at], keyed.Colours[at], keyed.Minor[at] ? "minor" : "major");
        var me = $"{mode} {degree}{colour}";
        yield return "any";
        yield return me;
        yield return colour;
        yield return $"outside {outside[at].Length}";
        yield return $"{mode} outside {Dots(at)}";
        yield return $"{(degree == 0 ? me : colour)} blues {(Blues(at) ? "yes" : "no")}";
        var (next, before) = (Root(at, 1), Root(at, -1));
        var (later, earlier) = (next < 0 ? -1 : Root(next, 1), before < 0 ? -1 : Root(before, -1));
        var (a, b, a2, b2) = (Name(next, at), Name(before, at), Name(later, at), Name(earlier, at));
        yield return $"{me} to {a}";
        yield return $"{me} from {b}";
        yield return $"{b} {me} {a}";
        yield return $"{me} to {a} {a2}";
        yield return $"{mode} {b} around {a}";
        yield return $"{me} from {b2} {b}";
        yield return $"{me} then {a2}";
        yield return $"{me} after {b2}";
        yield return next < 0 ? $"{colour} ends" : $"{colour} by {keyed.Motion(at, next)} {keyed.Colours[next]}";
        yield return $"{mode} {colour} leads to {(degree + (colour is "7" or "M" or "+" ? 5 : colour is "o" or "h" ? 1 : 0)) % 12}";
        yield return $"{me} next {Name(at + 1, at)}";
        yield return $"{me} last {Name(at - 1, at)}";
        if (next >= 0 && !SameKey(next, at))
        {
            yield return "key ends";
            yield return $"{colour} key ends";
        }
        if (before >= 0 && !SameKey(before, at))
        {
            yield return "key begins";
            yield return $"{colour} key begins";
        }
        foreach (var (k, place) in new[] { (next, "to"), (before, "from"), (later, "to 2"), (earlier, "from 2") })
            if (k >= 0 && SameKey(k, at))
            {
                yield return $"{me} {place} outside {Dots(k)}";
                yield return $"{mode} {place} outside {Dots(k)}";
            }
        foreach (var (step, side) in new[] { (1, "ahead"), (-1, "behind") })
            if (Nearest(at, step) is var (k, hops))
            {
                var target = chiefs[k]!.Value;
                var within = (degree - target + 12) % 12;
                yield return $"{side} {hops} {within}{colour}";
                yield return $"{side} {within}{colour} outside {Math.Min(outside[at].Length, 1)}";
                yield return $"{side} {mode} {target} {degree}{colour}";
            }
            else
                yield return $"{side} none";
        foreach (var feature in InBass(at, next, before, me, mode))
            yield return feature;
        if (chiefs[at] is { } own)
        {
            yield return "chief";
            yield return $"chief {mode} {own}";
        }
    }

    // Inversions and the steps of the bass tell a passing leading tone from a root that only passes.
    private IEnumerable<string> InBass(int at, int next, int before, string me, string mode)
    {
        var colour = keyed.Colours[at];
        var over = Over(at);
        yield return $"{me} over {over}";
        yield return $"{colour} over {over}";
        var here = (Bass(at) - tonics[at] + 12) % 12;
        if (at + 1 < keyed.Length)
        {
            var to = (Bass(at + 1) - tonics[at] + 12) % 12;
            yield return $"{me} over {over} to {to}";
            yield return $"{colour} bass {over} by {(Bass(at + 1) - Bass(at) + 12) % 12}";
            yield return $"{mode} bass {here} to {to}";
        }
        if (at > 0)
        {
            var from = (Bass(at - 1) - tonics[at] + 12) % 12;
            yield return $"{mode} bass {here} from {from}";
            yield return $"{me} over {over} from {from}";
        }
        if (next >= 0)
            yield return $"{me} over {over} onto {Name(next, at)} over {Over(next)}";
        if (before >= 0)
            yield return $"{me} over {over} out of {Name(before, at)} over {Over(before)}";
        var (last, onward) = (at > 0 && SameKey(at - 1, at) ? Dots(at - 1) : "-", at + 1 < keyed.Length && SameKey(at + 1, at) ? Dots(at + 1) : "-");
        yield return $"{mode} outsides {last} {Dots(at)} {onward}";
        yield return $"{colour} outsides {last} {Dots(at)} {onward}";
    }

    private int Bass(int at) => (keyed.Chart.Chords[at].Chord.Bass ?? keyed.Chart.Chords[at].Chord.Root).PitchClass;

    private int Over(int at) => (Bass(at) - keyed.Chart.Chords[at].Chord.Root.PitchClass + 12) % 12;

    private static int[] Outside(KeyedChart keyed, int at)
    {
        var scale = keyed.Minor[at] ? AppliedChords.MinorScale : AppliedChords.MajorScale;
        return [.. keyed.Chart.Chords[at].Chord.Tones.Select(t => (keyed.Degrees[at] + t.Degree.Interval) % 12).Distinct().Where(n => !scale.Contains(n)).Order()];
    }

    private static int? Chief(KeyedChart keyed, int at)
    {
        var (degree, colour, minor) = (keyed.Degrees[at], keyed.Colours[at], keyed.Minor[at]);
        if (minor && colour == "7" && degree == 10)
            return 3;
        var up = colour switch { "7" or "M" or "+" => 5, "o" or "h" => 1, _ => 0 };
        var target = (degree + up) % 12;
        return up > 0 && Outside(keyed, at).Length > 0 && (minor ? AppliedChords.MinorTargets : AppliedChords.MajorTargets).Contains(target) ? target : null;
    }

    private bool SameKey(int a, int b) => tonics[a] == tonics[b] && keyed.Minor[a] == keyed.Minor[b];

    // The next or last chord with another root, or -1.
    private int Root(int at, int step)
    {
        for (var k = at + step; k >= 0 && k < keyed.Length; k += step)
            if (keyed.Motion(at, k) != 0)
                return k;
        return -1;
    }

    private string Name(int at, int from) =>
        at < 0 || at >= keyed.Length ? "-" : $"{(keyed.Chart.Chords[at].Chord.Root.PitchClass - tonics[from] + 12) % 12}{keyed.Colours[at]}";

    private string Dots(int at) => string.Join('.', outside[at]);

    private bool Blues(int at)
    {
        var (sevenths, all) = (0, 0);
        for (var k = 0; k < keyed.Length; k++)
            if (keyed.Degrees[k] == 0 && SameKey(k, at))
                (sevenths, all) = (sevenths + (keyed.Colours[k] == "7" ? 1 : 0), all + 1);
        return sevenths * 2 > all;
    }
}
