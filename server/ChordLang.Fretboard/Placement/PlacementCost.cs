// How much of each weight a way to play an onset has, alone and after what came before.
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using W = ChordLang.Fretboard.Placement.PlacementWeights;

namespace ChordLang.Fretboard.Placement;

internal static class PlacementCost
{
    private const double Hundred = 100 * 100; // square of 100 mm

    /// <summary>Cost of a way for itself; amounts are added where they are asked for.</summary>
    public static double Own(Neck neck, PlacementSearch.Onset onset, GripChoice way, double[]? amounts)
    {
        var sum = new Sum(amounts);
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
        }
        if (way.Fretted > 0)
            for (var w = 0; w < Reach.Windows.Length; w++)
            {
                var missed = 1.0;
                for (var p = Math.Max(1, way.High - 3); p <= Math.Max(way.Low, way.High - 3); p++)
                    missed = Math.Min(missed, onset.Missed[w][Math.Min(p, Reach.Positions)]);
                sum.Add(W.Reach + w, missed);
                sum.Add(W.Reach + 3 + w, missed * missed);
                sum.Add(W.Reach + 6 + 4 * w + (missed < .02 ? 0 : missed < .1 ? 1 : missed < .25 ? 2 : 3));
            }
        return sum.Total;
    }

    /// <summary>Cost of a way after what came before.</summary>
    public static double Step(Neck neck, Hand hand, PlacementSearch.Onset onset, GripChoice way, PlacementSearch.State before, double[]? amounts)
    {
        var sum = new Sum(amounts);
        var time = onset.Time;
        if (way.Fretted > 0 && before.Position > 0)
        {
            var to = Moved(before.Position, way);
            var pause = time - before.PositionTime;
            sum.Add(W.Shift + 10 * (pause <= .26 ? 0 : pause <= .51 ? 1 : pause <= 1.01 ? 2 : 3) + Math.Min(9, Math.Abs(to - before.Position)));
            sum.Add(W.Shift + 40, Math.Max(0, before.Position - to));
        }
        var strings = before.Frets.Length - 1;
        Span<int> frets = stackalloc int[strings];
        for (var s = 1; s <= strings; s++)
            frets[strings - s] = before.Ends[s] > time + 1e-6 ? before.Frets[s] : -1;
        for (var k = 0; k < way.Strings.Length; k++)
        {
            ref var fret = ref frets[strings - way.Strings[k]];
            if (fret >= 0 && fret != way.Frets[k])
                sum.Add(W.Cut);
            fret = -1;
            if (onset.Midi[k] is >= 0 and < 128 and var m && before.LastString[m] != 0)
            {
                var ago = time - before.LastTime[m];
                sum.Add(W.Again + (before.LastString[m] == way.Strings[k] ? 0 : 4) + (ago <= 1.01 ? 0 : ago <= 4.01 ? 1 : ago <= 16.01 ? 2 : 3));
            }
        }
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
            if (neck.Distance(low, high) > hand.Limit(Finger.First, Finger.Little))
                sum.Add(W.Held + 8);
            sum.Add(W.Held + 9, Square(neck, low, high));
            if (needed >= 4)
                sum.Add(W.Held + (needed > 4 ? 10 : 11));
        }
        return sum.Total;
    }

    /// <summary>Where the first finger goes: no further than the frets of the way ask for.</summary>
    public static int Moved(int position, GripChoice way) =>
        position == 0 || way.Low < position ? way.Low : way.High > position + 3 ? Math.Min(way.Low, way.High - 3) : position;

    private static double Square(Neck neck, int low, int high) => neck.Distance(low, high) is var mm ? mm * mm / Hundred : 0;

    private struct Sum(double[]? amounts)
    {
        public double Total;

        public void Add(int row, double amount = 1)
        {
            Total += W.Flat[row] * amount;
            if (amounts is not null)
                amounts[row] += amount;
        }
    }
}
