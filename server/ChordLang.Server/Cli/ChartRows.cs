// Prints a chart as a player reads it: bars in rows of four, a new row at each section, numerals under the chords.
using System.Text;
using ChordLang.Arrangement.Music;

namespace ChordLang.Server.Cli;

/// <summary>A chord to be printed.</summary>
/// <param name="Bar">Its bar, as players count.</param>
/// <param name="Count">Its count.</param>
/// <param name="Symbol">What stands on the chart.</param>
/// <param name="Numeral">What stands under it.</param>
internal sealed record ChartEntry(int Bar, string Count, string Symbol, string Numeral);

/// <summary>The bars of a piece in rows.</summary>
/// <param name="Rows">Each row's section name where one begins there, and the numbers of its bars.</param>
internal sealed record ChartRows(IReadOnlyList<(string? Section, IReadOnlyList<int> Bars)> Rows)
{
    private const int InARow = 4, Wide = 110;

    /// <summary>Parts the bars of a piece into rows. A pickup has a row of its own.</summary>
    public static ChartRows Of(Piece piece)
    {
        var rows = new List<(string?, IReadOnlyList<int>)>();
        var row = new List<int>();
        string? name = null;
        void End()
        {
            if (row.Count > 0)
                rows.Add((name, row));
            (row, name) = ([], null);
        }

        foreach (var bar in piece.Bars)
        {
            if (piece.Sections.FirstOrDefault(s => !s.Again && s.FirstBar == bar.Index) is { } section)
            {
                End();
                name = section.Name;
            }
            else if (row.Count == InARow || row is [0])
                End();
            row.Add(bar.Number);
        }
        End();
        return new(rows);
    }

    /// <summary>The rows with these chords in them; a bar without one is empty: the chord before lasts on. Ends with a line end.</summary>
    public string Write(IReadOnlyList<ChartEntry> chords)
    {
        var cells = chords.GroupBy(c => c.Bar).ToDictionary(g => g.Key, g => Cell.Of([.. g]));
        var text = Written(cells, Rows);
        // Busy bars get rows of two.
        return text.Split('\n').Max(l => l.Length) <= Wide ? text : Written(cells, [.. Rows.SelectMany(Halves)]);
    }

    private static IEnumerable<(string?, IReadOnlyList<int>)> Halves((string? Section, IReadOnlyList<int> Bars) row) =>
        row.Bars.Chunk(InARow / 2).Select((bars, i) => (i == 0 ? row.Section : null, (IReadOnlyList<int>)bars));

    private static string Written(Dictionary<int, Cell> cells, IReadOnlyList<(string? Section, IReadOnlyList<int> Bars)> rows)
    {
        var widths = new int[InARow];
        foreach (var (_, bars) in rows)
            for (var i = 0; i < bars.Count; i++)
                widths[i] = Math.Max(widths[i], cells.TryGetValue(bars[i], out var cell) ? cell.Above.Length : 1);
        var text = new StringBuilder();
        foreach (var (section, bars) in rows)
        {
            if (section is not null)
                text.Append($"    {Terminal.Harmless(section)}\n");
            text.Append(Line(cells, bars, widths, true)).Append(Line(cells, bars, widths, false));
        }
        return text.ToString();
    }

    private static string Line(Dictionary<int, Cell> cells, IReadOnlyList<int> bars, int[] widths, bool above)
    {
        var number = !above ? "" : bars[0] == 0 ? "pickup" : $"{bars[0]}";
        var line = new StringBuilder($"  {number,6} ");
        for (var i = 0; i < bars.Count; i++)
            line.Append($"{(above ? '|' : ' ')} {(cells.TryGetValue(bars[i], out var cell) ? above ? cell.Above : cell.Below : "").PadRight(widths[i])} ");
        return (above ? line.Append('|').ToString() : line.ToString()).TrimEnd() + "\n";
    }

    // The chords of a bar, each numeral under its symbol.
    private sealed record Cell(string Above, string Below)
    {
        public static Cell Of(IReadOnlyList<ChartEntry> chords)
        {
            var (above, below) = (new StringBuilder(), new StringBuilder());
            foreach (var c in chords)
            {
                var count = c.Count == "1" ? "" : $"{c.Count} ";
                var gap = above.Length > 0 ? "  " : "";
                var width = Math.Max(c.Symbol.Length, c.Numeral.Length);
                above.Append(gap).Append(count).Append(c.Symbol.PadRight(width));
                below.Append(gap).Append(' ', count.Length).Append(c.Numeral.PadRight(width));
            }
            // Both sides of the cell are equally wide, so that bar lines stand in a column.
            return new(above.ToString(), below.ToString());
        }
    }
}
