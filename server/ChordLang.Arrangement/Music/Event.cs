// An event: what one voice does on one count, and the notes that come of it.
using System.Collections.Immutable;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Music;

/// <summary>What an event does.</summary>
public enum EventKind
{
    /// <summary>Strikes notes.</summary>
    Struck,
    /// <summary>Silence.</summary>
    Rest,
    /// <summary>The sound before goes on.</summary>
    Tied,
    /// <summary>Could not be bound (unknown shape, nothing to repeat, …); a trouble says why.</summary>
    Unbound,
}

/// <summary>An event of a row.</summary>
public sealed record Event
{
    /// <summary>What it does. <c>again</c> is a strike.</summary>
    public required EventKind Kind { get; init; }

    /// <summary>Index of its bar.</summary>
    public required int Bar { get; init; }

    /// <summary>Number of its row in the bar, from 1.</summary>
    public required int Row { get; init; }

    /// <summary>The voice, see <see cref="Music.Row.VoiceKey"/>.</summary>
    public required string VoiceKey { get; init; }

    /// <summary>Offset in counts from the bar line.</summary>
    public required Rational Offset { get; init; }

    /// <summary>When it starts, in whole notes.</summary>
    public required Rational Onset { get; init; }

    /// <summary>When the next event of its row starts, or the bar ends.</summary>
    public required Rational End { get; init; }

    /// <summary>Its notes, lowest string (or as written) first; for a tie, the notes that go on.</summary>
    public required ImmutableArray<Note> Notes { get; init; }

    /// <summary>The syntax of its sound; null for a sound of a bar that <c>%</c> repeats.</summary>
    public required PlayedSyntax? Syntax { get; init; }

    /// <summary>Its line (that of the row it is borrowed from, for <c>%</c>).</summary>
    public required int Line { get; init; }

    /// <summary>Where its sound is written, in offsets of the text.</summary>
    public required Span SoundSpan { get; init; }

    /// <summary>Where its count is written, in offsets of the text.</summary>
    public required Span CountSpan { get; init; }

    /// <summary>Marks in force on it (for <c>again</c>: those of the sound before too); spans in offsets of the line.</summary>
    public ImmutableArray<MarkSyntax> Marks { get; init; } = [];

    /// <summary>The voicing, where all its notes are placed on strings; else null.</summary>
    public Voicing? Voicing { get; init; }

    /// <summary>The chord that <c>is</c> names it, where given and understood.</summary>
    public Chord? Is { get; init; }

    /// <summary>The shape it is made from, where it is.</summary>
    public Shape? Shape { get; init; }

    /// <summary>True where it is written in the words <c>again</c> or comes from a <c>%</c>, so that edits belong elsewhere.</summary>
    public bool Repeated { get; init; }

    /// <summary>True for a sound inside a run, whose count is not written: <see cref="CountSpan"/> is then the sound itself.</summary>
    public bool InRun { get; init; }

    /// <summary>Grace notes before it; they have no time of their own, onset and end are the event's onset.</summary>
    public ImmutableArray<Note> Grace { get; init; } = [];

    /// <summary>Where <c>slide from 7@1</c> says that a slide begins; onset and end are the event's onset.</summary>
    public ImmutableArray<Note> SlideFrom { get; init; } = [];

    /// <summary>True if it carries this mark.</summary>
    public bool Has(MarkKind kind) => Marks.Any(m => m.Kind == kind);
}

/// <summary>A note.</summary>
public sealed record Note
{
    /// <summary>Sounding pitch, spelled as written, or by the chord and key in force where only a fret is written.</summary>
    public required Pitch Pitch { get; init; }

    /// <summary>True where the spelling is the writer's own.</summary>
    public required bool PitchWritten { get; init; }

    /// <summary>String, 1 = highest, or null where it is left open.</summary>
    public int? String { get; init; }

    /// <summary>Fret counted from the capo, or null where it is left open.</summary>
    public int? Fret { get; init; }

    /// <summary>True where the fret itself is written (not worked out from a pitch and a string).</summary>
    public bool FretWritten { get; init; }

    /// <summary>When it is struck; for a tied note, when it was struck first.</summary>
    public required Rational Onset { get; init; }

    /// <summary>When it stops sounding: its event's end, a ring mark's, a tie's; or when its own string is struck again before.</summary>
    public required Rational End { get; init; }

    /// <summary>When the writer wants it to stop: as <see cref="End"/>, but not cut short by its string.</summary>
    public required Rational WantedEnd { get; init; }

    /// <summary>The smallest text that says this note, in offsets of the text: one slot, one pitch, or the whole sound for a shape.</summary>
    public required Span Span { get; init; }

    /// <summary>Where its pitch is written, in offsets of the text, or null. Where fret and pitch are both written (<c>G4 = 8@2</c>), <see cref="Span"/> is the fret.</summary>
    public Span? PitchSpan { get; init; }

    /// <summary>True for a dead note: struck, but without a pitch; <see cref="Pitch"/> is what the string would sound there. Not part of what sounds.</summary>
    public bool Dead { get; init; }

    /// <summary>True for a harmonic: <see cref="Pitch"/> sounds, <see cref="Fret"/> is where the string is touched, or held for one that is not natural.</summary>
    public bool Harmonic { get; init; }

    /// <summary>The pitch it is bent to, where it is.</summary>
    public Pitch? BendTo { get; init; }

    /// <summary>Left-hand finger, where given.</summary>
    public Finger? Finger { get; init; }

    /// <summary>MIDI number of the sounding pitch.</summary>
    public int Midi => Pitch.Midi;
}
