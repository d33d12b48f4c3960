// Lays the rows of a bar under one another, events on one count in one column.
using System.Collections.Immutable;
using System.Text;
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Grammar.Formatting;

/// <summary>The rows of one bar as canonical text.</summary>
internal static class RowLayout
{
    private const int Indent = 4;
    private const int Gap = 3;

    private sealed record Cell(Rational Offset, string Text);

    /// <summary>Writes rows; the answer has one text for each.</summary>
    public static ImmutableArray<string> Write(IReadOnlyList<RowLine> rows)
    {
        var labels = rows.Max(r => r.Voice is null ? 0 : r.Voice.Length + 1);
        var cells = rows.Select(Cells).ToArray();
        var texts = rows.Select(r => new StringBuilder(new string(' ', Indent)).Append(r.Voice is null ? "" : r.Voice + ":")).ToArray();
        var begin = Indent + (labels == 0 ? 0 : labels + 2);
        // Rows that go back in time have no columns to share; they are written one event behind the other.
        var ordered = cells.Select(Rises).ToArray();
        var columns = Enumerable.Range(0, rows.Count).Where(r => ordered[r])
            .SelectMany(r => cells[r].Select(cell => (cell.Offset, Row: r, cell.Text))).GroupBy(c => c.Offset).OrderBy(c => c.Key);
        foreach (var column in columns)
        {
            var at = column.Max(c => Free(texts[c.Row], begin));
            foreach (var (_, row, text) in column)
                Put(texts[row], at, text);
        }
        for (var r = 0; r < rows.Count; r++)
            if (!ordered[r])
                foreach (var cell in cells[r])
                    Put(texts[r], Free(texts[r], begin), cell.Text);
        return [.. texts.Select(t => t.ToString())];
    }

    private static int Free(StringBuilder text, int begin) => text.Length < begin ? begin : text.Length == begin ? begin : text.Length + Gap;

    private static void Put(StringBuilder text, int at, string cell) => text.Append(' ', Math.Max(0, at - text.Length)).Append(cell);

    private static bool Rises(ImmutableArray<Cell> cells)
    {
        for (var i = 1; i < cells.Length; i++)
            if (cells[i].Offset <= cells[i - 1].Offset)
                return false;
        return true;
    }

    // One cell for each sound: a run's counts are written out, unless its sounds do not fit.
    private static ImmutableArray<Cell> Cells(RowLine row)
    {
        var written = new Written(row, OctaveReading.Of(row));
        var cells = ImmutableArray.CreateBuilder<Cell>(row.Events.Length);
        foreach (var e in row.Events)
            if (e.To is not null && RunReading.Offsets(e) is { } offsets)
                for (var i = 0; i < offsets.Length; i++)
                    cells.Add(new(offsets[i], $"{CountSyntax.Write(offsets[i])} {written.Played(e.Sounds[i])}"));
            else
                cells.Add(new(e.Count.Offset, written.Event(e)));
        return cells.ToImmutable();
    }
}
