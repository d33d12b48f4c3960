// The signs of a key in their order on the staff.
using ChordLang.Theory.Keys;

namespace ChordLang.Interchange.Sheet;

/// <summary>Key signatures under the treble clef.</summary>
internal static class KeySignature
{
    // Steps above the bottom line (E), in the order of the signs (common practice).
    private static readonly int[] Sharps = [8, 5, 9, 6, 3, 7, 4], Flats = [4, 7, 3, 6, 2, 5, 1];

    /// <summary>The signs: SMuFL name and steps above the bottom line; naturals first where another signature ends without one of its own.</summary>
    public static IEnumerable<(string Glyph, int Step)> Of(Key? key, Key? before)
    {
        var (now, old) = (key?.Fifths ?? 0, before?.Fifths ?? 0);
        if (now == 0)
            foreach (var step in Steps(old))
                yield return ("accidentalNatural", step);
        foreach (var step in Steps(now))
            yield return (now > 0 ? "accidentalSharp" : "accidentalFlat", step);
    }

    /// <summary>Width in units of the drawing.</summary>
    public static double Width(Key? key, Key? before) => Of(key, before).Count() * 7 is var w && w > 0 ? w + 3 : 0;

    private static int[] Steps(int fifths) => fifths > 0 ? Sharps[..Math.Min(7, fifths)] : Flats[..Math.Min(7, -fifths)];
}
