// What each word is, for colours: the parser's tokens, and which of them give a name.
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Colours;

/// <summary>A word with its colour.</summary>
/// <param name="Line">Its line, from 0.</param>
/// <param name="Span">Where, in offsets of the text.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Defines">True where it gives a name.</param>
/// <param name="Comment">True for what is not printed.</param>
public readonly record struct ColouredWord(int Line, Span Span, TokenKind Kind, bool Defines, bool Comment);

/// <summary>Colours words.</summary>
public static class ColoursOf
{
    /// <summary>The words of some lines, in order; what could not be read has no colour.</summary>
    /// <param name="tree">The syntax.</param>
    /// <param name="firstLine">The first line.</param>
    /// <param name="lastLine">The last line.</param>
    public static IEnumerable<ColouredWord> Lines(SyntaxTree tree, int firstLine, int lastLine)
    {
        for (var i = Math.Max(0, firstLine); i <= lastLine && i < tree.Lines.Length; i++)
        {
            var (line, start) = (tree.Lines[i], tree.Source.Lines[i].Start);
            foreach (var token in line.Tokens)
                if (token.Kind != TokenKind.Unreadable && token.Span.Length > 0)
                    yield return new(i, token.Span.Shift(start), token.Kind, token.Kind == TokenKind.Name && line is ShapeLine or SectionLine { Again: false }, line is CommentLine && token.Kind is TokenKind.Words or TokenKind.Opener);
        }
    }
}
