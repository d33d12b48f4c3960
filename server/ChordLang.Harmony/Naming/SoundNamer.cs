// Names a sound: weighs all twelve pitch classes as its root and says what each name would mean.
using System.Collections.Immutable;
using ChordLang.Harmony.Weights;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Naming;

/// <summary>Ranks the readings of a set of pitches over its bass.</summary>
public static class SoundNamer
{
    /// <summary>No more names than a player would read.</summary>
    public const int MostNames = 8;

    private const double LeastScore = 0.001;

    // Set by hand: a third and seventh alone already stand for a chord when somebody else plays its root, which grips out of context under-rate.
    private const double GuideTones = 1.5;
    private const double NoThird = -2, HeldThird = 1.5, WholeTriad = 3;

    private static readonly WeightTable Weights = WeightTable.Load("naming.tsv");

    /// <summary>Names the pitches.</summary>
    /// <param name="pitchesLowToHigh">Sounding pitches, lowest first; the first is the bass.</param>
    /// <param name="context">What is known around the sound.</param>
    public static SoundNames Name(ImmutableArray<Pitch> pitchesLowToHigh, NamingContext context)
    {
        var classes = pitchesLowToHigh.Aggregate(0, (set, p) => set | 1 << p.Name.PitchClass);
        if (int.PopCount(classes) < 2)
            return new([], [], null, null);
        var bass = pitchesLowToHigh[0].Name.PitchClass;
        var weighed = Enumerable.Range(0, 12).Select(root => Weigh(root, classes, bass, context)).ToArray();
        var most = weighed.Max(w => w.Weight);
        var sum = weighed.Sum(w => Math.Exp(w.Weight - most));
        var ranked = weighed.Select(w => w with { Weight = Math.Exp(w.Weight - most) / sum })
            .OrderByDescending(w => w.Weight).ThenBy(w => Above(w.Root, bass)).ToArray();
        var readings = ranked.Take(MostNames).Where(w => w.Weight >= LeastScore)
            .Select(w => Reading(w, pitchesLowToHigh, classes, context)).ToImmutableArray();
        if (Symmetry.Of(Turn(classes, ranked[0].Root)) is not { } symmetry)
            return new(readings, [], null, null);
        var equal = Enumerable.Range(0, 12 / symmetry.Shift)
            .Select(k => RootSpelling.Of((ranked[0].Root + k * symmetry.Shift) % 12, readings[0].Tones.Any(t => t.Degree == new Degree(3, -1)), pitchesLowToHigh, context));
        return new(readings, [.. equal], symmetry.Shift, symmetry.Family);
    }

    private sealed record Weighed(int Root, ToneReading Reading, double Weight, string? Reason);

    private static Weighed Weigh(int root, int classes, int bass, NamingContext context)
    {
        var intervals = Turn(classes, root);
        var reading = ToneReading.Of(intervals);
        var (lift, reason) = ContextWeight.Of(root, reading, classes, context);
        return new(root, reading, Weights.Sum(RootFeatures.Of(intervals, Above(bass, root))) + lift
            + Prior(reading, Above(bass, root)), reason);
    }

    private static double Prior(ToneReading reading, int bass) => reading switch
    {
        { Rootless: true, Third.Number: 3, Seventh: { Number: 7, Alteration: > -2 } } => GuideTones,
        { Third: null, Fifth: not { Alteration: 0 } } => NoThird,
        // C E A is A minor over its third: players say C6 where its fifth sounds too.
        { IsTriad: true } when bass != 0 => WholeTriad,
        // Root, fourth, flat seventh and ninth from the bass up: players say the suspended dominant before the triad over a foreign bass.
        { Third: { Number: 4 }, Seventh: { Number: 7, Alteration: -1 } } when bass == 0 && reading.Tensions.Any(t => t is { Number: 9, Alteration: 0 }) => HeldThird,
        _ => 0,
    };

    private static SoundReading Reading(Weighed weighed, ImmutableArray<Pitch> pitches, int classes, NamingContext context)
    {
        var (full, bass) = (weighed.Reading, pitches[0].Name.PitchClass);
        var over = Above(bass, weighed.Root);
        var root = RootSpelling.Of(weighed.Root, full.Third == new Degree(3, -1), pitches, context);
        var degrees = full.Sounding.ToDictionary(d => d.Interval);
        // A bass that is no chord tone and sounds nowhere else is written under the slash, not into the chord above it.
        var foreign = over != 0 && degrees[over].Number is not (1 or 3 or 5 or 6 or 7) && !full.Rootless && int.PopCount(classes) > 3
            && pitches.Count(p => p.Name.PitchClass == bass) == 1;
        var named = foreign ? ToneReading.Of(Turn(classes, weighed.Root) & ~(1 << over)) : full;
        foreach (var degree in named.Sounding)
            degrees[degree.Interval] = degree;
        var low = RootSpelling.Bass(degrees[over].Above(root), root);
        var slash = over != 0 && !full.Rootless;
        var symbol = root + ReadingSymbol.Suffix(named) + (slash ? $"/{low}" : "");
        var tones = pitches.Select(p => degrees[Above(p.Name.PitchClass, weighed.Root)] is var d ? new SoundTone(Pitch.Of(p.Midi, d.Above(root)), d) : null!);
        return new(symbol, root, low, ChordReader.Read(symbol).Chord, [.. tones], named.Missing, full.Rootless, Math.Round(weighed.Weight, 4),
            ReadingReason.Of(symbol, root, low, named, over, slash, foreign, weighed.Reason));
    }

    private static int Turn(int classes, int root) => (classes >> root | classes << (12 - root)) & 0xFFF;

    private static int Above(int pitchClass, int root) => (pitchClass - root + 12) % 12;
}
