// Finds another grip for the same chord tones, near the one that cannot be played: the same top note, inner notes in other octaves only where they must be.
using System.Collections.Immutable;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;

namespace ChordLang.Fretboard.Voicings;

/// <summary>A note of a grip that is looked for.</summary>
/// <param name="Midi">What it should sound, as a MIDI number.</param>
/// <param name="String">The string it would lie on, 1 = highest.</param>
/// <param name="Fret">The fret it would lie on, which the neck may not have.</param>
public readonly record struct WantedNote(int Midi, int String, int Fret);

/// <summary>Where a note lies, and what it sounds there.</summary>
public readonly record struct FoundNote(int Midi, int String, int Fret);

/// <summary>Grips of the same function.</summary>
public static class NearestVoicing
{
    private const int Octave = 12, Width = 4;

    // Bounds time on necks of many strings; six strings and six notes stay far below.
    private const int MostNodes = 400_000, MostTried = 400;

    // Ours: a note in another octave is worse than any walk over the strings; another bass is worse than an octave.
    private const double OctavePrice = 30, BassPrice = 45, FretPrice = 0.25;

    /// <summary>
    /// The grip nearest to the wanted one that the hand can hold: the same pitch classes, each as often, under the same top note (in another
    /// octave only where no string has it). Exact pitches come first, then the same bass, then the nearest strings. Null where there is none.
    /// </summary>
    /// <param name="neck">Where the frets lie.</param>
    /// <param name="hand">Whose reach counts.</param>
    /// <param name="wanted">The notes.</param>
    /// <param name="atEase">True to leave aside grips that stretch the hand beyond comfort.</param>
    /// <param name="bass">The pitch class that has to be lowest, 0 to 11; null where the bass may change.</param>
    /// <returns>One place for each wanted note, in the same order.</returns>
    public static ImmutableArray<FoundNote>? Find(Neck neck, Hand hand, ImmutableArray<WantedNote> wanted, bool atEase = false, int? bass = null)
    {
        if (wanted.IsEmpty || wanted.Length > neck.Tuning.Strings)
            return null;
        var top = wanted.Max(w => w.Midi);
        var shift = 0;
        while (!Reached(neck, top + shift) && Math.Abs(shift) < 10 * Octave)
            shift += top < Lowest(neck) ? Octave : -Octave;
        if (!Reached(neck, top + shift))
            return null;
        var search = new Search(neck, [.. wanted.Select(w => w with { Midi = w.Midi + shift, Fret = w.Fret + shift })], top + shift, bass);
        var tried = 0;
        foreach (var found in search.Ranked())
        {
            var grip = Grip(neck, found);
            if (FingeringSearch.Best(neck, hand, grip).Best is { } fingers && (!atEase || Stretch.Of(neck, hand, grip, fingers) is not { Wide: true }))
                return [.. found];
            if (++tried == MostTried)
                break;
        }
        return null;
    }

    private static Voicing Grip(Neck neck, IEnumerable<FoundNote> notes)
    {
        var slots = new int?[neck.Tuning.Strings];
        foreach (var n in notes)
            slots[^n.String] = n.Fret;
        return new([.. slots]);
    }

    private static bool Reached(Neck neck, int midi) => Enumerable.Range(1, neck.Tuning.Strings).Any(s => neck.FretOf(s, midi) is not null);

    private static int Lowest(Neck neck) => Enumerable.Range(1, neck.Tuning.Strings).Min(s => neck.Midi(s, 0));

    private sealed class Search(Neck neck, ImmutableArray<WantedNote> wanted, int top, int? bass)
    {
        private readonly List<(double Cost, FoundNote[] Notes)> grips = [];
        private readonly int[] left = new int[Octave];
        private readonly FoundNote[] taken = new FoundNote[wanted.Length];
        private int nodes;

        public IEnumerable<FoundNote[]> Ranked()
        {
            foreach (var w in wanted)
                left[Class(w.Midi)]++;
            for (var lowest = 0; lowest <= neck.HighestFret; lowest++)
                Lay(neck.Tuning.Strings, 0, lowest, false);
            return grips.OrderBy(g => g.Cost).Select(g => g.Notes);
        }

        // String by string from the lowest: silent, open, or a fret within a hand's width. As deep as the neck has strings, nine at most.
        private void Lay(int s, int count, int lowest, bool held)
        {
            if (nodes++ > MostNodes || wanted.Length - count > s)
                return;
            if (count == wanted.Length)
            {
                if (held || lowest == 0)
                    Keep();
                return;
            }
            if (wanted.Length - count < s)
                Lay(s - 1, count, lowest, held);
            Take(s, 0, count, lowest, held);
            for (var fret = lowest; lowest > 0 && fret <= Math.Min(lowest + Width, neck.HighestFret); fret++)
                Take(s, fret, count, lowest, held || fret == lowest);
        }

        private void Take(int s, int fret, int count, int lowest, bool held)
        {
            var midi = neck.Midi(s, fret);
            if (midi > top || left[Class(midi)] == 0)
                return;
            left[Class(midi)]--;
            taken[count] = new(midi, s, fret);
            Lay(s - 1, count + 1, lowest, held);
            left[Class(midi)]++;
        }

        private void Keep()
        {
            if (!taken.Any(t => t.Midi == top) || bass is { } asked && Class(taken.Min(t => t.Midi)) != asked)
                return;
            // Among notes of one pitch class the lower stays the lower.
            var matched = new FoundNote[wanted.Length];
            foreach (var same in Enumerable.Range(0, wanted.Length).GroupBy(i => Class(wanted[i].Midi)))
            {
                var found = taken.Where(t => Class(t.Midi) == same.Key).OrderBy(t => t.Midi);
                foreach (var (i, note) in same.OrderBy(i => wanted[i].Midi).Zip(found))
                    matched[i] = note;
            }
            var cost = 0.0;
            for (var i = 0; i < matched.Length; i++)
                cost += Math.Abs(matched[i].Midi - wanted[i].Midi) / Octave * OctavePrice + Math.Abs(matched[i].String - wanted[i].String)
                    + (matched[i].Fret > 0 ? FretPrice * Math.Abs(matched[i].Fret - wanted[i].Fret) : 0);
            if (Class(matched.Min(m => m.Midi)) != Class(wanted.Min(w => w.Midi)))
                cost += BassPrice;
            grips.Add((cost, matched));
        }

        private static int Class(int midi) => ((midi % Octave) + Octave) % Octave;
    }
}
