// Reads a set of intervals over one supposed root as chord tones: which is the third, which an altered fifth, which a tension.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Naming;

/// <summary>What the tones of a sound are when one pitch class is taken as the root. Common practice: chords are read in thirds,
/// a minor third beside a major one is a sharp ninth, a fourth without a third is a suspension.</summary>
/// <param name="Third">Degree that stands in the third's place: <c>3</c>, <c>b3</c>, <c>4</c> or <c>2</c> of a suspension, or null.</param>
/// <param name="Fifth">Degree that stands in the fifth's place: <c>5</c>, <c>b5</c>, <c>#5</c>, or null.</param>
/// <param name="Seventh">Degree that stands in the seventh's place: <c>b7</c>, <c>7</c>, <c>bb7</c>, <c>6</c>, or null.</param>
/// <param name="Tensions">What is left, rising.</param>
/// <param name="Rootless">True where the root itself does not sound.</param>
public sealed record ToneReading(Degree? Third, Degree? Fifth, Degree? Seventh, ImmutableArray<Degree> Tensions, bool Rootless)
{
    private static readonly Degree Unison = new(1, 0), Fifth5 = new(5, 0);

    /// <summary>Every degree that sounds, rising by number.</summary>
    public ImmutableArray<Degree> Sounding { get; } =
        [.. new Degree?[] { Rootless ? null : Unison, Third, Fifth, Seventh }.OfType<Degree>().Concat(Tensions).OrderBy(d => d.Number).ThenBy(d => d.Alteration)];

    /// <summary>Degrees that the name implies but that do not sound: the root, the plain fifth, the third.</summary>
    public ImmutableArray<Degree> Missing { get; } =
        [.. new Degree?[] { Rootless ? Unison : null, Third is null ? new Degree(3, 0) : null, Fifth is null ? Fifth5 : null }.OfType<Degree>()];

    /// <summary>True for a major, minor or diminished triad that sounds whole, and nothing else with it.</summary>
    internal bool IsTriad => !Rootless && Tensions.IsEmpty && this is { Third.Number: 3, Fifth: { } fifth, Seventh: null } && (fifth.Alteration == 0 || fifth.Alteration == -1 && Third?.Alteration == -1);

    /// <summary>Reads a set of intervals.</summary>
    /// <param name="intervals">Bit <c>n</c> set: the pitch class <c>n</c> semitones above the supposed root sounds (0 to 11).</param>
    public static ToneReading Of(int intervals)
    {
        bool Has(int n) => (intervals >> n & 1) != 0;
        var used = 1;
        Degree? Take(int n, int number, int alteration)
        {
            used |= 1 << n;
            return new Degree(number, alteration);
        }

        var third = Has(4) ? Take(4, 3, 0) : Has(3) ? Take(3, 3, -1) : Has(5) ? Take(5, 4, 0) : Has(2) ? Take(2, 2, 0) : null;
        var minor = third == new Degree(3, -1);
        var seventh = Has(10) ? Take(10, 7, -1) : Has(11) ? Take(11, 7, 0)
            : Has(9) ? minor && Has(6) && !Has(7) ? Take(9, 7, -2) : Take(9, 6, 0) : null;
        // Six semitones are a flat fifth unless a perfect fifth sounds, or a ninth or thirteenth over a major third make it a sharp eleventh.
        var lydian = third == new Degree(3, 0) && seventh is { Number: 7 } && (Has(2) || Has(9));
        var fifth = Has(7) ? Take(7, 5, 0) : Has(6) && third?.Number != 4 && !lydian ? Take(6, 5, -1) : Has(8) && !minor ? Take(8, 5, 1) : null;
        var tall = seventh is { Number: 7 };
        var tensions = ImmutableArray.CreateBuilder<Degree>();
        for (var n = 1; n < 12; n++)
            if (Has(n) && (used >> n & 1) == 0)
                tensions.Add(Tension(n, tall));
        return new(third, fifth, seventh, tensions.ToImmutable(), !Has(0));
    }

    private static Degree Tension(int interval, bool tall) => interval switch
    {
        1 => new(9, -1), 2 => new(9, 0), 3 => new(9, 1), 5 => new(11, 0), 6 => new(11, 1),
        8 => new(13, -1), 9 => tall ? new(13, 0) : new(6, 0), 10 => new(7, -1), 11 => new(7, 0), _ => new(10, 0),
    };
}
