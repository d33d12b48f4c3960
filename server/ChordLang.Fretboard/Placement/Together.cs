// Whether notes that sound at one time have any place on the neck where a hand can hold them: every place is tried, so that 'none' is a proof.
using System.Collections.Immutable;
using System.Numerics;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Fretboard.Placement;

/// <summary>The proof that notes have no place together.</summary>
/// <param name="Clash">The fewest notes, by index, that have too few strings between them; empty where strings are enough and the hand is not.</param>
/// <param name="Nearest">The place that comes nearest to the hand, or null where strings are too few.</param>
/// <param name="None">Why that one cannot be held, or null likewise.</param>
/// <param name="Without">The notes, by index, of which leaving out a single one makes the others playable.</param>
public sealed record NoPlaceTogether(ImmutableArray<int> Clash, Voicing? Nearest, NoFingering? None, ImmutableArray<int> Without);

/// <summary>Asks the question.</summary>
public static class Together
{
    private const int Most = 20_000; // places tried: bounds time on necks of many strings

    /// <summary>Null where a hand can hold the notes somewhere, or where that cannot be told; else the proof that there is no such place.</summary>
    /// <param name="neck">Where the pitches lie.</param>
    /// <param name="hand">Whose reach counts.</param>
    /// <param name="notes">All different; a string that is given is kept. A note that the neck does not have at all is not for this question: the answer is null.</param>
    public static NoPlaceTogether? NoPlace(Neck neck, Hand hand, IReadOnlyList<NoteToPlace> notes)
    {
        if (notes.Any(n => Strings(neck, n) == 0) || Find(neck, hand, notes) is not { Held: false, Full: true } found)
            return null;
        var clash = found.Nearest is null ? Clash(neck, notes) : [];
        var without = Enumerable.Range(0, notes.Count).Where(i => notes.Count > 1 && Find(neck, hand, [.. notes.Where((_, n) => n != i)]).Held);
        return new(clash, found.Nearest, found.Nearest is { } near ? FingeringSearch.Best(neck, hand, near).None : null, [.. without]);
    }

    private static Search Find(Neck neck, Hand hand, IReadOnlyList<NoteToPlace> notes)
    {
        var search = new Search(neck, hand, notes);
        if (notes.Count <= neck.Tuning.Strings)
            search.Lay(0);
        return search;
    }

    private sealed class Search(Neck neck, Hand hand, IReadOnlyList<NoteToPlace> notes)
    {
        private readonly int?[] slots = new int?[neck.Tuning.Strings];
        private readonly double reach = hand.Beyond;
        private (int Needed, double Span) least = (int.MaxValue, 0);
        private int tried;

        public bool Held { get; private set; }

        public bool Full => tried <= Most;

        public Voicing? Nearest { get; private set; }

        // As deep as there are notes, and never deeper than there are strings.
        public void Lay(int k)
        {
            if (k == notes.Count)
            {
                Try(new([.. slots]));
                return;
            }
            for (var s = 1; s <= slots.Length && !Held && Full; s++)
                if (slots[^s] is null && (notes[k].String ?? s) == s && neck.FretOf(s, notes[k].Midi) is { } fret)
                {
                    slots[^s] = fret;
                    Lay(k + 1);
                    slots[^s] = null;
                }
        }

        private void Try(Voicing voicing)
        {
            tried++;
            var (needed, span) = (Math.Max(Grip.Fingers, voicing.FingersNeeded()), voicing.Span(neck));
            Held |= needed == Grip.Fingers && span <= reach && FingeringSearch.Best(neck, hand, voicing).Best is not null;
            if (Nearest is null || (needed, span).CompareTo(least) < 0)
                (Nearest, least) = (voicing, (needed, span));
        }
    }

    // The strings that have a note, as bits.
    private static uint Strings(Neck neck, NoteToPlace note)
    {
        var found = 0u;
        for (var s = 1; s <= neck.Tuning.Strings; s++)
            if (note.String is null || note.String == s)
                found |= neck.FretOf(s, note.Midi) is null ? 0 : 1u << s;
        return found;
    }

    // By the marriage theorem (Hall 1935): where there is no way, some notes have fewer strings between them than they are.
    private static ImmutableArray<int> Clash(Neck neck, IReadOnlyList<NoteToPlace> notes)
    {
        var n = Math.Min(notes.Count, neck.Tuning.Strings + 1); // more notes than strings clash, whichever they are
        var own = notes.Select(x => Strings(neck, x)).ToList();
        var least = Enumerable.Range(1, (1 << n) - 1).Where(set => BitOperations.PopCount((uint)set) > BitOperations.PopCount(
            Enumerable.Range(0, n).Where(i => (set >> i & 1) != 0).Aggregate(0u, (all, i) => all | own[i]))).MinBy(set => BitOperations.PopCount((uint)set));
        return [.. Enumerable.Range(0, n).Where(i => (least >> i & 1) != 0)];
    }
}
