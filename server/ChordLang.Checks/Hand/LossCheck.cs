// A check whose question is put to a transposition, not to a piece: what could not move along with the rest.
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Transposing;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Hand;

/// <summary>Reports what a transposition lost; <see cref="Of"/> makes its findings, and a piece by itself has none.</summary>
/// <param name="code">Its name.</param>
/// <param name="title">What it finds, in one line.</param>
/// <param name="obstacle">What stopped the voicing.</param>
public abstract class LossCheck(string code, string title, Obstacle obstacle) : Check
{
    /// <inheritdoc/>
    public sealed override string Code => code;

    /// <inheritdoc/>
    public sealed override string Title => title;

    /// <summary>A warning; where every note still sounds as transposed, an information.</summary>
    public sealed override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public sealed override IEnumerable<Finding> Find(Piece piece) => [];

    /// <summary>The losses of a transposition that this check reports, in offsets of the new text.</summary>
    public IEnumerable<Finding> Of(TransposedPiece moved) => moved.Losses.Where(l => l.Obstacle == obstacle).Select(l =>
        new Finding(code, l.SamePitches ? Severity.Information : Severity.Warning, l.Message, l.Span) { Bar = l.Bar, Count = l.Count, Strings = l.Strings });
}
