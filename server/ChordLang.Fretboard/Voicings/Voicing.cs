// A grip: which fret is held on which string.
using System.Collections.Immutable;

namespace ChordLang.Fretboard.Voicings;

/// <summary>One slot a string, lowest string first; null is a string that is not played.</summary>
/// <param name="Slots">Frets counted from the capo, 0 = open, null = not played.</param>
public sealed record Voicing(ImmutableArray<int?> Slots)
{
    /// <summary>How many strings the voicing is written for.</summary>
    public int Strings => Slots.Length;

    /// <summary>The fret on a string, by its number (1 = highest), or null.</summary>
    public int? this[int stringNumber] => Slots[Strings - stringNumber];

    /// <summary>The strings that are played, highest number (lowest string) first.</summary>
    public IEnumerable<int> Played
    {
        get
        {
            for (var s = Strings; s >= 1; s--)
                if (this[s] is not null)
                    yield return s;
        }
    }

    /// <inheritdoc/>
    public bool Equals(Voicing? other) => other is not null && Slots.SequenceEqual(other.Slots);

    /// <inheritdoc/>
    public override int GetHashCode() => Slots.Aggregate(Strings, (h, s) => HashCode.Combine(h, s));

    /// <summary>As the notation writes it: <c>x-3-5-4-5-x</c>.</summary>
    public override string ToString() => string.Join('-', Slots.Select(s => s?.ToString() ?? "x"));
}
