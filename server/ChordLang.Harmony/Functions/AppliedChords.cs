// Finds applied (secondary) dominants and leading-tone chords: chords borrowed from the key of the chord they lead to.
using ChordLang.Harmony.Charts;

namespace ChordLang.Harmony.Functions;

/// <summary>An applied chord.</summary>
/// <param name="Degree">The degree it is applied to, in semitones above the tonic.</param>
/// <param name="Target">Index of the chord it leads to, or null where that chord does not come.</param>
/// <param name="Diminished">True for a leading-tone chord, false for a dominant.</param>
/// <param name="Within">For a chord that stands in the passing key without leading to its tonic, such as the related two: its root there, in semitones above the passing tonic; else null.</param>
public sealed record Applied(int Degree, int? Target, bool Diminished, int? Within = null);

/// <summary>Rules for applied chords. Common practice: the chord raises a tone to the leading tone of its target, or lowers one to its seventh.</summary>
public static class AppliedChords
{
    // Degrees that carry a consonant triad and so can be made a passing tonic; semitones above the tonic.
    internal static readonly int[] MajorTargets = [2, 4, 5, 7, 9], MinorTargets = [1, 3, 5, 7, 8, 10];
    internal static readonly int[] MajorScale = [0, 2, 4, 5, 7, 9, 11], MinorScale = [0, 2, 3, 5, 7, 8, 10, 11], NaturalMinorScale = [0, 2, 3, 5, 7, 8, 10];

    /// <summary>What each chord of a chart is applied to, or null: a dominant or leading-tone chord, the related two before one, or another chord of its passing key.</summary>
    public static Applied?[] Of(KeyedChart keyed)
    {
        var read = PassingKeys.Of(keyed) ?? [.. Enumerable.Range(0, keyed.Length).Select(i => RelatedTwo(keyed, i) ?? Chief(keyed, i))];
        // In an old mode its own chords lead nowhere else: the dominant seventh on the fourth degree of dorian, on the tonic of mixolydian, is what the mode sounds like.
        return [.. read.Select((applied, i) => keyed.BelongsToMode(i) ? null : applied)];
    }

    // A minor chord a fifth above an applied dominant belongs to the same passing key.
    private static Applied? RelatedTwo(KeyedChart keyed, int at)
    {
        var chord = keyed.Chart.Chords[at].Chord;
        var next = keyed.Next(at);
        if (next < 0 || chord.Family() is not (ChordFamily.Minor or ChordFamily.HalfDiminished) || keyed.Motion(at, next) != 5
            || keyed.Colours[next] != "7" || Chief(keyed, next) is not { Diminished: false } dominant)
            return null;
        // A minor chord of the home key needs a reason to be heard away from it; a half-diminished one is heard as the two of what follows.
        var scale = keyed.Minor[at] ? MinorScale : MajorScale;
        return chord.Family() == ChordFamily.Minor && chord.Tones.All(t => scale.Contains((keyed.Degrees[at] + t.Degree.Interval) % 12)) ? null
            : new(dominant.Degree, next, false, 2);
    }

