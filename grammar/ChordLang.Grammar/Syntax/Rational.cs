// Exact time: a third of a count stays a third.
namespace ChordLang.Grammar.Syntax;

/// <summary>An exact fraction in lowest terms, denominator positive. Made with <see cref="Of"/>; the default value is 0/0 and means nothing.</summary>
public readonly record struct Rational : IComparable<Rational>
{
    private Rational(long numerator, long denominator) => (Numerator, Denominator) = (numerator, denominator);

    /// <summary>Above the line.</summary>
    public long Numerator { get; }

    /// <summary>Below the line, positive.</summary>
    public long Denominator { get; }

    /// <summary>Nothing.</summary>
    public static Rational Zero { get; } = new(0, 1);

    /// <summary>One.</summary>
    public static Rational One { get; } = new(1, 1);

    /// <summary>A fraction, brought to lowest terms. The denominator must not be 0.</summary>
    public static Rational Of(long numerator, long denominator = 1)
    {
        var divisor = Divisor(Math.Abs(numerator), Math.Abs(denominator)) * Math.Sign(denominator);
        return new(numerator / divisor, denominator / divisor);
    }

    /// <summary>As a decimal number, for drawing and sorting only.</summary>
    public double Value => (double)Numerator / Denominator;

    /// <summary>The whole number at or below.</summary>
    public long Floor => Numerator >= 0 ? Numerator / Denominator : -((-Numerator + Denominator - 1) / Denominator);

    /// <summary>True for a whole number.</summary>
    public bool IsWhole => Denominator == 1;

    /// <inheritdoc/>
    public int CompareTo(Rational other) => Denominator == other.Denominator ? Numerator.CompareTo(other.Numerator)
        : ((Int128)Numerator * other.Denominator).CompareTo((Int128)other.Numerator * Denominator);

    /// <summary>The later of two.</summary>
    public static Rational Max(Rational a, Rational b) => a > b ? a : b;

    /// <summary>The earlier of two.</summary>
    public static Rational Min(Rational a, Rational b) => a < b ? a : b;

    public static Rational operator +(Rational a, Rational b) => a.Denominator == b.Denominator ? Of(a.Numerator + b.Numerator, a.Denominator) : Of(a.Numerator * b.Denominator + b.Numerator * a.Denominator, a.Denominator * b.Denominator);
    public static Rational operator -(Rational a, Rational b) => a.Denominator == b.Denominator ? Of(a.Numerator - b.Numerator, a.Denominator) : Of(a.Numerator * b.Denominator - b.Numerator * a.Denominator, a.Denominator * b.Denominator);
    public static Rational operator *(Rational a, Rational b) => Of(a.Numerator * b.Numerator, a.Denominator * b.Denominator);
    public static Rational operator /(Rational a, Rational b) => Of(a.Numerator * b.Denominator, a.Denominator * b.Numerator);
    public static bool operator <(Rational a, Rational b) => a.CompareTo(b) < 0;
    public static bool operator >(Rational a, Rational b) => a.CompareTo(b) > 0;
    public static bool operator <=(Rational a, Rational b) => a.CompareTo(b) <= 0;
    public static bool operator >=(Rational a, Rational b) => a.CompareTo(b) >= 0;
    public static implicit operator Rational(int whole) => new(whole, 1);

    /// <summary>Plain text: <c>3</c>, <c>7/2</c>.</summary>
    public override string ToString() => Denominator == 1 ? $"{Numerator}" : $"{Numerator}/{Denominator}";

    private static long Divisor(long a, long b)
    {
        if (b == 1)
            return 1;
        while (b != 0)
            (a, b) = (b, a % b);
        return a == 0 ? 1 : a;
    }
}
