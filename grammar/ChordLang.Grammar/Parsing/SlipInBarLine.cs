// Finds double bars and repeat signs, which the notation says in words.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Parsing;

/// <summary>Bar lines of more than one stroke.</summary>
internal static class SlipInBarLine
{
    /// <summary>The one finding for all such signs of a line, or null: a pair of repeat signs is one slip.</summary>
    public static SyntaxFinding? Find(Words words)
    {
        var signs = Enumerable.Range(0, words.Count).Where(i => words.KindAt(i) == WordKind.Bar && words[i].Span.Length > 1).ToList();
        if (signs.Count == 0)
            return null;
        var first = words[signs[0]].Span;
        if (signs.All(i => !words.Text(i).Contains(':')))
            return Say.Finding(SyntaxCodes.RepeatSign, first,
                "A double bar is not written: a new part begins with section, and what is played twice stands between repeat 2 and end. Write one bar line.",
                new SyntaxFix("Write one bar line", true, [.. signs.Select(i => new TextEdit(words[i].Span, "|"))]));
        return Say.Finding(SyntaxCodes.RepeatSign, first,
            "A repeat is written in words: a line repeat 2 above the first bar that is played again, and a line end below the last.",
            new SyntaxFix("Write repeat and end", false, Edits(words, signs)));
    }

    private static ImmutableArray<TextEdit> Edits(Words words, List<int> signs)
    {
        List<TextEdit> edits = [];
        if (signs.Any(i => words.Text(i).EndsWith(':')))
            edits.Add(new(new(0, 0), "repeat 2\n"));
        foreach (var i in signs)
            edits.Add(new(words[i].Span, "|"));
        if (signs.Any(i => words.Text(i).StartsWith(':')))
            edits.Add(new(new(words.Line.Length, 0), "\nend"));
        return [.. edits];
    }
}
