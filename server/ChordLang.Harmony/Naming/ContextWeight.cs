// Lets the key and the neighbours speak for a root: the same grip is another chord in another place.
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Chords;

namespace ChordLang.Harmony.Naming;

/// <summary>How much the surroundings lift a root, in natural-log units against the weights of the sound itself.</summary>
internal static class ContextWeight
{
    // Set by hand: a context can overturn two readings that are near, and a chart symbol that fits overturns all.
    private const double Chart = 9, ChartRoot = 2, InKey = 0.8, AllInKey = 0.6, DominantToNext = 3, SubstituteToNext = 2.5, TwoToNext = 2, FromDominant = 1.5, FromTwo = 1.5;

    public static (double Lift, string? Reason) Of(int root, ToneReading reading, int classes, NamingContext context)
    {
        var (lift, reason) = (0.0, (string?)null);
        void Add(double by, string why)
        {
            lift += by;
            reason = why;
        }

        var dominant = reading is { Third: { Number: 3, Alteration: 0 } or { Number: 4 } or null, Seventh: { Number: 7, Alteration: -1 } };
        // A minor chord with its major seventh is a tonic, and a diminished seventh no two (common practice).
        var two = reading is { Third: { Number: 3, Alteration: -1 }, Seventh: null or { Number: 6 } or { Number: 7, Alteration: -1 } };
        if (context.Key is { } key)
        {
            var inKey = Enumerable.Range(0, 12).Where(n => (classes >> n & 1) != 0).All(key.Holds);
            lift += (key.Holds(root) ? InKey : 0) + (inKey && key.Holds(root) ? AllInKey : 0);
            if (key.Tonic is { } tonic && tonic.PitchClass == root && TonicChords.Fits(reading, key.Mode))
                Add(0, $"it is the tonic of {key}");
        }
        if (context.Before is { } before)
        {
            var down = Up(root, before.Root.PitchClass);
            if (before.IsDominant() && down is 5 or 11)
                Add(FromDominant, $"{before.Symbol} before it resolves there");
            else if (dominant && down == 5 && before.IsMinorSeventh())
                Add(FromTwo, $"{before.Symbol} before it is its related two");
        }
        if (context.After is { } after)
        {
            var down = Up(after.Root.PitchClass, root);
            if (dominant && down == 5)
                Add(DominantToNext, $"it is the dominant of {after.Symbol}");
            else if (dominant && down == 11)
                Add(SubstituteToNext, $"it leads to {after.Symbol} as a tritone substitute");
            else if (two && down == 5 && after.IsDominant())
                Add(TwoToNext, $"it is the related two of {after.Symbol}");
            else if (reading.Seventh is { Alteration: -2 } && down == 1)
                Add(DominantToNext, $"it leads to {after.Symbol} by a semitone");
        }
        if (context.Chart is { } chart && chart.Root.PitchClass == root)
        {
            var fits = Enumerable.Range(0, 12).Where(n => (classes >> n & 1) != 0).All(n => chart.RoleOf(n) != ToneRole.Contradiction);
            Add(fits ? Chart : ChartRoot, $"the chart writes {chart.Symbol} here");
        }
        return (lift, reason);
    }

    private static int Up(int to, int from) => (to - from + 12) % 12;
}
