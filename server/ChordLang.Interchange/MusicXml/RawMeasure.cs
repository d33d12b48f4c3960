// A measure as it stands in the file, before form and time line are known.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Scores;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.MusicXml;

/// <summary>A note of a measure; places are whole notes from the measure's start.</summary>
internal sealed class RawNote
{
    public required Rational At { get; init; }
    public required Rational Length { get; init; }
    public required Pitch Pitch { get; set; }
    public required int Staff { get; init; }
    public required int Source { get; init; }
    public int? String { get; set; }
    public int? Fret { get; set; }
    public string? Finger { get; set; }
    public bool TieStart { get; set; }
    public bool TieStop { get; set; }
    public bool Dead { get; set; }
    public bool Harmonic { get; set; }
    /// <summary>True where it rings; how long beyond its end, or null for an unsaid time.</summary>
    public (bool Rings, Rational? Beyond) Ring { get; set; }
    public double? Bend { get; set; }
    public List<ScoreMark> Marks { get; } = [];
}

/// <summary>A measure.</summary>
internal sealed class RawMeasure
{
    public required Meter Meter { get; set; }
    public bool Implicit { get; set; }
    public bool Free { get; set; }
    public Rational Reached { get; set; } = Rational.Zero;
    public Key? Key { get; set; }
    public string? Tempo { get; set; }
    public string? Feel { get; set; }
    public string? Section { get; set; }
    public List<RawNote> Notes { get; init; } = [];
    public List<(Rational At, string? Symbol)> Chords { get; init; } = [];
    public List<string> Prose { get; init; } = [];
    public List<string> Losses { get; init; } = [];

    // Form.
    public bool Forward { get; set; }
    public int? Backward { get; set; }
    public int[]? Ending { get; set; }
    public bool EndingStops { get; set; }
    public List<string> Before { get; init; } = [];
    public List<string> After { get; init; } = [];

    /// <summary>The same music once more, for an ending that is played several times.</summary>
    public RawMeasure Copy() => new()
    {
        Meter = Meter, Implicit = Implicit, Free = Free, Reached = Reached, Notes = Notes, Chords = Chords,
    };

    /// <summary>Notes a loss once.</summary>
    public void Lose(string what)
    {
        if (!Losses.Contains(what))
            Losses.Add(what);
    }
}
