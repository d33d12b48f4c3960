// One value for each bracket that a chart allows, so that the room it takes grows with the chart and not with its square.
namespace ChordLang.Harmony.Skeleton;

/// <summary>Values of brackets: those of at most so many chords, and those that end on the last chord.</summary>
/// <param name="length">Number of chords.</param>
/// <param name="reach">The most chords of a bracket that does not end on the last.</param>
public sealed class Brackets<T>(int length, int reach)
{
    private readonly T[] within = new T[(long)length * reach], toTheEnd = new T[length];

    /// <summary>The value of a bracket, by its first chord and its last; only of one that is allowed.</summary>
    public ref T this[int first, int last] => ref last == length - 1 ? ref toTheEnd[first] : ref within[(long)first * reach + last - first];
}
