// A shift of position: how far the hand travels along the neck, and how long that is likely to take.
using ChordLang.Fretboard.Necks;

namespace ChordLang.Fretboard.Hands;

/// <summary>A movement of the whole hand; a position is the fret of the first finger (common practice).</summary>
/// <param name="From">The position that is left.</param>
/// <param name="To">The position that is reached.</param>
/// <param name="Millimetres">The way along the neck.</param>
/// <param name="Width">Width of the fret that has to be hit, in millimetres.</param>
/// <param name="Fingers">How many fingers have to land there at once.</param>
public sealed record Shift(int From, int To, double Millimetres, double Width, int Fingers = 1)
{
    internal const double BitsPerSecond = 16, GripBitsPerSecond = 10;

    /// <summary>From so many fingers on, what lands is a whole grip.</summary>
    public const int FingersOfGrip = 3;

    /// <summary>Frets that one position holds, the little finger stretched by one (common practice).</summary>
    public const int FretsOfPosition = 5;

    /// <summary>
    /// Seconds that it is likely to take, by Fitts's law (Fitts 1954, J. Exp. Psychol. 47): log2(2 way / width) bits, divided by the rate of
    /// the hand in <see cref="HandFigure.All"/>; a whole grip has a slower one.
    /// </summary>
    public double Seconds => Math.Max(0, Math.Log2(2 * Millimetres / Width)) / (Fingers >= FingersOfGrip ? GripBitsPerSecond : BitsPerSecond);

    /// <summary>The positions from which frets can be held, the little finger stretched by one fret.</summary>
    /// <param name="low">The lowest fret, 1 or higher.</param>
    /// <param name="high">The highest.</param>
    public static (int Lowest, int Highest) Positions(int low, int high) => (Math.Clamp(high - FretsOfPosition + 1, 1, low), low);

    /// <summary>The shortest shift between two ranges of positions, or null where they share one.</summary>
    public static Shift? Between(Neck neck, (int Lowest, int Highest) before, (int Lowest, int Highest) after) =>
        after.Lowest > before.Highest ? Of(neck, before.Highest, after.Lowest) : after.Highest < before.Lowest ? Of(neck, before.Lowest, after.Highest) : null;

    private static Shift Of(Neck neck, int from, int to) => new(from, to, neck.Distance(from, to), neck.Distance(to - 1, to));
}
