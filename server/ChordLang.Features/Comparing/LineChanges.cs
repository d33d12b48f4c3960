// Tells changes of lines that hold no bar: sections and form, teaching text, comments, expectations.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Features.Comparing;

/// <summary>Compares lines that are not played themselves.</summary>
internal static class LineChanges
{
    /// <summary>What came and what went. Places are those of the new version.</summary>
    public static IEnumerable<Change> Of(Piece old, Piece now, ImmutableArray<BarMusic> bars)
    {
        foreach (var (came, line, text) in Differ(Lines(old, Form), Lines(now, Form)))
            yield return Next(now, bars, came ? line : null) is { } next ? new(next.Bar.Number, next.Section?.Name, ChangeKind.Form, $"{text} put in before it")
                : new(null, null, ChangeKind.Form, $"{text} {(came ? "put in at the end" : "taken out")}");
        var (prose, notes) = (Differ(Lines(old, Prose), Lines(now, Prose)), Differ(Lines(old, Notice), Lines(now, Notice)));
        if (prose.Count > 0)
            yield return new(null, null, ChangeKind.Words, "teaching text changed");
        if (notes.Count > 0)
            yield return new(null, null, ChangeKind.Notice, notes.All(n => n.Text.StartsWith("expect", StringComparison.Ordinal)) ? "expectations changed" : "comments changed");
    }

    private static string? Form(LineSyntax line) => line is FormLine or SectionLine ? Plain(line.Text) : null;

    private static string? Prose(LineSyntax line) => line is ProseLine prose ? prose.Words.Trim() : null;

    private static string? Notice(LineSyntax line) => line is CommentLine or ExpectLine ? Plain(line.Text) : null;

    private static string Plain(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static List<(int Line, string Text)> Lines(Piece piece, Func<LineSyntax, string?> read) =>
        [.. piece.Tree.Lines.Select((l, i) => (i, Text: read(l))).Where(l => l.Text is not null).Select(l => (l.i, l.Text!))];

    private static List<(bool Came, int Line, string Text)> Differ(List<(int Line, string Text)> old, List<(int Line, string Text)> now)
    {
        var pairs = Alignment.Of(old.Count, now.Count, (i, j) => old[i].Text == now[j].Text, (i, j) => old[i].Text == now[j].Text ? 1 : 0);
        return
        [
            .. old.Where((_, i) => pairs.All(p => p.Old != i)).Select(l => (false, l.Line, l.Text)),
            .. now.Where((_, j) => pairs.All(p => p.New != j)).Select(l => (true, l.Line, l.Text)),
        ];
    }

    private static BarMusic? Next(Piece now, ImmutableArray<BarMusic> bars, int? line) =>
        line is { } at && now.Bars.FirstOrDefault(b => b.Line > at) is { } bar ? bars[bar.Index] : null;
}
