// All grips of a chord that lie under one hand: its tones, one a string, on strings that lie together.
using System.Collections.Immutable;
using ChordLang.Fretboard.Necks;
using ChordLang.Theory.Chords;

namespace ChordLang.Fretboard.Voicings;

/// <summary>Lists grips of a chord. Which tones may be left out is the chord's own saying (<see cref="ToneRole"/>).</summary>
public static class ChordGrips
{
    // A hand without a stretch lies over four frets and reaches a fifth (common practice); open strings are heard with grips near the nut.
    private const int Width = 4, OpenBelow = 5, Voices = 4, HighestLowest = 15;

    /// <summary>Every grip of three or four voices: all essential tones (of more than four, the third and seventh and two others), no strange one, rising from string to string.</summary>
    /// <param name="neck">The neck.</param>
    /// <param name="chord">The chord; its slash bass, where it has one, lies lowest.</param>
    public static IEnumerable<Voicing> Of(Neck neck, Chord chord)
    {
        var seen = new HashSet<Voicing>();
        foreach (var classes in ToneSets(chord))
            foreach (var strings in StringSets(neck.Tuning.Strings, classes.Length))
                foreach (var order in Orders(classes, chord.Bass?.PitchClass))
                    foreach (var grip in Laid(neck, strings, order, new int?[neck.Tuning.Strings], 0, -1, 0, 0))
                        if (seen.Add(grip))
                            yield return grip;
    }

    // Which pitch classes sound together.
    private static IEnumerable<int[]> ToneSets(Chord chord)
    {
        var essential = chord.Tones.Where(t => t.Role == ToneRole.Essential).ToList();
        var optional = chord.Tones.Where(t => t.Role == ToneRole.Optional).ToList();
        var bass = chord.Bass is { } b ? new[] { b.PitchClass } : [];
        var voices = Math.Min(Voices, essential.Count + optional.Count);
        IEnumerable<IEnumerable<ChordTone>> sets = essential.Count <= voices
            ? Choose(optional, voices - essential.Count).Select(more => essential.Concat(more))
            : Choose(essential, voices).Where(some => essential.Where(Guide).All(some.Contains)).Select(some => some.AsEnumerable());
        return sets.Select(s => s.Select(t => t.Name.PitchClass).Concat(bass).Distinct().ToArray()).Where(s => s.Length > 1);
    }

    private static bool Guide(ChordTone tone) => tone.Degree.Number is 2 or 3 or 4 or 6 or 7;

    private static IEnumerable<ImmutableArray<ChordTone>> Choose(List<ChordTone> tones, int count, int from = 0)
    {
        if (count == 0)
            return [[]];
        return Enumerable.Range(from, Math.Max(0, tones.Count - from)).SelectMany(i => Choose(tones, count - 1, i + 1).Select(rest => rest.Insert(0, tones[i])));
    }

    // Neighbouring strings, or one string between the lowest note and the rest: close, drop-2 and drop-3 grips (common practice). Highest number first.
    private static IEnumerable<int[]> StringSets(int strings, int voices)
    {
        for (var lowest = strings; lowest >= voices; lowest--)
        {
            yield return [.. Enumerable.Range(0, voices).Select(k => lowest - k)];
            if (lowest > voices)
                yield return [.. Enumerable.Range(0, voices).Select(k => k == 0 ? lowest : lowest - k - 1)];
        }
    }

    private static IEnumerable<int[]> Orders(int[] classes, int? lowest)
    {
        if (classes.Length == 1)
            return [classes];
        return classes.Where(c => lowest is null || c == lowest).SelectMany(first => Orders([.. classes.Where(c => c != first)], null).Select(rest => (int[])[first, .. rest]));
    }

    // As deep as the grip has voices, five at most.
    private static IEnumerable<Voicing> Laid(Neck neck, int[] strings, int[] classes, int?[] slots, int at, int below, int low, int high)
    {
        if (at == strings.Length)
        {
            yield return new([.. slots]);
            yield break;
        }
        var open = neck.Midi(strings[at], 0);
        for (var fret = ((classes[at] - open) % 12 + 12) % 12; fret <= neck.HighestFret && fret <= HighestLowest + Width; fret += 12)
        {
            var (lowest, highest) = fret == 0 ? (low, high) : (low == 0 ? fret : Math.Min(low, fret), Math.Max(high, fret));
            if (open + fret <= below || highest - lowest > Width || lowest > HighestLowest || fret == 0 && high > OpenBelow || highest > OpenBelow && slots.Contains(0))
                continue;
            slots[^strings[at]] = fret;
            foreach (var grip in Laid(neck, strings, classes, slots, at + 1, open + fret, lowest, highest))
                yield return grip;
            slots[^strings[at]] = null;
        }
    }
}
