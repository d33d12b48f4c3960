// The interval that brings a piece to a new key, or why there is none.
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Transposing;
using ChordLang.Checks.Charts;
using ChordLang.Harmony.Keys;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Actions;

/// <summary>Brings pieces to new keys.</summary>
public static class NewKey
{
    /// <summary>The interval of so many semitones whose key is the one that players read; by the key that the piece states, or the one its chords tell.</summary>
    public static Interval By(Piece piece, int semitones) => IntervalChoice.By(piece, semitones, Assumed(piece));

    /// <summary>The interval from the first key to another, the shorter way.</summary>
    /// <param name="piece">The piece; where it states no key, its chords tell one.</param>
    /// <param name="target">The key to come.</param>
    /// <param name="why">Where there is none: why, and what to do, as words that end no sentence.</param>
    public static Interval? To(Piece piece, Key target, out string why)
    {
        var home = IntervalChoice.First(piece) ?? Assumed(piece);
        why = home is null ? "it states no key and has no chords that tell one, so nobody knows where the new key lies from it; go by semitones, or write a key line"
            : home.Tonic is null || target.Tonic is null
                ? $"it is in {home} and the new key is {target}: say both with a tonic, or both by their signature, or go by semitones"
                : $"it is in {home}, and no interval makes that {target}; name a key of the same mode, or go by semitones";
        return IntervalChoice.To(piece, target, home);
    }

    private static Key? Assumed(Piece piece)
    {
        if (IntervalChoice.First(piece) is not null)
            return null;
        var written = WrittenChart.Of(piece);
        return KeyFinder.Find(written.Chart, written.Given).Spans.Select(s => s.Key).FirstOrDefault();
    }
}
