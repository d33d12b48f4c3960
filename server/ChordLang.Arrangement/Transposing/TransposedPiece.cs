// What comes of a transposition: the new text, bound again, and what was lost on the way.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Transposing;

/// <summary>What stopped a voicing on its way along the neck.</summary>
public enum Obstacle
{
    /// <summary>A string that was open.</summary>
    OpenString,
    /// <summary>The nut or the last fret.</summary>
    NeckEnd,
}

/// <summary>Something that could not move along.</summary>
/// <param name="Obstacle">What stopped it.</param>
/// <param name="Message">Plain sentences: what stopped it, what is written now, what to do.</param>
/// <param name="Span">What is written now, in offsets of the new text.</param>
/// <param name="Source">What was written, in offsets of the old text.</param>
/// <param name="SamePitches">True where every note still sounds as transposed, on other strings or without its open string.</param>
public sealed record Loss(Obstacle Obstacle, string Message, Span Span, Span Source, bool SamePitches)
{
    /// <summary>The number of the bar, or null before the first.</summary>
    public int? Bar { get; init; }

    /// <summary>The count as the notation writes it, or null.</summary>
    public string? Count { get; init; }

    /// <summary>The strings that were stopped, 1 = highest.</summary>
    public ImmutableArray<int> Strings { get; init; } = [];
}

/// <summary>A piece in its new key.</summary>
/// <param name="Piece">The new text, bound.</param>
/// <param name="Interval">By which it moved.</param>
/// <param name="Losses">What could not move along, in the order of the text. Where it is empty, the inverse interval gives the same music back.</param>
public sealed record TransposedPiece(Piece Piece, Interval Interval, ImmutableArray<Loss> Losses)
{
    /// <summary>The new text.</summary>
    public SourceText Text => Piece.Tree.Source;
}
