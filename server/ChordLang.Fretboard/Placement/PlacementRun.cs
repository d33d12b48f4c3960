// A search that can be taken up again: after an edit only what the edit can have changed is searched anew.
using System.Collections.Immutable;
using System.Runtime.InteropServices;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using W = ChordLang.Fretboard.Placement.PlacementWeights;

namespace ChordLang.Fretboard.Placement;

/// <summary>A passage with the search over it. Immutable; its memory grows with the passage, and it keeps no run before it alive.</summary>
public sealed class PlacementRun
{
    private const int Beam = 12; // wider hardly ever finds anything better
    private const double Close = 1e-5, Soon = 1e-3;

    private readonly NeckTable table;
    private readonly Onset[] passage;
    private readonly State[][] beams;
    // The best way that the run before told, until this one has told its own; then its own.
    private PlacedPath? path;
    private Placement? best;

    private PlacementRun(Neck neck, Hand hand, ImmutableArray<OnsetToPlace> onsets, PlacementRun? before)
    {
        (Neck, Hand, Onsets) = (neck, hand, onsets);
        (table, passage, beams) = (before is { table.Full: false } ? before.table : new(neck), new Onset[onsets.Length], new State[onsets.Length][]);
        if (before is null)
        {
            Prepare(0, onsets.Length);
            Search(0, null, 0, 0);
            return;
        }
        path = before.path;
        // What is alike at the beginning and at the end, and of that what lies far enough from the edit to have the same surroundings.
        var (old, n) = (before.Onsets, onsets.Length);
        int head = 0, tail = 0, most = Math.Min(n, old.Length);
        while (head < most && onsets[head].SameAs(old[head]) && Gap(onsets, head) == Gap(old, head))
            head++;
        while (tail < most - head && onsets[n - 1 - tail].SameAs(old[^(tail + 1)]) && (tail == 0 || Math.Abs(Gap(onsets, n - tail) - Gap(old, old.Length - tail)) < Close))
            tail++;
        var (kept, again) = (head, n - tail);
        var window = Surroundings.Windows[^1];
        while (kept > 0 && (head < n && onsets[head].Time - onsets[kept - 1].Time <= window || head < old.Length && old[head].Time - onsets[kept - 1].Time <= window))
            kept--;
        while (again < n && onsets[again].Time - onsets[n - tail].Time <= Math.Max(window, Onset.Memory))
            again++;
        Array.Copy(before.passage, passage, kept);
        Array.Copy(before.beams, beams, kept);
        Array.Copy(before.passage, again + old.Length - n, passage, again, n - again);
        Prepare(kept, again);
        Search(kept, before, again, old.Length - n);
    }

    /// <summary>Where the pitches lie.</summary>
    public Neck Neck { get; }

    /// <summary>Whose reach counts.</summary>
    public Hand Hand { get; }

    /// <summary>The passage.</summary>
    public ImmutableArray<OnsetToPlace> Onsets { get; }

    /// <summary>How many onsets this run had to search; the others were taken over.</summary>
    public int Searched { get; private set; }

    /// <summary>Searches a passage; with a run over an earlier state of it, only what has changed. The answer is the same either way.</summary>
    public static PlacementRun Of(Neck neck, Hand hand, ImmutableArray<OnsetToPlace> onsets, PlacementRun? before = null) =>
        new(neck, hand, onsets, before is not null && before.Neck == neck && before.Hand == hand ? before : null);

    /// <summary>The best placements, best first, all different.</summary>
    /// <param name="most">How many at most, up to the width of the beam.</param>
    public ImmutableArray<Placement> Best(int most = 1) =>
        [Best(), .. Enumerable.Range(1, Math.Clamp(most, 1, beams.Length == 0 ? 1 : beams[^1].Length) - 1).Select(last => Told(last, null).Placement)];

    // Two threads that ask at once find the same.
    private Placement Best()
    {
        if (Volatile.Read(ref best) is { } known)
            return known;
        var (found, way) = Told(0, path);
        path = way;
        Volatile.Write(ref best, found);
        return found;
    }

    private static double Gap(ImmutableArray<OnsetToPlace> onsets, int i) => i == 0 ? 0 : onsets[i].Time - onsets[i - 1].Time;

    private void Prepare(int from, int to)
    {
        for (var i = from; i < to; i++)
            passage[i] = new(table, Hand, Onsets, i);
    }

    private void Search(int from, PlacementRun? before, int again, int shift)
    {
        State[] start = [new State(table.Strings)];
        var limit = Hand.Limit(Finger.First, Finger.Little);
        var ways = new Steps();
        var seen = new HashSet<long>();
        var alike = -1; // since which onset the beams have been as they were
        for (var i = from; i < passage.Length; i++)
        {
            var (beam, onset, passed) = (i == 0 ? start : beams[i - 1], passage[i], Gap(Onsets, i));
            beams[i] = onset.Ways.Count == 0 ? [.. beam.Select((s, j) => s.After(onset, null, passed, s.Cost, j))] : Next(beam, onset, i, passed, limit, ways, seen);
            Searched++;
            if (before is null || i < again)
                continue;
            alike = !Alike(beams[i], before.beams[i + shift]) ? -1 : alike < 0 ? i : alike;
            if (alike >= 0 && Onsets[i].Time - Onsets[alike].Time > Onset.Memory)
            {
                // All that a later onset can ask about is as it was: so is all that follows.
                Array.Copy(before.beams, i + 1 + shift, beams, i + 1, beams.Length - i - 1);
                return;
            }
        }
    }

