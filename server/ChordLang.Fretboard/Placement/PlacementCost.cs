// How much of each weight a way to play an onset has, alone and after what came before.
using W = ChordLang.Fretboard.Placement.PlacementWeights;

namespace ChordLang.Fretboard.Placement;

/// <summary>On which string a pitch was struck last, and how long ago; string 0 for not lately.</summary>
internal readonly record struct Again(int String, double Ago);

internal static class PlacementCost
{
    private const double Hundred = 100 * 100; // square of 100 mm

    /// <summary>Cost of a way for itself; by rows of the table where they are asked for.</summary>
    public static double Own(NeckTable neck, Onset onset, GripChoice way, double[]? rows)
    {
        var sum = new Sum(rows);
        var n = way.Strings.Length;
        for (var k = 0; k < n; k++)
        {
            var s = Math.Min(5, way.Strings[k] - 1);
            sum.Add(W.Fret + 16 * onset.Role[k] + Math.Min(15, way.Frets[k]));
            if (way.Frets[k] == 0)
                sum.Add(W.Open + s);
            sum.Add(W.Strings + 6 * onset.Role[k] + s);
        }
        if (n > 1)
        {
            if (way.Fretted > 1)
            {
                sum.Add(W.Width + Math.Min(6, way.High - way.Low));
                sum.Add(W.Width + 7, Square(neck, way.Low, way.High));
            }
            sum.Add(W.Needed + Math.Min(4, way.Needed));
            if (way.Needed < way.Fretted)
                sum.Add(W.Needed + 5);
            int gap = 0, crossed = 0;
            for (var k = 1; k < n; k++)
                if (way.Strings[k] < way.Strings[k - 1])
                    crossed++;
                else
                    gap += way.Strings[k] - way.Strings[k - 1] - 1;
            sum.Add(W.Lie, gap);
            sum.Add(W.Lie + 1, crossed);
            if (way.Low >= 4)
                sum.Add(W.Lie + 2, n - way.Fretted);
            if (way.Fretted < n && way.Low >= 7)
                sum.Add(W.Lie + 3);
            if (n >= 3 && gap == 0)
                sum.Add(W.Lie + 4);
            for (var k = 1; k < n; k++)
                sum.Add(W.Pair + Lying(way.Strings[k - 1], way.Frets[k - 1], way.Strings[k], way.Frets[k]));
        }
        if (way.Fretted > 0)
            for (var w = 0; w < Surroundings.Windows.Length; w++)
            {
                var missed = 1.0;
                for (var p = Math.Max(1, way.High - 3); p <= Math.Max(way.Low, way.High - 3); p++)
                    missed = Math.Min(missed, onset.Missed[w][Math.Min(p, Surroundings.Positions)]);
                sum.Add(W.Reach + w, missed);
                sum.Add(W.Reach + 3 + w, missed * missed);
                sum.Add(W.Reach + 6 + 4 * w + (missed < .02 ? 0 : missed < .1 ? 1 : missed < .25 ? 2 : 3));
            }
        if (onset.Position is { } asked)
            foreach (var fret in way.Frets)
                sum.Add(fret == 0 ? W.Asked + 1 : W.Asked, fret == 0 ? 1 : Math.Max(0, Math.Max(asked - fret, fret - asked - 3)));
        return sum.Total;
    }

