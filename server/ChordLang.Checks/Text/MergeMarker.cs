// Keeps two versions of the same bars from being played one after the other.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Checks.Text;

/// <summary>Reports what version control left in the file: once for each conflict, at its first marker.</summary>
public sealed class MergeMarker : Check
{
    /// <inheritdoc/>
    public override string Code => SyntaxCodes.MergeMarker;

    /// <inheritdoc/>
    public override string Title => SyntaxCodes.Titles.First(t => t.Code == Code).Title;

    /// <inheritdoc/>
    public override Severity Severity => Severity.Error;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        int? start = null, old = null, middle = null;
        foreach (var i in piece.Tree.Numbers)
        {
            if (piece.Tree.Lines[i] is not MergeMarkerLine { Sign: var sign })
                continue;
            if (sign == '<' && start is { } open)
                yield return Of(piece.Tree, open);
            if (sign == '<' || start is null)
                (start, old, middle) = (i, null, null);
            else if (sign != '>')
                (old, middle) = (sign == '|' ? i : old, sign == '=' ? i : middle);
            if (sign != '>')
                continue;
            yield return Of(piece.Tree, start.Value) with { Fixes = middle is { } between ? [.. Fixes(piece.Tree, start.Value, old ?? between, between, i)] : [] };
            start = null;
        }
        if (start is { } last)
            yield return Of(piece.Tree, last);
    }

    private Finding Of(SyntaxTree tree, int line) => new(Code, Severity, tree.Lines[line].Findings[0].Message, tree.Absolute(line, tree.Lines[line].Findings[0].Span));

    // Which version is right only a reader knows.
    private static IEnumerable<Fix> Fixes(SyntaxTree tree, int start, int firstEnd, int middle, int end)
    {
        TextEdit Without(int from, int to) => new(Span.Between(tree.Source.Lines[from].Start, tree.Source.Lines[to].End + tree.Source.Lines[to].EndLength), "");
        yield return new("Keep the first version", false, [Without(start, start), Without(firstEnd, end)]);
        yield return new("Keep the second version", false, [Without(start, middle), Without(end, end)]);
    }
}
