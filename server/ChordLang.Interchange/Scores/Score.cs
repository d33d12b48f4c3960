// A score between formats: what every importer fills and the one writer of our notation reads.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Necks;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.Scores;

/// <summary>A score as our notation can say it. Offsets are counts from the bar line: count 1 is 0.</summary>
public sealed record Score
{
    /// <summary>Title, or null.</summary>
    public string? Title { get; init; }

    /// <summary>Who wrote it, or null.</summary>
    public string? By { get; init; }

    /// <summary>The open strings.</summary>
    public Tuning Tuning { get; init; } = Tuning.Standard;

    /// <summary>Fret of the capo, 0 for none.</summary>
    public int Capo { get; init; }

    /// <summary>Frets of the neck, where it needs more than the usual ones; else null.</summary>
    public int? Frets { get; init; }

    /// <summary>Teaching text for the whole, one entry a line.</summary>
    public ImmutableArray<string> Prose { get; init; } = [];

    /// <summary>The bars, in order as written.</summary>
    public required ImmutableArray<ScoreBar> Bars { get; init; }
}

/// <summary>A bar.</summary>
public sealed record ScoreBar
{
    /// <summary>The number players call it by; a pickup is 0.</summary>
    public required int Number { get; init; }

    /// <summary>Its meter.</summary>
    public required Meter Meter { get; init; }

    /// <summary>When it starts, in whole notes from the first bar's start.</summary>
    public required Rational Start { get; init; }

    /// <summary>The count on which it begins: 0 but in a pickup.</summary>
    public Rational From { get; init; } = Rational.Zero;

    /// <summary>The key from here on, or null for the one before.</summary>
    public Key? Key { get; init; }

    /// <summary>The tempo from here on as the setting writes it, or null for the one before.</summary>
    public string? Tempo { get; init; }

    /// <summary>The feel from here on, or null for the one before.</summary>
    public string? Feel { get; init; }

    /// <summary>The section that begins here, or null.</summary>
    public string? Section { get; init; }

    /// <summary>Form lines before it, in order.</summary>
    public ImmutableArray<string> Before { get; init; } = [];

    /// <summary>Form lines behind it, in order.</summary>
    public ImmutableArray<string> After { get; init; } = [];

    /// <summary>Chords by their offsets; none where the chord before lasts on. A null symbol is no chord.</summary>
    public ImmutableArray<(Rational Offset, string? Symbol)> Chords { get; init; } = [];

    /// <summary>Its voices.</summary>
    public ImmutableArray<ScoreVoice> Voices { get; init; } = [];

    /// <summary>Teaching text below it, one entry a line.</summary>
    public ImmutableArray<string> Prose { get; init; } = [];

    /// <summary>How long it is, in whole notes.</summary>
    public Rational Length => (Rational.Of(Meter.Counts) - From) * Meter.Count;

    /// <summary>When it ends, in whole notes.</summary>
    public Rational End => Start + Length;

    /// <summary>The offset in counts of a time in whole notes.</summary>
    public Rational OffsetOf(Rational time) => (time - Start) / Meter.Count + From;

    /// <summary>The time in whole notes of an offset in counts.</summary>
    public Rational TimeOf(Rational offset) => Start + (offset - From) * Meter.Count;
}

/// <summary>One voice in one bar.</summary>
/// <param name="Label">Its name, or null where the piece has one voice.</param>
/// <param name="Events">Its events, in order, none overlapping.</param>
public sealed record ScoreVoice(string? Label, ImmutableArray<ScoreEvent> Events);

/// <summary>An event.</summary>
/// <param name="Offset">Where it begins, in counts.</param>
/// <param name="End">Where it ends, in counts.</param>
/// <param name="Tied">True where it only goes on.</param>
/// <param name="Notes">Its notes; empty for one that goes on.</param>
/// <param name="Marks">Its marks.</param>
public sealed record ScoreEvent(Rational Offset, Rational End, bool Tied, ImmutableArray<ScoreNote> Notes, ImmutableArray<ScoreMark> Marks);

/// <summary>A note.</summary>
/// <param name="Pitch">Sounding pitch.</param>
/// <param name="String">Its string, 1 = highest, or null where it is left open.</param>
/// <param name="Fret">Its fret from the capo, or null.</param>
/// <param name="Finger">Left-hand finger as written, or null.</param>
/// <param name="FretOnly">True where the fret says more than the pitch: a dead note, a harmonic.</param>
public sealed record ScoreNote(Pitch Pitch, int? String, int? Fret, string? Finger = null, bool FretOnly = false);

/// <summary>A mark in the words of the notation.</summary>
/// <param name="Word">Its first word: <c>ring</c>; or a remark in its quotes.</param>
/// <param name="Operand">What stands behind it, or null: <c>until 3&amp;</c>.</param>
/// <param name="String">The string it is meant for, or null for all.</param>
public sealed record ScoreMark(string Word, string? Operand = null, int? String = null)
{
    /// <summary>As the notation writes it.</summary>
    public override string ToString() => Word + (String is { } s ? $"@{s}" : "") + (Operand is null ? "" : " " + Operand);
}

/// <summary>Something that a format or our notation cannot carry.</summary>
/// <param name="Bar">The bar, as players call it, or null for the whole.</param>
/// <param name="Message">What, and what was done instead.</param>
public sealed record Loss(int? Bar, string Message)
{
    /// <summary>As a line of text.</summary>
    public override string ToString() => Bar is { } bar ? $"bar {bar}: {Message}" : Message;
}

/// <summary>What an importer answers.</summary>
/// <param name="Score">The score.</param>
/// <param name="Losses">What could not be carried, by bar.</param>
public sealed record Imported(Score Score, ImmutableArray<Loss> Losses);

/// <summary>A file that cannot be read as what it claims to be; the message is a sentence for its owner.</summary>
public sealed class UnreadableScoreException(string message) : Exception(message);