    /// <summary>Cost of a way after what came before, so many quarters later.</summary>
    public static double Step(NeckTable neck, double limit, Onset onset, GripChoice way, State before, double passed, ReadOnlySpan<Again> again, double[]? rows)
    {
        var sum = new Sum(rows);
        if (way.Fretted > 0 && before.Position > 0)
        {
            var to = Moved(before.Position, way);
            var pause = before.PositionAgo + passed;
            sum.Add(W.Shift + 10 * (pause <= .26 ? 0 : pause <= .51 ? 1 : pause <= 1.01 ? 2 : 3) + Math.Min(9, Math.Abs(to - before.Position)));
            sum.Add(W.Shift + 40, Math.Max(0, before.Position - to));
        }
        var strings = before.Frets.Length - 1;
        Span<int> frets = stackalloc int[strings];
        for (var s = 1; s <= strings; s++)
            frets[strings - s] = before.Left[s] - passed > 1e-6 ? before.Frets[s] : -1;
        for (var k = 0; k < way.Strings.Length; k++)
        {
            ref var fret = ref frets[strings - way.Strings[k]];
            if (fret >= 0 && fret != way.Frets[k])
                sum.Add(W.Cut);
            fret = -1;
            if (onset.From[k] is { } from && (before.Ago[way.Strings[k]] + passed > Onset.Memory || neck.Neck.Midi(way.Strings[k], before.Frets[way.Strings[k]]) != from))
                sum.Add(W.Slur);
            if (again[k].String != 0)
                sum.Add(W.Again + (again[k].String == way.Strings[k] ? 0 : 3) + (again[k].Ago <= 1.01 ? 0 : again[k].Ago <= 4.01 ? 1 : 2));
        }
        Line(ref sum, onset, way, before, passed);
        int low = way.Low, high = way.High;
        var held = false;
        foreach (var fret in frets)
            if (fret > 0)
                (held, low, high) = (true, Math.Min(low, fret), Math.Max(high, fret));
        if (held && way.Fretted > 0)
        {
            for (var k = 0; k < way.Strings.Length; k++)
                frets[strings - way.Strings[k]] = way.Frets[k];
            var needed = GripChoice.FingersNeeded(frets);
            sum.Add(W.Held + Math.Min(7, high - low));
            if (neck.Distance(low, high) > limit)
                sum.Add(W.Held + 8);
            sum.Add(W.Held + 9, Square(neck, low, high));
            if (needed >= 4)
                sum.Add(W.Held + (needed > 4 ? 10 : 11));
        }
        return sum.Total;
    }

    // How the notes lie to those struck within the last two quarters: arpeggios stay in a grip, melodies move over the strings as players move.
    private static void Line(ref Sum sum, Onset onset, GripChoice way, State before, double passed)
    {
        var part = way.Strings.Length > 2 ? 0.5 : 1; // a full grip has many such pairs
        for (var q = 1; q < before.Frets.Length; q++)
        {
            var ago = before.Ago[q] + passed;
            if (ago > 2.01)
                continue;
            var (time, fret, k) = (ago <= .51 ? 0 : ago <= 1.01 ? 1 : 2, before.Frets[q], Array.IndexOf(way.Strings, q));
            if (k >= 0)
                sum.Add(W.Along + time + 3 * (fret == 0 && way.Frets[k] > 0 ? 15 : fret > 0 && way.Frets[k] == 0 ? 16 : Math.Clamp(way.Frets[k] - fret, -7, 7) + 7));
            else
                for (k = 0; k < way.Strings.Length; k++)
                    sum.Add(W.Near + time + 3 * Lying(way.Strings[k], way.Frets[k], q, fret), part);
        }
        if (before.Way is { } last && passed <= 2.01)
            sum.Add(W.Melody + (passed <= .51 ? 0 : 1)
                + 2 * (7 * (Math.Clamp(onset.Midi[0] - before.Top, -7, 7) + 7) + Math.Clamp(way.Strings[0] - last.Strings[0], -3, 3) + 3));
    }

    // How one place lies to another: strings apart, and frets apart or which of them is open.
    private static int Lying(int s, int fret, int otherString, int otherFret) => 14 * (Math.Clamp(otherString - s, -5, 5) + 5)
        + (fret == 0 ? otherFret == 0 ? 11 : 12 : otherFret == 0 ? 13 : Math.Clamp(otherFret - fret, -5, 5) + 5);

    /// <summary>Where the first finger goes: no further than the frets of the way ask for.</summary>
    public static int Moved(int position, GripChoice way) =>
        position == 0 || way.Low < position ? way.Low : way.High > position + 3 ? Math.Min(way.Low, way.High - 3) : position;

    private static double Square(NeckTable neck, int low, int high) => neck.Distance(low, high) is var mm ? mm * mm / Hundred : 0;

    private struct Sum(double[]? rows)
    {
        public double Total;

        public void Add(int weight, double amount = 1)
        {
            var cost = W.Flat[weight] * amount;
            Total += cost;
            if (rows is not null)
                rows[W.RowOf[weight]] += cost;
        }
    }
}
