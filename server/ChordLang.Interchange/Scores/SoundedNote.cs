// A note on the time line, before it has a voice: what importers collect.
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.Scores;

/// <summary>A note from its strike to its end, over bar lines. Filled while a file is read.</summary>
internal sealed class SoundedNote
{
    /// <summary>When it is struck, in whole notes.</summary>
    public required Rational Onset { get; init; }

    /// <summary>When it ends, as its note values say.</summary>
    public required Rational End { get; set; }

    /// <summary>Until when it rings beyond that, or null.</summary>
    public Rational? Rings { get; set; }

    /// <summary>Sounding pitch.</summary>
    public required Pitch Pitch { get; set; }

    /// <summary>Which voice of the file it comes from; notes of two sources never share a row.</summary>
    public required int Source { get; init; }

    /// <summary>String, 1 = highest, or null.</summary>
    public int? String { get; set; }

    /// <summary>Fret from the capo, or null.</summary>
    public int? Fret { get; set; }

    /// <summary>Left-hand finger, or null.</summary>
    public string? Finger { get; set; }

    /// <summary>True for a dead note.</summary>
    public bool Dead { get; set; }

    /// <summary>True for a harmonic.</summary>
    public bool Harmonic { get; set; }

    /// <summary>Marks of its whole sound.</summary>
    public List<ScoreMark> Marks { get; } = [];

    /// <summary>Marks of this note alone.</summary>
    public List<ScoreMark> Own { get; } = [];
}
