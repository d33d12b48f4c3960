// What the neighbourhood of an onset asks of the hand: which positions reach the notes around it, who leads, what was struck before.
using ChordLang.Fretboard.Necks;

namespace ChordLang.Fretboard.Placement;

internal static class Surroundings
{
    public const int Positions = 20;

    private const int Most = 200; // neighbours on each side: bounds time in any text
    private const double Beat = 1.01;

    /// <summary>Half-widths of the neighbourhoods, in quarters; the last is the widest.</summary>
    public static readonly double[] Windows = [1, 2.5, 5];

    /// <summary>By neighbourhood and position, from 1: the part of the notes around that the position misses beside the best one.</summary>
    public static double[][] Missed(NeckTable table, IReadOnlyList<OnsetToPlace> passage, int at)
    {
        var missed = new double[Windows.Length][];
        for (var w = 0; w < missed.Length; w++)
        {
            var sum = new double[Positions + 1];
            var total = 0.0;
            var (from, to) = Around(passage, at, Windows[w]);
            for (var i = from; i <= to; i++)
            {
                var weight = 1 - 0.7 * Math.Abs(passage[i].Time - passage[at].Time) / Windows[w];
                foreach (var note in passage[i].Notes)
                {
                    var of = table.Reached(note.Midi);
                    total += weight;
                    for (var p = 1; p <= Positions; p++)
                        sum[p] += weight * of[p];
                }
            }
            var best = sum.Max();
            for (var p = 1; p <= Positions; p++)
                sum[p] = total > 0 ? (best - sum[p]) / total : 0;
            missed[w] = sum;
        }
        return missed;
    }

    /// <summary>By position, from 1: how well a pitch lies there, 0 to 1.</summary>
    public static double[] Reached(Neck neck, int midi)
    {
        var of = new double[Positions + 1];
        for (var s = 1; s <= neck.Tuning.Strings; s++)
            if (neck.FretOf(s, midi) is { } fret)
                for (var p = 1; p <= Positions; p++)
                    of[p] = Math.Max(of[p], fret == 0 || fret >= p && fret <= p + 3 ? 1 : fret == p + 4 || fret == p - 1 ? .5 : 0);
        return of;
    }

    /// <summary>For each pitch from the highest down: 0 alone among its neighbours, 1 the highest, 2 the lowest, 3 between.</summary>
    public static int[] Roles(IReadOnlyList<OnsetToPlace> passage, int at, int[] midi)
    {
        int low = int.MaxValue, high = int.MinValue;
        var (from, to) = Around(passage, at, Beat);
        for (var i = from; i <= to; i++)
            foreach (var note in passage[i].Notes)
                (low, high) = (Math.Min(low, note.Midi), Math.Max(high, note.Midi));
        var roles = new int[midi.Length];
        for (var k = 0; k < roles.Length; k++)
            roles[k] = roles.Length > 1 ? k == 0 ? 1 : k == roles.Length - 1 ? 2 : 3
                : low == high ? 0 : midi[k] >= high ? 1 : midi[k] <= low ? 2 : 3;
        return roles;
    }

    /// <summary>For each pitch: how many onsets ago it was struck last, 0 for longer ago than <paramref name="memory"/> quarters.</summary>
    public static int[] Back(IReadOnlyList<OnsetToPlace> passage, int at, int[] midi, double memory)
    {
        var back = new int[midi.Length];
        for (var k = 0; k < back.Length; k++)
            for (var i = at - 1; i >= 0 && at - i < Most && back[k] == 0 && passage[at].Time - passage[i].Time <= memory; i--)
                foreach (var note in passage[i].Notes)
                    if (note.Midi == midi[k])
                        back[k] = at - i;
        return back;
    }

    private static (int From, int To) Around(IReadOnlyList<OnsetToPlace> passage, int at, double window)
    {
        int from = at, to = at;
        while (from > 0 && at - from < Most && passage[from - 1].Time >= passage[at].Time - window)
            from--;
        while (to < passage.Count - 1 && to - at < Most && passage[to + 1].Time <= passage[at].Time + window)
            to++;
        return (from, to);
    }
}
