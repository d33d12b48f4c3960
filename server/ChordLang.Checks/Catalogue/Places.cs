// Says in which bar and on which count a stretch of text stands, as a player would say it.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Checks.Catalogue;

/// <summary>Bars and counts of a piece, by place in its text.</summary>
public sealed class Places
{
    private readonly Piece piece;
    private readonly Dictionary<int, (Bar Bar, Row Row)> rows = [];

    /// <summary>Prepares the answers for a piece.</summary>
    public Places(Piece piece)
    {
        this.piece = piece;
        foreach (var bar in piece.Bars)
            foreach (var row in bar.Rows)
                if (!row.Borrowed)
                    rows.TryAdd(row.Line, (bar, row));
    }

    /// <summary>
    /// The number of the bar and the count as the notation writes it. Settings, sections and form words belong to the bar that follows them,
    /// all else to the bar it stands in or under; null before the first bar. The count is null where the text stands on none.
    /// </summary>
    public (int? Bar, string? Count) Of(Span span)
    {
        var line = piece.Tree.Source.LineAt(span.Start);
        if (rows.TryGetValue(line, out var at))
            return (at.Bar.Number, UnboundAt(at.Row, span.Start) ?? CountIn(at.Row, span.Start));
        var before = LastBarAt(line, span.Start);
        if (before < 0)
            return (null, null);
        if (piece.Bars[before].Line == line)
            return (piece.Bars[before].Number, CountIn(piece.Bars[before], span.Start));
        var heads = piece.Tree.Lines[line] is SettingLine or SectionLine or ShapeLine or UseLine or FormLine or ExpectLine;
        return (piece.Bars[heads && before + 1 < piece.Bars.Length ? before + 1 : before].Number, null);
    }

    // An event that could not be bound, such as one on a count out of order, still says its count.
    private string? UnboundAt(Row row, int offset)
    {
        if (piece.Tree.Lines[row.Line] is not RowLine { Events: var written } || written.LastOrDefault(e => piece.Tree.Absolute(row.Line, e.Span).Start <= offset) is not { } last)
            return null;
        var count = piece.Tree.Absolute(row.Line, last.Count.Span);
        return row.Events.Any(e => e.CountSpan.Touches(count.Start) || e.InRun && e.SoundSpan.Start > count.Start) ? null : CountSyntax.Write(last.Count.Offset);
    }

    private static string? CountIn(Row row, int offset) =>
        row.Events.Where(e => e.CountSpan.Start <= offset).MaxBy(e => e.CountSpan.Start) is { } last ? CountSyntax.Write(last.Offset) : null;

    private string? CountIn(Bar bar, int offset)
    {
        foreach (var item in bar.Syntax.Items)
            if (item.Count is { } count && piece.Tree.Absolute(bar.Line, item.Span).Touches(offset))
                return CountSyntax.Write(count.Offset);
        foreach (var chord in bar.Chords)
            if (!chord.Carried && chord.Span.Touches(offset))
                return bar.CountOf(chord.Start);
        return null;
    }

    // Index of the last bar that starts on the line at or before the offset, or on an earlier line; -1 before the first.
    private int LastBarAt(int line, int offset)
    {
        int low = 0, high = piece.Bars.Length - 1, found = -1;
        while (low <= high)
        {
            var middle = (low + high) / 2;
            var bar = piece.Bars[middle];
            if (bar.Line < line || bar.Line == line && (bar.Span.Start <= offset || middle == 0 || piece.Bars[middle - 1].Line != line))
                (found, low) = (middle, middle + 1);
            else
                high = middle - 1;
        }
        return found;
    }
}
