// Finds the counts that played times stand for: exact where the file is exact, the plainest grid of each beat where it was played.
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Midi;

/// <summary>Brings times to the grid of their beat. A beat is a quarter here.</summary>
internal sealed class Quantiser
{
    // What players divide a beat into, the plainer the cheaper; weights are a judgement: a grid must come this much nearer (in beats) to be believed.
    private static readonly (int Parts, double Cost)[] Grids = [(1, 0), (2, 0.005), (4, 0.01), (3, 0.015), (6, 0.03), (8, 0.035), (5, 0.05), (12, 0.055), (16, 0.06), (7, 0.065), (24, 0.08)];

    private readonly int ticks;
    private readonly Dictionary<long, int> grids = [];

    /// <summary>Learns the grids of all beats.</summary>
    /// <param name="ticks">Ticks a quarter.</param>
    /// <param name="onsets">When notes are struck.</param>
    /// <param name="ends">When they end.</param>
    public Quantiser(int ticks, IReadOnlyCollection<long> onsets, IReadOnlyCollection<long> ends)
    {
        this.ticks = ticks;
        var near = Math.Max(1, ticks / 480.0);
        Exact = onsets.Concat(ends).All(t => Grids.Any(g => Distance(t, g.Parts) * ticks <= near));
        var beats = (Exact ? onsets.Concat(ends) : onsets).GroupBy(t => t / ticks);
        foreach (var beat in beats)
            grids[beat.Key] = Exact
                ? Grids.OrderBy(g => g.Cost).Select(g => g.Parts).FirstOrDefault(p => beat.All(t => Distance(t, p) * ticks <= near), 48)
                : Grids.MinBy(g => beat.Max(t => Distance(t, g.Parts)) + g.Cost).Parts;
    }

    /// <summary>True where every time stands on a grid: the file was written, not played.</summary>
    public bool Exact { get; }

    /// <summary>The time in whole notes that a tick stands for.</summary>
    public Rational Of(long tick)
    {
        var parts = grids.GetValueOrDefault(tick / ticks, 4);
        // Near the end of a beat a time may belong to the next one.
        return Rational.Of(tick / ticks * parts + (long)Math.Round(tick % ticks * (double)parts / ticks), 4 * parts);
    }

    // In beats, to the nearest place of a grid.
    private double Distance(long tick, int parts)
    {
        var place = tick % ticks * (double)parts / ticks;
        return Math.Abs(place - Math.Round(place)) / parts;
    }
}
