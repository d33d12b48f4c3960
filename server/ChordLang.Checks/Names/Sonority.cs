// What is put before a chord symbol: the tones that sound together at one strike, and which of them can be at fault.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Chords;

namespace ChordLang.Checks.Names;

/// <summary>A sounding note, and whether the name can blame it.</summary>
/// <param name="Note">The note.</param>
/// <param name="Event">The event that struck it.</param>
/// <param name="Blamable">False for melody, suspensions and passing notes, which owe the name nothing.</param>
internal sealed record Tone(Note Note, Event Event, bool Blamable);

/// <summary>Three or more pitch classes that sound together, under one name.</summary>
internal sealed record Sonority
{
    public required Bar Bar { get; init; }
    public required Rational Time { get; init; }

    /// <summary>The name it is held against.</summary>
    public required Chord Chord { get; init; }

    /// <summary>The chord of the chart in force, where there is one.</summary>
    public required ChordStretch? Stretch { get; init; }

    /// <summary>The <c>is</c> mark that gives the name, or null where the chart does.</summary>
    public required MarkSyntax? Is { get; init; }

    /// <summary>The event that edits and findings speak of: the one with the most notes among those struck now.</summary>
    public required Event Event { get; init; }

    /// <summary>The tones, lowest first.</summary>
    public required ImmutableArray<Tone> Tones { get; init; }

    /// <summary>Pitch classes that can supply a missing tone, a bit each: under jazz naming, one that comes a count later is not missing.</summary>
    public required int Heard { get; init; }

    /// <summary>The lowest pitch that a line of one or two notes strikes in the span of the name, as a MIDI number: the bass may sound before the rest.</summary>
    public required int Lowest { get; init; }

    /// <summary>True for <c>naming strict</c>.</summary>
    public bool Strict => Bar.Settings.Strict;
}
