// A bar: its place in time, what is in force in it, and its rows.
using System.Collections.Immutable;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Keys;

namespace ChordLang.Arrangement.Music;

/// <summary>A meter: how many counts, and what note one count is.</summary>
/// <param name="Counts">Counts in a bar, the upper number.</param>
/// <param name="Unit">The lower number: 2, 4, 8 or 16.</param>
public sealed record Meter(int Counts, int Unit)
{
    /// <summary>Length of one count in whole notes.</summary>
    public Rational Count => Rational.Of(1, Unit);

    /// <summary>Length of a bar in whole notes.</summary>
    public Rational Length => Rational.Of(Counts, Unit);

    /// <summary>True for the compound meters, in which three counts make a beat: 6/8, 9/8, 12/8 (common practice).</summary>
    public bool Compound => Unit >= 8 && Counts > 3 && Counts % 3 == 0;

    /// <summary>Length in whole notes of the beat that a tempo counts: three counts in the compound meters, else one (common practice).</summary>
    public Rational Beat => Compound ? Rational.Of(3) * Count : Count;

    /// <inheritdoc/>
    public override string ToString() => $"{Counts}/{Unit}";
}

/// <summary>What is in force at a bar.</summary>
/// <param name="Meter">The meter; 4/4 where none is written.</param>
/// <param name="Key">The key, or null where none is given.</param>
/// <param name="Neck">Tuning, frets, scale length, capo.</param>
/// <param name="Strict">True for <c>naming strict</c>.</param>
/// <param name="Reach">Declared reach as a pair of frets, or null.</param>
/// <param name="BeatsPerMinute">Tempo in beats a minute, or null.</param>
/// <param name="Rubato">True where the time is free.</param>
/// <param name="Feel">The feel's words, or null.</param>
/// <param name="Position">The position asked for, or null.</param>
public sealed record Settings(
    Meter Meter, Key? Key, Neck Neck, bool Strict, (int From, int To)? Reach, double? BeatsPerMinute, bool Rubato, string? Feel, int? Position)
{
    /// <summary>Where nothing is written: 4/4, no key, standard neck, jazz naming.</summary>
    public static Settings Default { get; } = new(new(4, 4), null, Neck.Standard, false, null, null, false, null, null);

    /// <summary>The player's hand where no reach is declared. No line of a piece says it; the library or the editor may.</summary>
    public Hand Hand { get; init; } = Hand.Medium;
}

/// <summary>A bar as written.</summary>
public sealed record Bar
{
    /// <summary>Place in <see cref="Piece.Bars"/>, from 0.</summary>
    public required int Index { get; init; }

    /// <summary>The number players call it by: from 1; a pickup is 0.</summary>
    public required int Number { get; init; }

    /// <summary>The chart line it stands on.</summary>
    public required int Line { get; init; }

    /// <summary>Its syntax; offsets there count from the line.</summary>
    public required BarSyntax Syntax { get; init; }

    /// <summary>Where it stands on the chart line, in offsets of the text.</summary>
    public required Span Span { get; init; }

    /// <summary>What is in force.</summary>
    public required Settings Settings { get; init; }

    /// <summary>When it starts, in whole notes.</summary>
    public required Rational Start { get; init; }

    /// <summary>How long it is, in whole notes; a pickup is shorter than its meter.</summary>
    public required Rational Length { get; init; }

    /// <summary>The count, as an offset in counts, on which the bar starts: 0 but in a pickup.</summary>
    public required Rational From { get; init; }

    /// <summary>Chords, covering the bar without gap from its first chord on.</summary>
    public required ImmutableArray<ChordSpan> Chords { get; init; }

    /// <summary>Its rows. A bar written <c>%</c> without rows has those of the bar it repeats, marked as borrowed.</summary>
    public required ImmutableArray<Row> Rows { get; init; }

    /// <summary>Index of the bar that <c>%</c> repeats, or null.</summary>
    public int? Repeats { get; init; }

    /// <summary>Prose that stands under it, one entry a line.</summary>
    public ImmutableArray<string> Prose { get; init; } = [];

    /// <summary>When it ends, in whole notes.</summary>
    public Rational End => Start + Length;

    /// <summary>The time of an offset in counts from the bar line (count 1 is offset 0).</summary>
    public Rational TimeOf(Rational offset) => Start + (offset - From) * Settings.Meter.Count;

    /// <summary>The offset in counts of a time in this bar.</summary>
    public Rational OffsetOf(Rational time) => (time - Start) / Settings.Meter.Count + From;

    /// <summary>A time in this bar as a count: <c>2&amp;</c>.</summary>
    public string CountOf(Rational time) => CountSyntax.Write(OffsetOf(time));
}

/// <summary>A row: one voice in one bar.</summary>
/// <param name="Line">Its line.</param>
/// <param name="Number">Its number in the bar, from 1.</param>
/// <param name="Voice">The voice's label, or null.</param>
/// <param name="VoiceKey">What tells the voice through the piece: the label, or for unlabelled rows their place among them.</param>
/// <param name="Events">Its events, in order.</param>
/// <param name="Borrowed">True for a row that <c>%</c> repeats from an earlier bar.</param>
public sealed record Row(int Line, int Number, string? Voice, string VoiceKey, ImmutableArray<Event> Events, bool Borrowed);
