// Which finger holds which string.
using System.Collections.Immutable;
using ChordLang.Fretboard.Hands;

namespace ChordLang.Fretboard.Fingering;

/// <summary>Left-hand fingers of a voicing, one slot a string, lowest string first.</summary>
/// <param name="Slots">The digit that holds the string; null where none does (open, not played, or left out).</param>
public sealed record Fingers(ImmutableArray<Finger?> Slots)
{
    /// <summary>The finger on a string, by its number (1 = highest), or null.</summary>
    public Finger? this[int stringNumber] => Slots[Slots.Length - stringNumber];

    /// <summary>No fingers on any of so many strings.</summary>
    public static Fingers None(int strings) => new([.. new Finger?[Math.Max(0, strings)]]);

    /// <inheritdoc/>
    public bool Equals(Fingers? other) => other is not null && Slots.SequenceEqual(other.Slots);

    /// <inheritdoc/>
    public override int GetHashCode() => Slots.Aggregate(Slots.Length, (h, s) => HashCode.Combine(h, s));

    /// <summary>As the notation writes it: <c>x-1-3-2-4-x</c>.</summary>
    public override string ToString() => string.Join('-', Slots.Select(s => s?.Written() ?? "x"));
}
