// The open strings: what each sounds when nothing is held down.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Fretboard.Necks;

/// <summary>Open strings, lowest string first, 4 to 9 of them. Strings are numbered as players do: 1 is the highest.</summary>
/// <param name="Open">Sounding pitch of each open string, lowest string first.</param>
public sealed record Tuning(ImmutableArray<Pitch> Open)
{
    /// <summary>Standard tuning of the six-string guitar, E2 A2 D3 G3 B3 E4 (common practice).</summary>
    public static Tuning Standard { get; } = new([.. "E2 A2 D3 G3 B3 E4".Split(' ').Select(t => Pitch.TryParse(t, out var p) ? p : default)]);

    /// <summary>How many strings.</summary>
    public int Strings => Open.Length;

    /// <summary>Open pitch of a string, by its number (1 = highest).</summary>
    public Pitch this[int stringNumber] => Open[Strings - stringNumber];

    /// <inheritdoc/>
    public bool Equals(Tuning? other) => other is not null && Open.SequenceEqual(other.Open);

    /// <inheritdoc/>
    public override int GetHashCode() => Open.Aggregate(Strings, (h, p) => HashCode.Combine(h, p));

    /// <summary>As the setting writes it: <c>E2 A2 D3 G3 B3 E4</c>.</summary>
    public override string ToString() => string.Join(' ', Open);
}
