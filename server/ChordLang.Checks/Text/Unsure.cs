// Lists what was written down by ear with a question mark, so that it is listened to again.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Checks.Text;

/// <summary>Lists the sounds that carry the mark <c>unsure</c>.</summary>
public sealed class Unsure : Check
{
    /// <inheritdoc/>
    public override string Code => "text-unsure";

    /// <inheritdoc/>
    public override string Title => "A sound that the writer is not sure of";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Information;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        foreach (var line in piece.Tree.Numbers)
            if (piece.Tree.Lines[line] is RowLine row)
                foreach (var played in row.Events.SelectMany(e => e.Sounds))
                    foreach (var mark in played.Marks.Where(m => m.Kind == MarkKind.Unsure))
                        yield return new(Code, Severity,
                            $"{row[played.Sound.Span]} was written down by ear and is marked unsure. Listen once more, correct it if need be, and take the mark out.",
                            piece.Tree.Absolute(line, mark.Span)) { Fixes = [Removal(piece.Tree, line, row, mark)] };
    }

    // Not safe although the sound stays: only the writer can become sure.
    private static Fix Removal(SyntaxTree tree, int line, RowLine row, MarkSyntax mark)
    {
        var start = mark.Span.Start;
        while (start > 0 && char.IsWhiteSpace(row.Text[start - 1]))
            start--;
        return new("Take the mark out: I am sure now", false, [new(tree.Absolute(line, Span.Between(start, mark.Span.End)), "")]);
    }
}
