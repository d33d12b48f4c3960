// All that is to be said of a piece in its new key: its own findings, and what the way there cost.
using System.Collections.Immutable;
using ChordLang.Arrangement.Transposing;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Hand;

/// <summary>The findings of transpositions.</summary>
public static class TransposedFindings
{
    /// <summary>Findings of the new text and losses, in the order of the new text.</summary>
    public static ImmutableArray<Finding> Of(TransposedPiece moved) =>
    [
        .. InOrder(CheckCatalogue.Run(moved.Piece).Concat(Losses(moved))),
    ];

    /// <summary>What the way there cost, in the order of the new text.</summary>
    public static ImmutableArray<Finding> Losses(TransposedPiece moved) => [.. InOrder(CheckCatalogue.All.OfType<LossCheck>().SelectMany(c => c.Of(moved)))];

    private static IEnumerable<Finding> InOrder(IEnumerable<Finding> findings) =>
        findings.OrderBy(f => f.Span.Start).ThenBy(f => f.Severity).ThenBy(f => f.Code, StringComparer.Ordinal);
}
