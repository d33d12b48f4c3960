// What the placement is asked, and what it answers.
using System.Collections.Immutable;
using ChordLang.Fretboard.Fingering;

namespace ChordLang.Fretboard.Placement;

/// <summary>A note to place.</summary>
/// <param name="Midi">Sounding MIDI number.</param>
/// <param name="Duration">How long it must sound, in quarters, ringing and ties counted.</param>
/// <param name="String">The string it is written on, or null.</param>
/// <param name="From">The pitch that it is hammered, pulled or slid from, which wants the same string; or null.</param>
public sealed record NoteToPlace(int Midi, double Duration, int? String = null, int? From = null);

/// <summary>Notes that begin together.</summary>
/// <param name="Time">Quarters from the beginning; onsets come in order of time.</param>
/// <param name="Notes">The notes, in any order.</param>
/// <param name="Position">The position asked for (the fret of the first finger), or null.</param>
public sealed record OnsetToPlace(double Time, ImmutableArray<NoteToPlace> Notes, int? Position = null)
{
    /// <summary>True where the same is asked, whenever that is.</summary>
    internal bool SameAs(OnsetToPlace other) => ReferenceEquals(this, other) || Position == other.Position && Notes.SequenceEqual(other.Notes);
}

/// <summary>Where a note is played; string and fret are null where the neck has no place for it.</summary>
public sealed record PlacedNote(int Midi, int? String, int? Fret);

/// <summary>An onset with its places, in the order of the notes asked for, and the fingers of its struck notes where a hand can hold them.</summary>
public sealed record PlacedOnset(ImmutableArray<PlacedNote> Notes, Fingers? Fingers)
{
    /// <summary>True where no hand holds what is struck, on these strings or (where none is given) on any.</summary>
    public bool Unheld => Fingers is null && Notes.Any(n => n.Fret > 0);
}

/// <summary>One placement of the whole passage.</summary>
/// <param name="Onsets">One for each onset asked for.</param>
/// <param name="Cost">Lower is better; comparable between placements of one passage.</param>
/// <param name="Parts">What the cost is made of, in plain words, largest first.</param>
public sealed record Placement(ImmutableArray<PlacedOnset> Onsets, double Cost, ImmutableArray<CostPart> Parts);

/// <summary>Other placements of a stretch.</summary>
/// <param name="Near">Those worth a try, cheapest first.</param>
/// <param name="LeftOut">How many more there are in other positions whose cost is out of proportion.</param>
public sealed record OtherPlacements(ImmutableArray<Placement> Near, int LeftOut);

/// <summary>One part of a cost.</summary>
/// <param name="Says">What it is about, in plain words.</param>
/// <param name="Cost">Its cost over the passage; below zero where the placement has more of what players like.</param>
/// <param name="Most">The onset that has most of it.</param>
public sealed record CostPart(string Says, double Cost, int Most);
