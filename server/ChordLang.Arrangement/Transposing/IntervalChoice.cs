// Chooses the one interval by which a whole piece moves, so that the new key is one that players read.
using ChordLang.Arrangement.Music;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Transposing;

/// <summary>Chooses intervals.</summary>
public static class IntervalChoice
{
    private const int MostInSignature = 7, Respelling = 12, Tonic = 1;

    /// <summary>
    /// The interval of so many semitones that leads the first key to the signature with fewest sharps or flats (common practice); of two alike the one
    /// nearer on the line of fifths, then the flat one. No later key gets more than seven, where that can be helped.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="semitones">Up, or negative down.</param>
    /// <param name="assumed">The key to go by where the piece states none; null to go by its chord roots.</param>
    public static Interval By(Piece piece, int semitones, Key? assumed = null)
    {
        var plain = Interval.Of(semitones, 0);
        if (semitones == 0)
            return plain;
        var signatures = Keys(piece, assumed).Select(k => (double)k.Fifths).ToList();
        if (signatures.Count == 0)
            signatures.Add(Centre(piece));
        return new[] { plain, Interval.Of(semitones, plain.Fifths - Respelling), Interval.Of(semitones, plain.Fifths + Respelling) }
            .OrderBy(i => signatures.Max(f => Math.Max(0, Math.Abs(f + i.Fifths) - MostInSignature)))
            .ThenBy(i => Math.Abs(signatures[0] + i.Fifths)).ThenBy(i => Math.Abs(i.Fifths)).ThenBy(i => i.Fifths).First();
    }

    /// <summary>
    /// The interval that leads the piece's first key to another one, the shorter way; a tritone goes up. Null where neither states a tonic and a
    /// signature to go by, or where the modes differ: no interval makes minor of major.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="target">The key to come.</param>
    /// <param name="assumed">The key to go by where the piece states none.</param>
    public static Interval? To(Piece piece, Key target, Key? assumed = null)
    {
        if (Keys(piece, assumed).FirstOrDefault() is not { } from)
            return null;
        if (from.Tonic is { } here && target.Tonic is { } there)
            return Plain(from.Mode) == Plain(target.Mode) ? Interval.Between(here, there) : null;
        return Interval.Between(PitchName.FromFifths(from.Fifths), PitchName.FromFifths(target.Fifths));
    }

    /// <summary>The key that a piece begins in, as it states it, or null.</summary>
    public static Key? First(Piece piece) => Keys(piece, null).FirstOrDefault();

    private static List<Key> Keys(Piece piece, Key? assumed)
    {
        var keys = piece.Bars.Select(b => b.Settings.Key).Prepend(piece.Settings.Key).OfType<Key>().Distinct().ToList();
        if (keys.Count == 0 && assumed is not null)
            keys.Add(assumed);
        return keys;
    }

    // The roots of a major key's I, IV, V and ii lie about one step to the sharp side of its tonic, and so of its signature.
    private static double Centre(Piece piece)
    {
        var roots = piece.Bars.SelectMany(b => b.Chords).Where(c => c.Chord is not null).Select(c => c.Chord!.Root.Fifths)
            .DefaultIfEmpty(Tonic).ToList();
        return roots.Average() - Tonic;
    }

    private static Mode Plain(Mode mode) => mode switch { Mode.Ionian => Mode.Major, Mode.Aeolian => Mode.Minor, _ => mode };
}
