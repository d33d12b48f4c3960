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

    private SyntaxTree(SourceText source, ImmutableArray<LineSyntax> lines, ImmutableArray<int> heads, ImmutableArray<int>? part = null)
    {
        (Source, Lines, Heads, this.part) = (source, lines, heads, part);
        findings = new(() => [.. Numbers.SelectMany(i => lines[i].Findings.Select(f => (i, f)))]);
    }

    /// <summary>The text.</summary>
    public SourceText Source { get; }

    /// <summary>One parsed line for each line of the text.</summary>
    public ImmutableArray<LineSyntax> Lines { get; }

    /// <summary>The numbers of the lines that are neither music nor words: settings, sections, shapes, what is used, marks of a merge. In order.</summary>
    public ImmutableArray<int> Heads { get; }

    /// <summary>The numbers of the lines that are to be read, in order: all of them, or the part of <see cref="Part"/>.</summary>
    public IEnumerable<int> Numbers => part is { } some ? some : Enumerable.Range(0, Lines.Length);

    /// <summary>The same text, of which only some lines and <see cref="Heads"/> are to be read; every line stands where it stood. Its cost does not grow with the text.</summary>
    /// <param name="first">The first line.</param>
    /// <param name="last">The last line.</param>
    public SyntaxTree Part(int first, int last) => new(Source, Lines, Heads,
        [.. Heads.TakeWhile(h => h < first), .. Enumerable.Range(first, last - first + 1), .. Heads.SkipWhile(h => h <= last)]);

    /// <summary>Parses a text. Never fails; lines that were parsed before are taken from the cache, where one is given.</summary>
    public static SyntaxTree Parse(SourceText source, LineCache? cache = null)
    {
        cache ??= new();
        var lines = ImmutableArray.CreateBuilder<LineSyntax>(source.Lines.Length);
        for (var i = 0; i < source.Lines.Length; i++)
            lines.Add(cache.Parse(source.LineText(i)));
        var all = lines.MoveToImmutable();
        return new(source, all, [.. Enumerable.Range(0, all.Length).Where(i => IsHead(all[i]))]);
    }

    /// <summary>The tree after one edit: only the lines that it touches are parsed, all others are shared.</summary>
    /// <param name="edit">The edit, in offsets of the text.</param>
    /// <param name="changed">Which lines became which.</param>
    /// <param name="cache">Lines that were parsed before.</param>
    public SyntaxTree With(TextEdit edit, out LineChange changed, LineCache? cache = null)
    {
        cache ??= new();
        var source = Source.With(edit, out changed);
        var lines = ImmutableArray.CreateBuilder<LineSyntax>(source.Lines.Length);
        lines.AddRange(Lines, changed.First);
        for (var i = changed.First; i < changed.First + changed.New; i++)
            lines.Add(cache.Parse(source.LineText(i)));
        lines.AddRange(Lines.AsSpan()[(changed.First + changed.Old)..]);
        var (first, behind, by, all) = (changed.First, changed.First + changed.Old, changed.New - changed.Old, lines.MoveToImmutable());
        return new(source, all,
        [
            .. Heads.TakeWhile(h => h < first), .. Enumerable.Range(first, changed.New).Where(i => IsHead(all[i])), .. Heads.SkipWhile(h => h < behind).Select(h => h + by),
        ]);
    }

    /// <summary>What the parser has to say, with the line of each; in order.</summary>
    public ImmutableArray<(int Line, SyntaxFinding Finding)> Findings => findings.Value;

    /// <summary>Parses a text given as characters.</summary>
    public static SyntaxTree Parse(string text) => Parse(SourceText.From(text));

    /// <summary>A span of a line as a span of the text.</summary>
    public Span Absolute(int line, Span span) => span.Shift(Source.Lines[line].Start);

    private static bool IsHead(LineSyntax line) => line is not (RowLine or ChartLine or CommentLine or ExpectLine or FormLine or ProseLine or BlankLine);

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
