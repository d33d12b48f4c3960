// What the neighbourhood of an onset asks of the hand: which positions reach the notes around it, and who leads.
using ChordLang.Fretboard.Necks;

namespace ChordLang.Fretboard.Placement;

internal static class Reach
{
    public const int Positions = 20;

    /// <summary>Half-widths of the neighbourhoods, in quarters.</summary>
    public static readonly double[] Windows = [1, 2.5, 5];

    /// <summary>Sets, for each onset, the part of the notes around it that each position misses beside the best one, and the roles of its notes.</summary>
    public static void Fill(Neck neck, PlacementSearch.Onset[] passage)
    {
        var reached = new Dictionary<int, double[]>();
        for (var i = 0; i < passage.Length; i++)
        {
            Roles(passage, i);
            var onset = passage[i];
            onset.Missed = new double[Windows.Length][];
            for (var w = 0; w < Windows.Length; w++)
                onset.Missed[w] = Missed(neck, passage, i, Windows[w], reached);
        }
    }

    private static double[] Missed(Neck neck, PlacementSearch.Onset[] passage, int i, double window, Dictionary<int, double[]> reached)
    {
        var sum = new double[Positions + 1];
        var total = 0.0;
        foreach (var other in Around(passage, i, window))
        {
            var weight = 1 - 0.7 * Math.Abs(other.Time - passage[i].Time) / window;
            foreach (var midi in other.Midi)
            {
                if (!reached.TryGetValue(midi, out var of))
                    reached[midi] = of = Reached(neck, midi);
                total += weight;
                for (var p = 1; p <= Positions; p++)
                    sum[p] += weight * of[p];
            }
        }
        var best = sum.Max();
        for (var p = 1; p <= Positions; p++)
            sum[p] = total > 0 ? (best - sum[p]) / total : 0;
        return sum;
    }

    private static double[] Reached(Neck neck, int midi)
    {
        var of = new double[Positions + 1];
        for (var s = 1; s <= neck.Tuning.Strings; s++)
            if (neck.FretOf(s, midi) is { } fret)
                for (var p = 1; p <= Positions; p++)
                    of[p] = Math.Max(of[p], fret == 0 || fret >= p && fret <= p + 3 ? 1 : fret == p + 4 || fret == p - 1 ? .5 : 0);
        return of;
    }

    // 0 alone among its neighbours, 1 the highest, 2 the lowest, 3 between.
    private static void Roles(PlacementSearch.Onset[] passage, int i)
    {
        var onset = passage[i];
        int low = int.MaxValue, high = int.MinValue;
        foreach (var other in Around(passage, i, 1.01))
            foreach (var midi in other.Midi)
                (low, high) = (Math.Min(low, midi), Math.Max(high, midi));
        for (var k = 0; k < onset.Role.Length; k++)
            onset.Role[k] = onset.Role.Length > 1 ? k == 0 ? 1 : k == onset.Role.Length - 1 ? 2 : 3
                : low == high ? 0 : onset.Midi[k] >= high ? 1 : onset.Midi[k] <= low ? 2 : 3;
    }

    private const int Most = 200; // neighbours on each side: bounds time in any text

    private static IEnumerable<PlacementSearch.Onset> Around(PlacementSearch.Onset[] passage, int i, double window)
    {
        for (var j = i; j >= 0 && i - j < Most && passage[j].Time >= passage[i].Time - window; j--)
            yield return passage[j];
        for (var j = i + 1; j < passage.Length && j - i < Most && passage[j].Time <= passage[i].Time + window; j++)
            yield return passage[j];
    }
}
