// Finds the comments that silence a finding, and the lines each speaks for.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>Reads silencing comments. Each speaks for the next line that is neither blank, comment nor prose; a chart line brings its rows along.</summary>
internal static class AllowReader
{
    /// <summary>All silencing comments of a tree.</summary>
    public static ImmutableArray<Allow> Read(SyntaxTree tree)
    {
        var allows = ImmutableArray.CreateBuilder<Allow>();
        // Backwards, so that the next line of music and the last row of its bar are known without looking ahead.
        var (next, last, rowsEnd) = (-1, -1, -1);
        foreach (var i in tree.Numbers.Reverse())
            switch (tree.Lines[i])
            {
                case CommentLine { Allow: { } allow }:
                    allows.Add(new(allow.Code, allow.Reason, i, next < 0 ? i : next, next < 0 ? i : last, tree.Absolute(i, allow.Name)));
                    break;
                case BlankLine or CommentLine or ProseLine:
                    break;
                case RowLine:
                    (next, last) = (i, i);
                    rowsEnd = Math.Max(rowsEnd, i);
                    break;
                case ChartLine:
                    (next, last) = (i, Math.Max(i, rowsEnd));
                    rowsEnd = -1;
                    break;
                case var line:
                    (next, last) = (i, i);
                    // Settings may stand between a bar and its rows; sections and form words end the bar.
                    rowsEnd = line is SectionLine or FormLine ? -1 : rowsEnd;
                    break;
            }
        allows.Reverse();
        return allows.ToImmutable();
    }
}
