// Whether fingers can stay where they are while others go on: a finger that holds a ringing note cannot be exchanged for another.
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Fretboard.Fingering;

/// <summary>The fingers of a grip of which some stay.</summary>
/// <param name="First">The best fingers of the grip with which they can stay.</param>
/// <param name="Usual">The best fingers of the grip alone.</param>
/// <param name="Dearer">How much more the former cost than the latter, by <see cref="FingeringTerms.Table"/>: logarithmic odds.</param>
public sealed record KeptFingers(Fingers First, Fingers Usual, double Dearer)
{
    /// <summary>The easiest way to take a grip so that some of its fingers can stay when another follows; null where there is none, or either cannot be held.</summary>
    /// <param name="neck">Where the frets lie.</param>
    /// <param name="hand">Whose reach counts.</param>
    /// <param name="first">The grip.</param>
    /// <param name="then">All that is held then, with the notes that stay.</param>
    /// <param name="kept">The strings, by number, whose fingers stay.</param>
    public static KeptFingers? Of(Neck neck, Hand hand, Voicing first, Voicing then, IReadOnlyCollection<int> kept)
    {
        var (before, after) = (FingeringSearch.All(neck, hand, first), FingeringSearch.All(neck, hand, then));
        foreach (var (fingers, cost) in before)
            if (after.Any(a => kept.All(s => a.Fingers[^s] == fingers[^s])))
                return new(FingeringCandidates.Named(fingers), FingeringCandidates.Named(before[0].Fingers), cost - before[0].Cost);
        return null;
    }
}
