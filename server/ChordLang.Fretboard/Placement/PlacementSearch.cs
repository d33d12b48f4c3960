// The best placement of a whole passage at once: a beam over the ways to play each onset, bounded in memory.
using System.Collections.Immutable;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
using W = ChordLang.Fretboard.Placement.PlacementWeights;

namespace ChordLang.Fretboard.Placement;

/// <summary>Places passages on a neck.</summary>
public static class PlacementSearch
{
    private const int Beam = 16;
    private const double Soon = 1e-6;

    /// <summary>The best placements of a passage, best first, at least one, at most <paramref name="most"/>, all different.</summary>
    /// <param name="neck">Where the pitches lie.</param>
    /// <param name="hand">Whose reach counts.</param>
    /// <param name="onsets">The passage, in order of time.</param>
    /// <param name="most">How many are wanted, up to the width of the beam.</param>
    /// <returns>Pitches are exact and no two notes of an onset share a string; a note without a place has null for string and fret.</returns>
    public static ImmutableArray<Placement> Best(Neck neck, Hand hand, ImmutableArray<OnsetToPlace> onsets, int most = 1)
    {
        var passage = onsets.Select(o => new Onset(neck, hand, o)).ToArray();
        Reach.Fill(neck, passage);
        List<State> beam = [new State(neck.Tuning.Strings)];
        var ways = new List<(double Cost, State From, GripChoice Way)>();
        var seen = new HashSet<long>();
        for (var i = 0; i < passage.Length; i++)
        {
            var onset = passage[i];
            if (onset.Ways.Count == 0)
                continue;
            ways.Clear();
            seen.Clear();
            foreach (var way in onset.Ways)
                way.Own = PlacementCost.Own(neck, onset, way, null);
            foreach (var from in beam)
                foreach (var way in onset.Ways)
                    ways.Add((from.Cost + way.Own + PlacementCost.Step(neck, hand, onset, way, from, null), from, way));
            ways.Sort((a, b) => a.Cost.CompareTo(b.Cost));
            var next = new List<State>(Beam);
            foreach (var (cost, from, way) in ways)
            {
                var state = from.After(onset, way, cost, i);
                if (seen.Add(state.Key(onset.Time)))
                    next.Add(state);
                if (next.Count == Beam)
                    break;
            }
            beam = next;
        }
        var fingers = new Dictionary<Voicing, Fingers?>();
        return [.. beam.Take(Math.Clamp(most, 1, Beam)).Select(s => Told(neck, hand, onsets, passage, s, fingers))];
    }

    private static Placement Told(
        Neck neck, Hand hand, ImmutableArray<OnsetToPlace> asked, Onset[] passage, State last, Dictionary<Voicing, Fingers?> known)
    {
        var path = new GripChoice?[passage.Length];
        var amounts = new double[W.Count];
        for (var s = last; s.Way is not null; s = s.Before!)
        {
            path[s.Index] = s.Way;
            PlacementCost.Own(neck, passage[s.Index], s.Way, amounts);
            PlacementCost.Step(neck, hand, passage[s.Index], s.Way, s.Before!, amounts);
        }
        var placed = ImmutableArray.CreateBuilder<PlacedOnset>(passage.Length);
        for (var i = 0; i < passage.Length; i++)
            placed.Add(Told(neck, hand, asked[i], passage[i], path[i], known));
        var parts = new List<CostPart>();
        var at = 0;
        foreach (var row in W.Table)
        {
            var cost = 0.0;
            foreach (var weight in row.Weights)
                cost += weight * amounts[at++];
            if (cost != 0)
                parts.Add(new(row.Says, cost));
        }
        return new(placed.MoveToImmutable(), last.Cost, [.. parts.OrderByDescending(p => p.Cost)]);
    }

    private static PlacedOnset Told(
        Neck neck, Hand hand, OnsetToPlace asked, Onset onset, GripChoice? way, Dictionary<Voicing, Fingers?> known)
    {
        var notes = new PlacedNote[asked.Notes.Length];
        for (var i = 0; i < notes.Length; i++)
            notes[i] = new(asked.Notes[i].Midi, null, null);
        if (way is null)
            return new([.. notes], null);
        var slots = new int?[neck.Tuning.Strings];
        for (var k = 0; k < way.Strings.Length; k++)
        {
            notes[onset.Order[k]] = new(onset.Midi[k], way.Strings[k], way.Frets[k]);
            slots[slots.Length - way.Strings[k]] = way.Frets[k];
        }
        var voicing = new Voicing([.. slots]);
        if (!known.TryGetValue(voicing, out var fingers))
            known[voicing] = fingers = FingeringSearch.Best(neck, hand, voicing).Best;
        return new([.. notes], fingers);
    }

    /// <summary>An onset made ready: notes from the highest down.</summary>
    internal sealed class Onset
    {
        public Onset(Neck neck, Hand hand, OnsetToPlace asked)
        {
            Time = asked.Time;
            Order = [.. Enumerable.Range(0, asked.Notes.Length).OrderByDescending(i => asked.Notes[i].Midi)];
            Midi = [.. Order.Select(i => asked.Notes[i].Midi)];
            End = [.. Order.Select(i => asked.Time + asked.Notes[i].Duration)];
            Role = new int[Midi.Length];
            var given = Order.Select(i => asked.Notes[i].String).ToArray();
            Ways = GripChoice.Of(neck, hand, Midi, given);
        }

        public readonly double Time;
        public readonly int[] Order, Midi, Role;
        public readonly double[] End;
        public readonly List<GripChoice> Ways;
        public double[][] Missed = [];
    }

    /// <summary>What is remembered of a placement up to an onset.</summary>
    internal sealed class State
    {
        public State(int strings)
        {
            (Frets, Ends, Struck) = (new int[strings + 1], new double[strings + 1], new double[strings + 1]);
            Array.Fill(Struck, -1e9);
            (LastString, LastTime) = (new sbyte[128], new double[128]);
        }

        private State(State before) =>
            (Before, Frets, Ends, Struck, LastString, LastTime, Position, PositionTime) =
            (before, [.. before.Frets], [.. before.Ends], [.. before.Struck], [.. before.LastString], [.. before.LastTime], before.Position, before.PositionTime);

        public readonly int[] Frets;
        public readonly double[] Ends, Struck, LastTime;
        public readonly sbyte[] LastString;
        public int Position, Index;
        public double PositionTime = -1e9, Cost;
        public readonly State? Before;
        public GripChoice? Way;

        public State After(Onset onset, GripChoice way, double cost, int index)
        {
            var s = new State(this) { Cost = cost, Index = index, Way = way };
            if (way.Fretted > 0)
                (s.Position, s.PositionTime) = (PlacementCost.Moved(Position, way), onset.Time);
            for (var k = 0; k < way.Strings.Length; k++)
            {
                var q = way.Strings[k];
                (s.Frets[q], s.Ends[q], s.Struck[q]) = (way.Frets[k], onset.End[k], onset.Time);
                if (onset.Midi[k] is >= 0 and < 128 and var m)
                    (s.LastString[m], s.LastTime[m]) = ((sbyte)q, onset.Time);
            }
            return s;
        }

        public long Key(double time)
        {
            long h = Position;
            for (var q = 1; q < Frets.Length; q++)
                h = h * 31 + (Ends[q] > time + Soon || time - Struck[q] <= 1.01 ? Frets[q] + 1 : 0);
            return h;
        }
    }
}
