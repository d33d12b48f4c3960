// Follows the signature that the notes have for a while, because a passage in another key is spelled as if that key were written.
namespace ChordLang.Harmony.Spelling;

/// <summary>A path on the line of fifths: which signature explains the notes around each moment, near to the one before and to the written one.</summary>
internal static class PassingSignatures
{
    // Signatures weighed, in sharps: three past the seven that are written on either side.
    private const int Reach = 10, Count = 2 * Reach + 1;

    // Longer signatures are avoided (common practice: five flats or sharps are usual, six are rare).
    private const int Usual = 5;

    /// <summary>One signature (sharps; flats negative) for each note. Notes are in order of time.</summary>
    /// <param name="notes">The notes.</param>
    /// <param name="given">The signature in force at each note, or null.</param>
    /// <param name="weights">Where the figures of the path come from.</param>
    public static int[] Path(IReadOnlyList<NoteToSpell> notes, int?[] given, SpellingWeights weights)
    {
        var starts = new List<int>();
        for (var i = 0; i < notes.Count; i++)
            if (i == 0 || notes[i].Onset != notes[i - 1].Onset)
                starts.Add(i);
        var best = new double[Count];
        // Before the first note the signature holds as written.
        if (given.Length > 0 && given[0] is { } written)
            for (var state = 0; state < Count; state++)
                best[state] = state - Reach == written ? 0 : -weights.Change - weights.PerFifth * Math.Abs(state - Reach - written);
        var from = new int[starts.Count][];
        for (var g = 0; g < starts.Count; g++)
        {
            var (first, end) = (starts[g], g + 1 < starts.Count ? starts[g + 1] : notes.Count);
            var next = new double[Count];
            from[g] = new int[Count];
            for (var state = 0; state < Count; state++)
            {
                var (top, source) = (best[state], state);
                for (var last = 0; g > 0 && last < Count; last++)
                    if (last != state && best[last] - weights.Change - weights.PerFifth * Math.Abs(last - state) is var score && score > top)
                        (top, source) = (score, last);
                next[state] = top + Fit(notes, first, end, state - Reach, weights) - (end - first) * Far(state - Reach, given[first], weights);
                from[g][state] = source;
            }
            best = next;
        }
        var path = new int[notes.Count];
        var at = starts.Count == 0 ? 0 : Array.IndexOf(best, best.Max());
        for (var g = starts.Count - 1; g >= 0; g--)
        {
            for (var i = starts[g]; i < (g + 1 < starts.Count ? starts[g + 1] : notes.Count); i++)
                path[i] = at - Reach;
            at = from[g][at];
        }
        return path;
    }

    // Nobody writes in eight flats what four sharps say: a passage takes the name with the shorter signature, then the one near home.
    private static double Far(int signature, int? home, SpellingWeights weights) =>
        weights.Signs * Math.Max(0, Math.Abs(signature) - Usual) + (home is { } h ? weights.FromHome * Math.Abs(signature - h) : 0);

    private static double Fit(IReadOnlyList<NoteToSpell> notes, int first, int end, int signature, SpellingWeights weights)
    {
        var sum = 0.0;
        for (var i = first; i < end; i++)
        {
            sum += weights.Fit(notes[i].Midi, signature);
            // A chord that comes new is heard as a whole, also where only some of its tones are struck.
            if (notes[i].Chord is { } chord && (i == 0 || notes[i - 1].Chord != chord))
                foreach (var tone in chord.Tones)
                    sum += weights.Fit(tone.Name.PitchClass, signature) / 2;
        }
        return sum;
    }
}
