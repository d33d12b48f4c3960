// Moments: the places in time where something is struck, with all that sounds there.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Music;

/// <summary>A note that sounds at a moment, and the event it was struck in.</summary>
/// <param name="Note">The note.</param>
/// <param name="Source">The event that struck it (for a tied note, the one that struck it first).</param>
public sealed record Heard(Note Note, Event Source);

/// <summary>A chord from where it is written to where another takes over, over bar lines.</summary>
/// <param name="First">The span in which it begins.</param>
/// <param name="Start">When it begins, in whole notes.</param>
/// <param name="End">When the next one begins, or the piece ends.</param>
public sealed record ChordStretch(ChordSpan First, Rational Start, Rational End);

/// <summary>A time at which at least one event is struck.</summary>
public sealed record Moment
{
    /// <summary>When, in whole notes.</summary>
    public required Rational Time { get; init; }

    /// <summary>Index of its bar.</summary>
    public required int Bar { get; init; }

    /// <summary>The events struck then, by row.</summary>
    public required ImmutableArray<Event> Events { get; init; }

    /// <summary>All notes that sound then, struck now or before, of every row, lowest first. Dead notes are not among them.</summary>
    public required ImmutableArray<Heard> Sounding { get; init; }

    /// <summary>The chord in force, over bar lines, or null.</summary>
    public required ChordStretch? Chord { get; init; }

    /// <summary>The chord that comes next, or null.</summary>
    public required ChordStretch? Next { get; init; }

    /// <summary>The notes struck then, lowest first; dead ones left out.</summary>
    public IEnumerable<Heard> Struck => Sounding.Where(h => h.Note.Onset == Time);
}
