// Chance for tests that comes out the same on every run.
namespace ChordLang.Testing;

/// <summary>A fixed sequence (Marsaglia's xorshift), so that a failure comes again.</summary>
public sealed class Dice(int seed)
{
    private uint state = (uint)seed * 2654435761u + 1;

    /// <summary>A number from 0 up to, but not including, a bound.</summary>
    public int Next(int bound)
    {
        state ^= state << 13;
        state ^= state >> 17;
        state ^= state << 5;
        return (int)(state % (uint)Math.Max(1, bound));
    }
}
