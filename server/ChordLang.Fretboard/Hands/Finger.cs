// The digits of the left hand, named as players number them.
namespace ChordLang.Fretboard.Hands;

/// <summary>A digit of the left hand, by the number that players write: 1 the first finger to 4 the little one; the thumb over the neck is T.</summary>
public enum Finger
{
    /// <summary>The thumb, reaching over the neck; written T.</summary>
    Thumb = 0,
    /// <summary>The index finger, 1.</summary>
    First = 1,
    /// <summary>The middle finger, 2.</summary>
    Second = 2,
    /// <summary>The ring finger, 3.</summary>
    Third = 3,
    /// <summary>The little finger, 4.</summary>
    Little = 4,
}

/// <summary>Two digits of one hand, the lower number first.</summary>
public readonly record struct FingerPair
{
    /// <summary>The pair, in either order.</summary>
    public FingerPair(Finger one, Finger other) => (Lower, Upper) = one <= other ? (one, other) : (other, one);

    /// <summary>The digit with the lower number.</summary>
    public Finger Lower { get; }

    /// <summary>The digit with the higher number.</summary>
    public Finger Upper { get; }

    /// <summary>Reads well aloud: <c>first and little finger</c>.</summary>
    public override string ToString() => Lower == Finger.Thumb
        ? $"thumb and {Upper.Spoken()}"
        : $"{Lower.Spoken().Split(' ')[0]} and {Upper.Spoken()}";
}

/// <summary>How a finger is written and said.</summary>
public static class FingerNames
{
    /// <summary>As the notation writes it: <c>1</c> to <c>4</c>, <c>T</c>.</summary>
    public static string Written(this Finger finger) => finger == Finger.Thumb ? "T" : ((int)finger).ToString();

    /// <summary>As it is said: <c>third finger</c>, <c>thumb</c>.</summary>
    public static string Spoken(this Finger finger) => finger switch
    {
        Finger.Thumb => "thumb",
        Finger.First => "first finger",
        Finger.Second => "second finger",
        Finger.Third => "third finger",
        _ => "little finger",
    };
}
