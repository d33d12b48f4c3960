// Holds short marked texts against what is found in them: tests are written, and fail, as text.
using System.Text;
using ChordLang.Grammar.Syntax;
using Xunit;

namespace ChordLang.Testing;

/// <summary>Short texts of tests.</summary>
public static class Snippet
{
    /// <summary>A text with a cursor in it, written ¦, as the text and the offset.</summary>
    public static (string Text, int Cursor) AtCursor(string text) => (text.Remove(text.IndexOf('¦'), 1), text.IndexOf('¦'));

    /// <summary>Parses a marked text: what the parser finds must be what is marked, no more and no less.</summary>
    public static SyntaxTree ShouldParseAsMarked(string marked)
    {
        var text = MarkedText.Read(marked);
        var tree = SyntaxTree.Parse(text.Text);
        ShouldFind(text, Found(tree));
        return tree;
    }

    /// <summary>The findings of a tree as marks.</summary>
    public static IReadOnlyList<Mark> Found(SyntaxTree tree) =>
        [.. tree.Lines.SelectMany((line, i) => line.Findings.Select(f => new Mark(tree.Absolute(i, f.Span).Start, f.Span.Length, f.Code, f.Message)))];

    /// <summary>Holds findings against the marks of a text. A mark's words are part of the message; an empty stretch counts as one character.</summary>
    public static void ShouldFind(MarkedText marked, IReadOnlyList<Mark> found)
    {
        var left = found.ToList();
        var missing = marked.Marks.Where(mark => !left.Remove(left.FirstOrDefault(f => Agree(mark, f))!)).ToList();
        if (left.Count > 0 || missing.Count > 0)
            Assert.Fail($"Expected:\n{Render(marked.Text, marked.Marks)}\nFound:\n{Render(marked.Text, found)}");
    }

    /// <summary>The text with marks below its lines.</summary>
    public static string Render(string text, IEnumerable<Mark> marks)
    {
        var (result, start) = (new StringBuilder(), 0);
        foreach (var line in text.Split('\n'))
        {
            result.Append(line).Append('\n');
            foreach (var mark in marks.Where(m => m.Start >= start && m.Start <= start + line.Length).OrderBy(m => m.Start))
                result.Append(' ', mark.Start - start).Append('^', Math.Max(1, mark.Length)).Append(' ').Append(mark.Code)
                    .Append(mark.Words.Length > 0 ? ": " + mark.Words : "").Append('\n');
            start += line.Length + 1;
        }
        return result.ToString();
    }

    private static bool Agree(Mark mark, Mark found) =>
        mark.Start == found.Start && mark.Length == Math.Max(1, found.Length) && mark.Code == found.Code && found.Words.Contains(mark.Words, StringComparison.Ordinal);
}
