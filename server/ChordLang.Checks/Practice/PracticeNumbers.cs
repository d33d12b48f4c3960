// What a bar asks of the left hand, as numbers that can be measured and argued about.
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Practice;

/// <summary>The numbers of one bar. Each of them is taken over the whole bar, and only grows where something is faster, wider or longer held.</summary>
public sealed record PracticeNumbers
{
    /// <summary>The widest grip, in millimetres along the neck between its outer frets; notes that ring on are part of it.</summary>
    public double Span { get; init; }

    /// <summary>Millimetres that first and little finger of the hand in force hold at ease.</summary>
    public double AtEase { get; init; } = 1;

    /// <summary>Lowest and highest fret of the widest grip; 0 where nothing is held.</summary>
    public (int Low, int High) Frets { get; init; }

    /// <summary>Where the widest grip is struck, as an offset in counts.</summary>
    public Rational SpanAt { get; init; }

    /// <summary>Where first something has to be held that no fingering reaches, as an offset in counts; or null.</summary>
    public Rational? Beyond { get; init; }

    /// <summary>The most fingers that any grip takes.</summary>
    public int Fingers { get; init; }

    /// <summary>Millimetres that the hand travels along the neck, at the least.</summary>
    public double Travel { get; init; }

    /// <summary>The longest of its shifts, or null.</summary>
    public Shift? Shift { get; init; }

    /// <summary>Where that shift arrives, as an offset in counts.</summary>
    public Rational ShiftAt { get; init; }

    /// <summary>Seconds that the tempo leaves for that shift.</summary>
    public double ShiftSeconds { get; init; }

    /// <summary>How often a finger is set on a place where it did not lie when its string was last struck in this bar.</summary>
    public int Changes { get; init; }

    /// <summary>How often something is struck while a fretted note has to ring on, counted for each such note.</summary>
    public int Holds { get; init; }

    /// <summary>The same for open strings, which must be left free.</summary>
    public int OpenHolds { get; init; }

    /// <summary>How often anything is struck.</summary>
    public int Strikes { get; init; }

    /// <summary>How long the bar lasts.</summary>
    public double Seconds { get; init; } = 1;

    /// <summary>Beats a minute that the seconds are counted by.</summary>
    public double Tempo { get; init; }

    /// <summary>True where no tempo is written, or the time is free, and <see cref="Tempo"/> is an assumption.</summary>
    public bool Assumed { get; init; }
}
