// The hand as the checks and the placement know it: how far apart two fingers can be.
using System.Collections.Immutable;
using ChordLang.Fretboard.Necks;

namespace ChordLang.Fretboard.Hands;

/// <summary>How far two digits reach along the neck.</summary>
/// <param name="Pair">The two digits.</param>
/// <param name="Comfortable">Millimetres between the two frets that need no thought; beyond them a stretch is wide.</param>
/// <param name="Limit">Millimetres beyond which the grip is taken for impossible.</param>
public sealed record PairReach(FingerPair Pair, double Comfortable, double Limit);

/// <summary>A left hand. Figures and their origins: <see cref="HandFigure.All"/>.</summary>
/// <param name="Name">small, medium, large, or declared.</param>
/// <param name="Reach">One entry a pair of digits; a pair that is missing has no reach of its own and is never the limit.</param>
public sealed record Hand(string Name, ImmutableArray<PairReach> Reach)
{
    internal const double SmallRatio = 0.85;
    internal const double LargeRatio = 1.2;

    internal static ImmutableArray<PairReach> MediumReach { get; } =
    [
        Pair(1, 2, 60, 90), Pair(1, 3, 80, 120), Pair(1, 4, 100, 150),
        Pair(2, 3, 40, 70), Pair(2, 4, 72, 105), Pair(3, 4, 36, 68),
        Pair(0, 1, 45, 75), Pair(0, 2, 55, 85), Pair(0, 3, 70, 105), Pair(0, 4, 85, 120),
    ];

    /// <summary>A hand that holds fret 5 to fret 9 of a 647.7 mm neck without thinking.</summary>
    public static Hand Medium { get; } = new("medium", MediumReach);

    /// <summary>A small hand: 85 hundredths of the medium one.</summary>
    public static Hand Small { get; } = Medium.Scaled("small", SmallRatio);

    /// <summary>A large hand: 12 tenths of the medium one.</summary>
    public static Hand Large { get; } = Medium.Scaled("large", LargeRatio);

    /// <summary>The hand of a name: small, medium or large; null for any other word.</summary>
    public static Hand? Named(string name) => name switch { "small" => Small, "medium" => Medium, "large" => Large, _ => null };

    /// <summary>Millimetres that two digits hold comfortably; infinite for a pair without figures.</summary>
    public double Comfortable(Finger one, Finger other) => Of(one, other)?.Comfortable ?? double.PositiveInfinity;

    /// <summary>Millimetres beyond which two digits cannot go; infinite for a pair without figures.</summary>
    public double Limit(Finger one, Finger other) => Of(one, other)?.Limit ?? double.PositiveInfinity;

    /// <summary>Millimetres within which every two of the four fingers reach, so that nothing need be tried; infinite without figures.</summary>
    public double Within => Pairs(thumb: false).Min();

    /// <summary>Millimetres beyond which no two digits go, so that nothing need be tried; infinite where a pair has no figures.</summary>
    public double Beyond => Pairs(thumb: true).Max();

    /// <summary>
    /// The hand of one who says <c>reach 5 to 9</c>: first finger on the one fret, little finger on the other, on this neck, is
    /// comfortable; all other pairs are scaled alike. Two equal frets, or frets off the neck, leave the hand as it is.
    /// </summary>
    public Hand Calibrated(Neck neck, int from, int to)
    {
        var declared = neck.Distance(from, to);
        var mine = Comfortable(Finger.First, Finger.Little);
        return from < 0 || to < 0 || from == to || Math.Max(from, to) > neck.HighestFret || !double.IsFinite(mine)
            ? this
            : Scaled("declared", declared / mine);
    }

    /// <summary>The same hand with other figures for one pair.</summary>
    public Hand With(PairReach reach) => this with { Reach = [.. Reach.Where(r => r.Pair != reach.Pair), reach] };

    /// <summary>The same hand, every reach multiplied.</summary>
    public Hand Scaled(string name, double ratio) =>
        new(name, [.. Reach.Select(r => r with { Comfortable = r.Comfortable * ratio, Limit = r.Limit * ratio })]);

    /// <inheritdoc/>
    public bool Equals(Hand? other) => other is not null && Name == other.Name && Reach.SequenceEqual(other.Reach);

    /// <inheritdoc/>
    public override int GetHashCode() => Reach.Aggregate(Name.GetHashCode(StringComparison.Ordinal), HashCode.Combine);

    private IEnumerable<double> Pairs(bool thumb)
    {
        for (var one = thumb ? Finger.Thumb : Finger.First; one < Finger.Little; one++)
            for (var other = one + 1; other <= Finger.Little; other++)
                yield return Limit(one, other);
    }

    private PairReach? Of(Finger one, Finger other)
    {
        var pair = new FingerPair(one, other);
        foreach (var r in Reach)
            if (r.Pair == pair)
                return r;
        return null;
    }

    private static PairReach Pair(int one, int other, double comfortable, double limit) =>
        new(new((Finger)one, (Finger)other), comfortable, limit);
}
