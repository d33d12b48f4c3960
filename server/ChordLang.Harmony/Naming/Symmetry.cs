// Finds the sounds that come round before the octave: each has several roots with an equal claim.
using System.Collections.Immutable;

namespace ChordLang.Harmony.Naming;

/// <summary>The symmetry of a sound.</summary>
/// <param name="Family">Name of the trade.</param>
/// <param name="Shift">Semitones after which the sound, or the scale it is drawn from, repeats.</param>
public sealed record Symmetry(string Family, int Shift)
{
    // Modes of limited transposition as guitarists meet them; common practice.
    private static readonly ImmutableArray<(string Family, int Shift)> Exact =
        [("half-steps", 1), ("whole-tone", 2), ("diminished", 3), ("augmented", 4), ("tritone", 6)];

    private const int HalfWhole = 0b0110_1101_1011;
    private const int WholeTone = 0b0101_0101_0101;

    /// <summary>The symmetry of a sound, or null.</summary>
    /// <param name="intervals">Bits of the intervals above the root of its first reading.</param>
    public static Symmetry? Of(int intervals)
    {
        bool Has(int n) => (intervals >> n & 1) != 0;
        foreach (var (family, shift) in Exact)
            if (Turn(intervals, shift) == intervals)
                return new(shift == 3 && int.PopCount(intervals) == 8 ? "half-whole" : family, shift);
        if (!Has(4) || !Has(10))
            return null;
        // A dominant inside a symmetrical scale moves through that scale: the scale is the same on every equal root.
        if ((Has(1) || Has(3)) && (intervals & ~HalfWhole) == 0)
            return new("half-whole", 3);
        return (Has(8) || Has(6)) && (intervals & ~WholeTone) == 0 ? new("whole-tone", 2) : null;
    }

    private static int Turn(int intervals, int by) => (intervals >> by | intervals << (12 - by)) & 0xFFF;
}
