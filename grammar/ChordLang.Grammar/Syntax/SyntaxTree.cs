// The whole text as lines. Any text has a tree, and the tree prints back the same text.
using System.Collections.Immutable;
using System.Text;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Syntax;

/// <summary>A text and its parsed lines, one for each line of the text.</summary>
public sealed class SyntaxTree
{
    private SyntaxTree(SourceText source, ImmutableArray<LineSyntax> lines) => (Source, Lines) = (source, lines);

    /// <summary>The text.</summary>
    public SourceText Source { get; }

    /// <summary>One parsed line for each line of the text.</summary>
    public ImmutableArray<LineSyntax> Lines { get; }

    /// <summary>Parses a text. Never fails; lines that were parsed before are taken from the cache, where one is given.</summary>
    public static SyntaxTree Parse(SourceText source, LineCache? cache = null)
    {
        cache ??= new();
        var lines = ImmutableArray.CreateBuilder<LineSyntax>(source.Lines.Length);
        for (var i = 0; i < source.Lines.Length; i++)
            lines.Add(cache.Parse(source.LineText(i)));
        return new(source, lines.MoveToImmutable());
    }

    /// <summary>Parses a text given as characters.</summary>
    public static SyntaxTree Parse(string text) => Parse(SourceText.From(text));

    /// <summary>A span of a line as a span of the text.</summary>
    public Span Absolute(int line, Span span) => span.Shift(Source.Lines[line].Start);

    /// <summary>Prints the tree from its tokens and the blanks between them.</summary>
    public string Print()
    {
        var text = new StringBuilder(Source.Text.Length);
        for (var i = 0; i < Lines.Length; i++)
        {
            var (line, at) = (Lines[i], 0);
            foreach (var token in line.Tokens)
            {
                text.Append(line.Text, at, token.Span.Start - at).Append(line.Text, token.Span.Start, token.Span.Length);
                at = token.Span.End;
            }
            text.Append(line.Text, at, line.Text.Length - at).Append(Source.Text, Source.Lines[i].End, Source.Lines[i].EndLength);
        }
        return text.ToString();
    }
}
