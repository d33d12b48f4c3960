// Honours the comments that silence a finding, and sees which of them silence nothing.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;

namespace ChordLang.Checks.Catalogue;

/// <summary>A finding that the piece allows, and the comment that does.</summary>
public sealed record AllowedFinding(Finding Finding, Allow Allow);

/// <summary>What the checks say of a piece.</summary>
/// <param name="Findings">In the order of the text.</param>
/// <param name="Allowed">What a comment silences, in the order of the text.</param>
public sealed record CheckReport(ImmutableArray<Finding> Findings, ImmutableArray<AllowedFinding> Allowed);

internal static class Silencing
{
    /// <summary>The findings that are left, one more for each allow that does no good, and those that are allowed.</summary>
    public static (List<Finding> Left, List<AllowedFinding> Allowed) Apply(Piece piece, List<Finding> found, ImmutableArray<Check> checks)
    {
        if (piece.Allows.IsEmpty)
            return (found, []);
        var allowed = new List<AllowedFinding>();
        var source = piece.Tree.Source;
        var used = new bool[piece.Allows.Length];
        var left = new List<Finding>(found.Count);
        foreach (var finding in found)
        {
            var (line, by) = (source.LineAt(finding.Span.Start), (Allow?)null);
            for (var i = 0; i < used.Length; i++)
                if (piece.Allows[i] is var allow && allow.Code == finding.Code && allow.FirstLine <= line && line <= allow.LastLine)
                    (used[i], by) = (true, allow);
            if (by is null)
                left.Add(finding);
            else
                allowed.Add(new(finding, by));
        }
        if (checks.Any(c => c is UnusedAllow))
            left.AddRange(piece.Allows.SelectMany((allow, i) => UnusedAllow.Of(piece, allow, used[i])));
        return (left, allowed);
    }
}
