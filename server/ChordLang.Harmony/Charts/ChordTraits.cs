// The few questions that harmony asks of every chord, answered from its tones.
using ChordLang.Theory.Chords;

namespace ChordLang.Harmony.Charts;

/// <summary>Kinds of chord as far as function goes.</summary>
public enum ChordFamily
{
    /// <summary>Major third, no minor seventh.</summary>
    Major,

    /// <summary>Minor third and perfect fifth.</summary>
    Minor,

    /// <summary>Major third (or none) and minor seventh.</summary>
    Dominant,

    /// <summary>Minor third, diminished fifth, minor seventh.</summary>
    HalfDiminished,

    /// <summary>Minor third and diminished fifth, with a diminished seventh or none.</summary>
    Diminished,

    /// <summary>Major third and raised fifth, no minor seventh.</summary>
    Augmented,

    /// <summary>A fourth or second in place of the third, no seventh.</summary>
    Suspended,

    /// <summary>No third at all.</summary>
    Power,
}

/// <summary>Traits of chords.</summary>
public static class ChordTraits
{
    /// <summary>True where the symbol asks for a tone at this interval (0 to 11) above the root.</summary>
    public static bool Asks(this Chord chord, int interval)
    {
        foreach (var tone in chord.Tones)
            if (tone.Degree.Interval == interval)
                return true;
        return false;
    }

    /// <summary>The family of a chord.</summary>
    public static ChordFamily Family(this Chord chord)
    {
        var (major, minor, seventh) = (chord.Asks(4), chord.Asks(3), chord.Asks(10));
        var suspended = chord.Asks(5) || chord.Asks(2);
        return (major, minor) switch
        {
            (true, _) => seventh ? ChordFamily.Dominant : chord.Asks(8) && !chord.Asks(7) ? ChordFamily.Augmented : ChordFamily.Major,
            (_, true) => chord.Asks(6) && !chord.Asks(7) ? seventh ? ChordFamily.HalfDiminished : ChordFamily.Diminished : ChordFamily.Minor,
            _ => seventh && suspended ? ChordFamily.Dominant : suspended ? ChordFamily.Suspended : seventh ? ChordFamily.Dominant : ChordFamily.Power,
        };
    }

    /// <summary>True for the chords that pull down a fifth: major third and minor seventh, sus included.</summary>
    public static bool IsDominant(this Chord chord) => chord.Family() == ChordFamily.Dominant;

    /// <summary>True for a major seventh or sixth chord, which calls for nothing after it.</summary>
    public static bool IsAtRest(this Chord chord) => chord.Asks(4) && !chord.Asks(10) && (chord.Asks(11) || chord.Asks(9));

    /// <summary>True for minor and half-diminished sevenths, the chords that serve as a related two.</summary>
    public static bool IsMinorSeventh(this Chord chord) => chord.Family() is ChordFamily.Minor or ChordFamily.HalfDiminished && chord.Asks(10);

    /// <summary>A short sign for the chord's colour, as the models of this room tell chords apart: <c>M</c>, <c>7</c>, <c>m</c>, <c>m7</c>, <c>h</c>, <c>o</c>, <c>+</c>, <c>s</c>.</summary>
    public static string Colour(this Chord chord) => chord.Family() switch
    {
        ChordFamily.Dominant => "7",
        ChordFamily.Minor => chord.Asks(10) ? "m7" : "m",
        ChordFamily.HalfDiminished => "h",
        ChordFamily.Diminished => "o",
        ChordFamily.Augmented => "+",
        ChordFamily.Suspended => "s",
        _ => "M",
    };
}
