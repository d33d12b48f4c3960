// Cuts a text into what merges as one: a bar with its rows, or any other line by itself.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Features.Merging;

/// <summary>A bar with its rows (a chart line of several bars counts as one), or another line.</summary>
/// <param name="Text">As written, with its line ends.</param>
/// <param name="Plain">Without blanks at the ends, and with single ones: what two versions are compared by.</param>
/// <param name="Head">Its first line.</param>
/// <param name="Line">The number of that line, from 0.</param>
/// <param name="Count">How many lines it has.</param>
internal sealed record MergeUnit(string Text, string Plain, LineSyntax Head, int Line, int Count)
{
    private const double Same = 1, SameBlank = 0.1, SameWord = 0.6, Least = 0.05, Part = 0.8, FewWords = 0.3;

    private readonly Lazy<ImmutableArray<string>> words = new(() => [.. Plain.Split([' ', '\n', '-', '+'], StringSplitOptions.RemoveEmptyEntries).Order(StringComparer.Ordinal)]);

    /// <summary>True for a bar.</summary>
    public bool IsBar => Head is ChartLine;

    /// <summary>The units of a text. An empty last line is none.</summary>
    public static ImmutableArray<MergeUnit> Of(SyntaxTree tree)
    {
        var units = ImmutableArray.CreateBuilder<MergeUnit>();
        var lines = tree.Source.Lines;
        for (var i = 0; i < lines.Length;)
        {
            var end = i + 1;
            if (tree.Lines[i] is ChartLine)
                for (var next = end; next < lines.Length && tree.Lines[next] is RowLine or CommentLine; next++)
                    end = tree.Lines[next] is RowLine ? next + 1 : end;
            var text = tree.Source.Text[lines[i].Start..(lines[end - 1].End + lines[end - 1].EndLength)];
            if (text.Length > 0)
                units.Add(new(text, Squeeze(text), tree.Lines[i], i, end - i));
            i = end;
        }
        return units.ToImmutable();
    }

    /// <summary>How alike two units are: 1 for the same, 0 for what cannot be one unit changed.</summary>
    public double Likeness(MergeUnit other)
    {
        if (Plain == other.Plain)
            return Head is BlankLine ? SameBlank : Same;
        return (Head, other.Head) switch
        {
            (ChartLine, ChartLine) => Least + Part * Comparing.Likeness.Common(words.Value, other.words.Value),
            (SettingLine a, SettingLine b) => a.Kind == b.Kind ? SameWord : 0,
            (ShapeLine a, ShapeLine b) => a[a.Name] == b[b.Name] ? SameWord : 0,
            (FormLine a, FormLine b) => a.Kind == b.Kind ? SameWord : 0,
            (ExpectLine a, ExpectLine b) => a.Expectation?.Kind == b.Expectation?.Kind ? SameWord : 0,
            (SectionLine, SectionLine) => FewWords,
            (ProseLine, ProseLine) or (CommentLine, CommentLine) => Comparing.Likeness.Common(words.Value, other.words.Value) is var common && common > FewWords ? Part * common : 0,
            _ => 0,
        };
    }

    /// <summary>A text with single blanks.</summary>
    public static string Squeeze(string text) => string.Join('\n', text.Split('\n').Select(l => string.Join(' ', l.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)))).Trim();
}