    private static Applied? Chief(KeyedChart keyed, int at)
    {
        var chord = keyed.Chart.Chords[at].Chord;
        var family = chord.Family();
        var (degree, minor) = (keyed.Degrees[at], keyed.Minor[at]);
        var diminished = family is ChordFamily.Diminished or ChordFamily.HalfDiminished;
        // A major seventh or sixth is at rest where it stands, whatever comes a fifth below.
        if (!diminished && family is not (ChordFamily.Dominant or ChordFamily.Major or ChordFamily.Augmented) || family == ChordFamily.Major && chord.IsAtRest())
            return null;
        var target = (degree + (diminished ? 1 : 5)) % 12;
        var next = Onward(keyed, at);
        var lands = next >= 0 && keyed.Motion(at, next) == (diminished ? 1 : 5) && keyed.Colours[next] is not ("o" or "h" or "+");
        // Any other degree has a dominant too where the chord at rest on it follows at once: the flat sixth with its seventh, the tonic of the next key.
        // To a plain triad outside the key songs step without leading there, such as from the fourth degree to the flat seventh.
        if (!(minor ? MinorTargets : MajorTargets).Contains(target) && !(lands && target != 0 && family == ChordFamily.Dominant && keyed.Colours[next] == "M"
            && (keyed.OpensKey(at, next) || keyed.Chart.Chords[next].Chord is var rest && (rest.Asks(11) || rest.Asks(9))))
            // The second degree of minor carries no triad at rest, but a dominant stands there in VI7 II7 V7.
            && !(lands && minor && target == 2 && family == ChordFamily.Dominant && keyed.Colours[next] == "7"))
            return null;
        // The tone that gives the chord away lies outside the key.
        var scale = minor ? MinorScale : MajorScale;
        if (chord.Tones.All(t => t.Degree.Interval is 1 or 2 or 3 or 9 && t.Degree.Number > 7 || scale.Contains((degree + t.Degree.Interval) % 12))
            && !(minor && family == ChordFamily.Dominant && degree == 10))
            return null;
        if (degree == 0 && family == ChordFamily.Dominant && (IsBluesTonic(keyed, at) || RestsAtHome(keyed, at, lands || next >= 0 && Delayed(keyed, next, target) ? next : -1)))
            return null;
        // Sevenths and diminished chords say where they want to go; a plain triad says it only by going there.
        if (family == ChordFamily.Diminished && next >= 0 && keyed.Motion(at, next) == 11)
            return null;
        // A half-diminished chord may as well be a colour of the home key on its way down; only by going there it says that it leads.
        var sure = family == ChordFamily.Diminished || family == ChordFamily.Dominant || minor && degree == 2;
        var delayed = next >= 0 && Delayed(keyed, next, target);
        // A diminished chord that holds the root of what follows is a colour of that chord, and leads nowhere else.
        if (family == ChordFamily.Diminished && !lands && !delayed && next >= 0 && keyed.Motion(at, next) is 3 or 6 or 9 && keyed.Colours[next] is "M" or "7" or "m" or "m7")
            return null;
        return lands || sure || delayed ? new(target, lands ? next : null, diminished) : null;
    }

    // A tonic with its seventh that does not go to the fourth degree is only coloured by it; and where its own dominant has led to it, it is home, so that
    // what follows with a seventh too is the fourth degree of a blues.
    private static bool RestsAtHome(KeyedChart keyed, int at, int fourth) =>
        !(keyed.Previous(at) is >= 0 and var two && keyed.Degrees[two] == 7 && keyed.Colours[two] is "m7" or "m" or "h")
        && (fourth < 0 || keyed.Colours[fourth] == "7" && keyed.Previous(at) is >= 0 and var before && keyed.Degrees[before] == 7 && keyed.Colours[before] == "7");

    // The next chord with another root.
    private static int Onward(KeyedChart keyed, int at)
    {
        for (var k = at + 1; k < keyed.Length; k++)
            if (keyed.Motion(at, k) != 0)
                return k;
        return -1;
    }

    // A six-four on the target's root, or the leading-tone chord of the same target, comes between.
    private static bool Delayed(KeyedChart keyed, int next, int target) =>
        Onward(keyed, next) is >= 0 and var later && keyed.Degrees[later] == target
        && (keyed.Chart.Chords[next].Chord.Bass is { } bass && (bass.PitchClass - keyed.Chart.Chords[later].Chord.Root.PitchClass) % 12 == 0
            || keyed.Colours[next] is "o" && keyed.Degrees[next] == (target + 11) % 12);

    /// <summary>Where the tonic is mostly a dominant seventh, as in a blues, the seventh is its colour and leads nowhere, unless its own two goes before.</summary>
    internal static bool IsBluesTonic(KeyedChart keyed, int at)
    {
        if (keyed.Degrees[at] != 0 || keyed.Colours[at] != "7" || keyed.Previous(at) is >= 0 and var two && keyed.Degrees[two] == 7 && keyed.Colours[two] is "m7" or "m" or "h")
            return false;
        return keyed.SeventhAtHome(keyed.Minor[at]);
    }
}
