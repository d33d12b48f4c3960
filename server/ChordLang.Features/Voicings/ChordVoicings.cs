// Looks for other grips of a chord around a place on the neck, under a top note that stays.
using System.Collections.Immutable;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
using ChordLang.Theory.Chords;

namespace ChordLang.Features.Voicings;

/// <summary>Voicings of a chord.</summary>
public static class ChordVoicings
{
    private const int Width = 4, Around = 5, Least = 3, Most = 5, Tried = 40;

    // Ours: what a player gives up last comes dearest.
    private const double PerFret = 1, PerString = 0.5, PerNote = 1.5, PerDouble = 1.2, PerGap = 0.8, NoRoot = 0.6, OddBass = 1.5, PerColour = 1;

    /// <summary>
    /// Grips that hold every essential tone of a chord and nothing that fights it, with a given top note, near another grip; nearest first, each with
    /// fingers that hold it. The slash bass, where there is one, is lowest.
    /// </summary>
    /// <param name="neck">The neck.</param>
    /// <param name="hand">Whose reach counts.</param>
    /// <param name="chord">The chord.</param>
    /// <param name="top">The top note, as a MIDI number.</param>
    /// <param name="near">The grip that they should lie near; it is not among them.</param>
    /// <param name="most">How many are wanted.</param>
    public static ImmutableArray<Voicing> Near(Neck neck, Hand hand, Chord chord, int top, Voicing near, int most)
    {
        var found = new List<(double Cost, Voicing Voicing)>();
        var search = new Search(neck, chord, near, found);
        for (var s = 1; s <= neck.Tuning.Strings; s++)
            if (neck.FretOf(s, top) is { } fret && (fret == 0 || Math.Abs(fret - search.Centre) <= Around))
                search.Under(s, fret, top);
        return
        [
            .. found.OrderBy(f => f.Cost).ThenBy(f => f.Voicing.ToString(), StringComparer.Ordinal).Where(f => f.Voicing != near).Take(Tried)
                .Where(f => FingeringSearch.Best(neck, hand, f.Voicing).Best is not null).Take(most).Select(f => f.Voicing),
        ];
    }

    private sealed class Search(Neck neck, Chord chord, Voicing near, List<(double, Voicing)> found)
    {
        private readonly int?[] slots = new int?[neck.Tuning.Strings];
        private readonly int notes = near.Played.Count();
        private readonly int essential = chord.Tones.Where(t => t.Role == ToneRole.Essential).Aggregate(0, (bits, t) => bits | 1 << t.Name.PitchClass);

        public double Centre { get; } = near.Slots.OfType<int>().Where(f => f > 0).Select(f => (double)f).DefaultIfEmpty(1).Average();

        public void Under(int topString, int topFret, int top)
        {
            slots[^topString] = topFret;
            Lay(topString + 1, 1, topFret, topFret, top);
            slots[^topString] = null;
        }

        // String by string towards the bass, nine at most: silent, open, or a fret within the hand's width.
        private void Lay(int s, int count, int low, int high, int top)
        {
            if (count >= Least)
                Keep();
            if (s > neck.Tuning.Strings || count == Most)
                return;
            Lay(s + 1, count, low, high, top);
            var (from, to) = high == 0 ? ((int)Math.Max(1, Centre - Around), (int)Math.Min(neck.HighestFret, Centre + Around)) : (Math.Max(1, high - Width), Math.Min(neck.HighestFret, low + Width));
            for (var fret = from; fret <= to; fret++)
                Take(s, fret, count, low, high, top);
            Take(s, 0, count, low, high, top);
        }

        private void Take(int s, int fret, int count, int low, int high, int top)
        {
            var midi = neck.Midi(s, fret);
            if (midi >= top || !chord.Names(midi) || Math.Max(high, fret) - Math.Min(fret == 0 ? low : low == 0 ? fret : Math.Min(low, fret), Math.Max(high, fret)) > Width)
                return;
            slots[^s] = fret;
            Lay(s + 1, count + 1, fret == 0 ? low : low == 0 ? fret : Math.Min(low, fret), Math.Max(high, fret), top);
            slots[^s] = null;
        }

        private void Keep()
        {
            // Most of what is laid lacks something, so that is asked first, and cheaply.
            var heard = 0;
            for (var s = 1; s <= slots.Length; s++)
                if (slots[^s] is { } fret)
                    heard |= 1 << neck.Midi(s, fret) % 12;
            if ((heard & essential) != essential)
                return;
            var midi = Enumerable.Range(1, neck.Tuning.Strings).Where(s => slots[^s] is not null).Select(s => neck.Midi(s, slots[^s]!.Value)).ToList();
            var bass = chord.IntervalOf(midi.Min());
            if (chord.Bass is { } asked && (midi.Min() - asked.PitchClass) % 12 != 0)
                return;
            var voicing = new Voicing([.. slots]);
            if (Grip(voicing) > 4)
                return;
            var classes = midi.Select(m => m % 12).Distinct().Count();
            var played = voicing.Played.ToList();
            var fretted = voicing.Slots.OfType<int>().Where(f => f > 0).ToList();
            found.Add((PerFret * (fretted.Count == 0 ? 0 : Math.Abs(fretted.Average() - Centre)) + PerString * played.Except(near.Played).Concat(near.Played.Except(played)).Count()
                + PerNote * Math.Abs(midi.Count - notes) + PerDouble * (midi.Count - classes) + PerGap * (played[0] - played[^1] + 1 - played.Count)
                + (midi.Any(m => chord.IntervalOf(m) == 0) ? 0 : NoRoot) + (chord.Bass is null && chord.Degrees[bass].Number is not (1 or 3 or 5 or 7) ? OddBass : 0)
                + PerColour * midi.Count(m => chord.RoleOf(m) == ToneRole.Tension), voicing));
        }

        private static int Grip(Voicing voicing) => Fretboard.Hands.Grip.FingersNeeded(voicing);
    }
}
