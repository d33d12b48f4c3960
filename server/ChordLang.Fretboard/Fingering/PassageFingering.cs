// Fingers of a whole passage: a finger stays where its note rings on, so fingers are chosen with what comes in mind.
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Fretboard.Fingering;

/// <summary>One onset of a passage that is on the strings already.</summary>
/// <param name="Struck">By slot, lowest string first: the fret that is struck, -1 for none.</param>
/// <param name="Held">By slot: the fret of a note that still has to sound and is not struck again, -1 for none.</param>
/// <param name="Position">Where the first finger is.</param>
internal sealed record FingeredStep(sbyte[] Struck, sbyte[] Held, int Position);

internal static class PassageFingering
{
    private const int Beam = 6;

    // Ours: to let a ringing note go is worse than any fingering that the table finds out of place; a finger beside its own fret is a little
    // worse than the finger on it (one finger a fret, common practice).
    private const double LetGo = 12, OffFret = 0.7, BeyondTwo = 1.5;

    private sealed record State(State? Before, byte[] Fingers, double Cost);

    /// <summary>The fingers of each step, by slot, 0 for none; null where no hand holds what is struck.</summary>
    /// <param name="neck">Where the frets lie.</param>
    /// <param name="steps">The passage.</param>
    /// <param name="all">All fingerings of a grip with their costs, best first; empty where there are none.</param>
    public static byte[]?[] Of(Neck neck, IReadOnlyList<FingeredStep> steps, Func<Voicing, IReadOnlyList<(byte[] Fingers, double Cost)>> all)
    {
        var strings = neck.Tuning.Strings;
        List<State> beam = [new(null, new byte[strings], 0)];
        foreach (var step in steps)
        {
            var next = new List<State>();
            foreach (var state in beam)
                Expand(state, step, all, next);
            next.Sort(static (a, b) => a.Cost.CompareTo(b.Cost));
            beam = Distinct(next);
        }
        var found = new byte[]?[steps.Count];
        var last = beam[0];
        for (var i = steps.Count - 1; i >= 0; i--, last = last.Before!)
        {
            var (own, step) = (new byte[strings], steps[i]);
            var known = true;
            for (var s = 0; s < strings; s++)
                if (step.Struck[s] > 0)
                    known &= (own[s] = last.Fingers[s]) > 0;
            found[i] = known ? own : null;
        }
        return found;
    }

    private static void Expand(State state, FingeredStep step, Func<Voicing, IReadOnlyList<(byte[] Fingers, double Cost)>> all, List<State> next)
    {
        var strings = step.Struck.Length;
        var (together, alone, kept) = (new int?[strings], new int?[strings], 0);
        for (var s = 0; s < strings; s++)
            if (step.Struck[s] >= 0)
                together[s] = alone[s] = step.Struck[s];
            else if (step.Held[s] >= 0 && (step.Held[s] == 0 || state.Fingers[s] > 0))
                (together[s], kept) = (step.Held[s], kept + 1);
        if (!Take(state, step, all(new([.. together])), kept, 0, next) && (kept == 0 || !Take(state, step, all(new([.. alone])), 0, LetGo * kept, next)))
            next.Add(new(state, new byte[strings], state.Cost + LetGo));
    }

    // The fingerings that leave the fingers of held notes where they are.
    private static bool Take(State state, FingeredStep step, IReadOnlyList<(byte[] Fingers, double Cost)> all, int kept, double dearer, List<State> next)
    {
        var any = false;
        foreach (var (fingers, cost) in all)
        {
            var fits = true;
            for (var s = 0; kept > 0 && fits && s < fingers.Length; s++)
                fits = step.Struck[s] >= 0 || step.Held[s] <= 0 || state.Fingers[s] == 0 || fingers[s] == state.Fingers[s];
            if (!fits)
                continue;
            any = true;
            next.Add(new(state, fingers, state.Cost + dearer + (Fretted(fingers) > 1 ? cost - all[0].Cost : 0) + Off(fingers, step)));
        }
        return any;
    }

    // Single notes follow the position; a grip of several knows its own fingers.
    private static double Off(byte[] fingers, FingeredStep step)
    {
        if (step.Position <= 0 || step.Struck.Count(f => f > 0) != 1)
            return 0;
        var s = Array.FindIndex(step.Struck, f => f > 0);
        var off = Math.Abs(fingers[s] % FingeringCandidates.ThumbMark - Math.Clamp(step.Struck[s] - step.Position + 1, 1, 4));
        return OffFret * off + (off > 1 ? BeyondTwo : 0);
    }

    private static int Fretted(byte[] fingers) => fingers.Count(f => f > 0);

    private static List<State> Distinct(List<State> sorted)
    {
        var kept = new List<State>(Beam);
        foreach (var state in sorted)
        {
            if (!kept.Any(k => k.Fingers.AsSpan().SequenceEqual(state.Fingers)))
                kept.Add(state);
            if (kept.Count == Beam)
                break;
        }
        return kept;
    }
}
