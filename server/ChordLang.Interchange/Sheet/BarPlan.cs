// One bar, measured: its columns in time, the room each of them asks for, and what stands over them.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Sheet;

/// <summary>What a bar shows of its own.</summary>
internal enum BarFace
{
    /// <summary>Notes and rests.</summary>
    Music,
    /// <summary>The sign that repeats the bar before.</summary>
    RepeatSign,
    /// <summary>A stroke on each count: chords to be played freely.</summary>
    Slashes,
}

/// <summary>A grip over a column.</summary>
/// <param name="Time">When.</param>
/// <param name="Shape">Its diagram.</param>
/// <param name="Event">The event it is told by.</param>
internal sealed record Grip(Rational Time, Diagram Shape, Event Event);

/// <summary>A measured bar. All lengths are units of the drawing.</summary>
internal sealed record BarPlan
{
    public required Bar Bar { get; init; }

    public required BarFace Face { get; init; }

    public required ImmutableArray<Strand> Strands { get; init; }

    /// <summary>When the columns are, in order.</summary>
    public required ImmutableArray<Rational> Times { get; init; }

    /// <summary>From each column to the next, and from the last to the bar line; these stretch.</summary>
    public required ImmutableArray<double> Gaps { get; init; }

    /// <summary>From the bar line, or from the signs behind it, to the first column; this does not stretch.</summary>
    public required double Lead { get; init; }

    /// <summary>Room for a change of key or meter where the bar does not open a system; 0 for none.</summary>
    public required double Change { get; init; }

    public required ImmutableArray<ChordName> Names { get; init; }

    public required ImmutableArray<Grip> Grips { get; init; }

    public required Dictionary<Note, string> Accidentals { get; init; }

    public required BarSigns Signs { get; init; }

    /// <summary>What the breaking of lines asks of it.</summary>
    public BarWidth Width => new(Gaps.Sum(), Lead, Change);
}

/// <summary>How wide a bar is.</summary>
/// <param name="Natural">What stretches.</param>
/// <param name="Lead">From the bar line to the first column.</param>
/// <param name="Change">Room for a change of key or meter inside a line.</param>
internal readonly record struct BarWidth(double Natural, double Lead, double Change);
