// The ways to play the notes of one onset.
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;

namespace ChordLang.Fretboard.Placement;

/// <summary>One way: a string and a fret for each note, highest note first.</summary>
internal sealed class GripChoice(int[] strings, int[] frets)
{
    public readonly int[] Strings = strings, Frets = frets;
    public readonly int Low = frets.Where(f => f > 0).DefaultIfEmpty(0).Min(), High = frets.DefaultIfEmpty(0).Max(), Fretted = frets.Count(f => f > 0);
    public int Needed;

    private Found? fingers;

    /// <summary>The best fingers of it, or null where no hand holds it; for the table and the hand that it was made for.</summary>
    public Fingers? Fingers(NeckTable table, Hand hand)
    {
        if (fingers is null)
        {
            var slots = new int?[table.Strings];
            for (var i = 0; i < Strings.Length; i++)
                slots[^Strings[i]] = Frets[i];
            fingers = new(table.Fingers(hand, new([.. slots])));
        }
        return fingers.Best;
    }

    private const int Most = 4000; // nodes of the search: bounds time on necks of many strings

    // One reference, so that another thread sees all of it or nothing.
    private sealed record Found(Fingers? Best);

    /// <summary>All ways that a hand can hold; where there are none, all ways on distinct strings; where there are none, nothing.</summary>
    public static List<GripChoice> Of(NeckTable table, Hand hand, int[] midi, int?[] given)
    {
        var neck = table.Neck;
        var all = new List<GripChoice>();
        int n = midi.Length, strings = neck.Tuning.Strings, k = 0, nodes = 0;
        if (n == 0 || n > strings)
            return all;
        var at = new int[n];
        while (k >= 0 && nodes++ < Most * 10 && all.Count < Most)
        {
            var s = ++at[k];
            if (s > strings)
            {
                at[k--] = 0;
                continue;
            }
            if (neck.FretOf(s, midi[k]) is null || given[k] is { } g && g != s || Array.IndexOf(at, s, 0, k) >= 0
                || k > 0 && midi[k] == midi[k - 1] && given[k] is null && given[k - 1] is null && s < at[k - 1])
                continue;
            if (k < n - 1)
            {
                k++;
                continue;
            }
            all.Add(new([.. at], [.. at.Select((q, i) => neck.FretOf(q, midi[i])!.Value)]));
        }
        var frets = new int[strings];
        foreach (var c in all)
        {
            Array.Fill(frets, -1);
            for (var i = 0; i < n; i++)
                frets[strings - c.Strings[i]] = c.Frets[i];
            c.Needed = FingersNeeded(frets);
        }
        var (within, apart, beyond) = (hand.Within, hand.Limit(Finger.First, Finger.Little), hand.Beyond);
        var held = all.Where(c => c.Needed <= Grip.Fingers && Reached(c)).ToList();
        return held.Count > 0 ? held : all;

        // Narrow grips need no proof, nor do two fingers, of which one may be the little one; whether fingers reach all of a wide grip has to be tried, by
        // the same search as the checks ask.
        bool Reached(GripChoice way) => way.Fretted < 2 || table.Distance(way.Low, way.High) is var mm
            && (mm <= within || mm <= apart && way.Needed < 3 || mm <= beyond && way.Fingers(table, hand) is not null);
    }

    /// <summary>As <see cref="Grip.FingersNeeded"/>, on frets from the lowest string up, -1 for a silent one.</summary>
    public static int FingersNeeded(ReadOnlySpan<int> frets)
    {
        var total = 0;
        for (var i = 0; i < frets.Length; i++)
        {
            if (frets[i] <= 0)
                continue;
            total++;
            for (var j = i - 1; j >= 0; j--)
                if (frets[j] == frets[i])
                {
                    total--;
                    break;
                }
                else if (frets[j] >= 0 && frets[j] < frets[i])
                    break;
        }
        return total;
    }
}
