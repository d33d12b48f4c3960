// Honours the comments that silence a finding, and sees which of them silence nothing.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;

namespace ChordLang.Checks.Catalogue;

internal static class Silencing
{
    /// <summary>The findings that are left, and one more for each allow that does no good.</summary>
    public static IEnumerable<Finding> Apply(Piece piece, List<Finding> found, ImmutableArray<Check> checks)
    {
        if (piece.Allows.IsEmpty)
            return found;
        var source = piece.Tree.Source;
        var used = new bool[piece.Allows.Length];
        var left = new List<Finding>(found.Count);
        foreach (var finding in found)
        {
            var (line, silenced) = (source.LineAt(finding.Span.Start), false);
            for (var i = 0; i < used.Length; i++)
                if (piece.Allows[i] is var allow && allow.Code == finding.Code && allow.FirstLine <= line && line <= allow.LastLine)
                    used[i] = silenced = true;
            if (!silenced)
                left.Add(finding);
        }
        if (checks.Any(c => c is UnusedAllow))
            left.AddRange(piece.Allows.SelectMany((allow, i) => UnusedAllow.Of(piece, allow, used[i])));
        return left;
    }
}