    private State[] Next(State[] beam, Onset onset, int i, double passed, double limit, Steps ways, HashSet<long> seen)
    {
        ways.Clear();
        seen.Clear();
        Span<Again> again = stackalloc Again[onset.Midi.Length];
        for (var j = 0; j < beam.Length; j++)
        {
            Remember(again, onset, i, j);
            for (var w = 0; w < onset.Ways.Count; w++)
                ways.Add(beam[j].Cost + onset.Own(w) + PlacementCost.Step(table, limit, onset, onset.Ways[w], beam[j], passed, again, null), j, w);
        }
        ways.Sort();
        var next = new List<State>(Beam);
        for (var n = 0; n < ways.Count; n++)
        {
            var (cost, j, w) = ways[n];
            if (seen.Add(beam[j].KeyAfter(onset.Ways[w], passed)))
                next.Add(beam[j].After(onset, onset.Ways[w], passed, cost, j));
            if (next.Count == Beam)
                break;
        }
        return [.. next];
    }

    // On which strings the pitches of an onset were struck last, on the way that leads to one state of the onset before.
    private void Remember(Span<Again> again, Onset onset, int i, int j)
    {
        var furthest = 0;
        for (var k = 0; k < again.Length; k++)
            (again[k], furthest) = (default, Math.Max(furthest, onset.Back[k]));
        for (var back = 1; back <= furthest; back++)
        {
            var (at, state) = (i - back, beams[i - back][j]);
            for (var k = 0; k < again.Length; k++)
                if (onset.Back[k] == back && state.Way is { } way && Array.IndexOf(passage[at].Midi, onset.Midi[k]) is >= 0 and var note)
                    again[k] = new(way.Strings[note], Onsets[i].Time - Onsets[at].Time);
            j = state.From;
        }
    }

    private static bool Alike(State[] now, State[] then)
    {
        if (now.Length != then.Length)
            return false;
        for (var j = 0; j < now.Length; j++)
            if (!now[j].StepsLike(then[j]) || Math.Abs(now[j].Cost - now[0].Cost - then[j].Cost + then[0].Cost) > Close)
                return false;
        return true;
    }

    private (Placement Placement, PlacedPath Path) Told(int last, PlacedPath? earlier)
    {
        var (limit, start, path) = (Hand.Limit(Finger.First, Finger.Little), new State(table.Strings), PlacedPath.Back(passage, beams, Onsets, last, earlier));
        var (costs, worst) = (new double[W.Table.Length], new (double Cost, int Onset)[W.Table.Length]);
        for (var i = passage.Length - 1; i >= 0; i--)
        {
            var (onset, state, before) = (passage[i], path.States[i], i == 0 ? start : path.States[i - 1]);
            path.Steps[i] ??= Step(before, state, Gap(Onsets, i));
            if (state.Way is not { } way)
                continue;
            if (path.Own[i] is not { } own)
            {
                own = path.Own[i] = new double[W.Table.Length];
                var again = new Again[onset.Midi.Length];
                Remember(again, onset, i, state.From);
                PlacementCost.Own(table, onset, way, own);
                PlacementCost.Step(table, limit, onset, way, before, Gap(Onsets, i), again, own);
            }
            for (var row = 0; row < costs.Length; row++)
            {
                costs[row] += own[row];
                if (own[row] >= worst[row].Cost)
                    worst[row] = (own[row], i);
            }
        }
        path.Fingers = table.Passage(Hand, path, earlier);
        for (var i = 0; i < passage.Length; i++)
            path.Placed[i] = path.Known(i, earlier) ?? new(Told(Onsets[i], passage[i], path.States[i].Way), path.States[i].Way is not null && path.Fingers[i] is { } hold ? FingeringCandidates.Named(hold) : null);
        var parts = W.Table.Select((row, r) => new CostPart(row.Says, costs[r], worst[r].Onset)).Where(p => p.Cost != 0);
        return (new(ImmutableArray.Create(path.Placed), costs.Sum(), [.. parts.OrderByDescending(p => p.Cost)]), path);
    }

    private static ImmutableArray<PlacedNote> Told(OnsetToPlace asked, Onset onset, GripChoice? way)
    {
        var notes = new PlacedNote[asked.Notes.Length];
        for (var i = 0; i < notes.Length; i++)
            notes[i] = new(asked.Notes[i].Midi, null, null);
        for (var k = 0; k < way?.Strings.Length; k++)
            notes[onset.Order[k]] = new(onset.Midi[k], way.Strings[k], way.Frets[k]);
        return ImmutableCollectionsMarshal.AsImmutableArray(notes);
    }

    // What is struck, and what still has to sound then.
    private FingeredStep Step(State before, State after, double passed)
    {
        var (struck, held) = (new sbyte[table.Strings], new sbyte[table.Strings]);
        Array.Fill(struck, (sbyte)-1);
        Array.Fill(held, (sbyte)-1);
        for (var s = 1; s <= table.Strings; s++)
            if (after.Way is { } way && Array.IndexOf(way.Strings, s) is >= 0 and var k)
                struck[^s] = (sbyte)way.Frets[k];
            else if (before.Left[s] - passed > Soon)
                held[^s] = before.Frets[s];
        return new(struck, held, after.Position);
    }

    // All steps from a beam, to be sorted by what they cost.
    private sealed class Steps
    {
        private double[] costs = new double[64];
        private (int From, int Way)[] steps = new (int, int)[64];

        public int Count { get; private set; }

        public (double Cost, int From, int Way) this[int n] => (costs[n], steps[n].From, steps[n].Way);

        public void Clear() => Count = 0;

        public void Add(double cost, int from, int way)
        {
            if (Count == costs.Length)
            {
                Array.Resize(ref costs, 2 * Count);
                Array.Resize(ref steps, 2 * Count);
            }
            (costs[Count], steps[Count++]) = (cost, (from, way));
        }

        public void Sort() => Array.Sort(costs, steps, 0, Count);
    }
}
