// The whole text as lines. Any text has a tree, and the tree prints back the same text.
using System.Collections.Immutable;
using System.Text;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Syntax;

/// <summary>A text and its parsed lines, one for each line of the text.</summary>
public sealed class SyntaxTree
{
    private readonly Lazy<ImmutableArray<(int, SyntaxFinding)>> findings;
    private readonly ImmutableArray<int>? part;

    private SyntaxTree(SourceText source, SyntaxLines lines, ImmutableArray<int>? part = null)
    {
        (Source, Lines, this.part) = (source, lines, part);
        findings = new(() => [.. Numbers.SelectMany(i => lines[i].Findings.Select(f => (i, f)))]);
    }

    /// <summary>The text.</summary>
    public SourceText Source { get; }

    /// <summary>One parsed line for each line of the text.</summary>
    public SyntaxLines Lines { get; }

    /// <summary>The numbers of the lines that reach beyond their place: settings, shapes, what is used. In order.</summary>
    public IEnumerable<int> Heads => Lines.Heads(0, Lines.Length);

    /// <summary>The numbers of the lines that are to be read, in order: all of them, or the part of <see cref="Part"/>.</summary>
    public IEnumerable<int> Numbers => part is { } some ? some : Enumerable.Range(0, Lines.Length);

    /// <summary>The same text, of which only some lines and <see cref="Heads"/> are to be read; every line stands where it stood. Its cost does not grow with the text.</summary>
    /// <param name="first">The first line.</param>
    /// <param name="last">The last line.</param>
    public SyntaxTree Part(int first, int last) => new(Source, Lines, [.. Lines.Heads(0, first), .. Enumerable.Range(first, last - first + 1), .. Lines.Heads(last + 1, Lines.Length)]);

    /// <summary>Parses a text. Never fails; lines that were parsed before are taken from the cache, where one is given.</summary>
    public static SyntaxTree Parse(SourceText source, LineCache? cache = null) => new(source, new(Parsed(source, 0, source.Lines.Length, cache ?? new())));

    /// <summary>The tree after one edit: only the lines that it touches are parsed, all others are shared.</summary>
    /// <param name="edit">The edit, in offsets of the text.</param>
    /// <param name="changed">Which lines became which.</param>
    /// <param name="cache">Lines that were parsed before.</param>
    public SyntaxTree With(TextEdit edit, out LineChange changed, LineCache? cache = null)
    {
        var source = Source.With(edit, out changed);
        return new(source, Lines.With(changed.First, changed.Old, Parsed(source, changed.First, changed.New, cache ?? new())));
    }

    /// <summary>What the parser has to say, with the line of each; in order.</summary>
    public ImmutableArray<(int Line, SyntaxFinding Finding)> Findings => findings.Value;

    /// <summary>Parses a text given as characters.</summary>
    public static SyntaxTree Parse(string text) => Parse(SourceText.From(text));

    /// <summary>A span of a line as a span of the text.</summary>
    public Span Absolute(int line, Span span) => span.Shift(Source.Lines[line].Start);

    private static LineSyntax[] Parsed(SourceText source, int first, int count, LineCache cache)
    {
        var lines = new LineSyntax[count];
        for (var i = 0; i < count; i++)
            lines[i] = cache.Parse(source.LineText(first + i));
        return lines;
    }

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
