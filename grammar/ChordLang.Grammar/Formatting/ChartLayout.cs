// Writes a chart line with the counts of its chords.
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Grammar.Formatting;

/// <summary>A chart line as canonical text.</summary>
internal static class ChartLayout
{
    /// <summary>
    /// Writes a chart line. A chord on count 1 needs no count; every other gets one, and a lone <c>/</c> is then said already.
    /// Where it cannot be said where the chords stand, or the bar is a pickup, they stay as written.
    /// </summary>
    public static string Write(ChartLine line, int counts, bool pickup)
    {
        var gap = line.Bars.Length == 1 ? "   " : " ";
        var bars = line.Bars.Select((bar, i) => Bar(line, bar, counts, gap, pickup && i == 0));
        var text = string.Join(' ', bars);
        // The last of several bars, when bare, needs a bar line behind it to be one.
        return line.Bars.Length > 1 && line.Bars[^1].Items.IsEmpty ? text + " |" : text;
    }

    private static string Bar(ChartLine line, BarSyntax bar, int counts, string gap, bool pickup)
    {
        if (bar.Items.IsEmpty)
            return "|";
        var reading = ChartReading.Of(bar, counts);
        if (pickup || reading.Blame is not null || bar.Items.All(i => i.Kind == ChartItemKind.Slash))
            return "| " + string.Join(' ', bar.Items.Select(i => i.Count is { } c ? $"{CountSyntax.Write(c.Offset)} {Thing(line, i)}" : Thing(line, i)));
        var items = bar.Items.Select((item, i) => (Item: item, Offset: reading.Offsets[i]!.Value)).Where(i => i.Item.Kind != ChartItemKind.Slash);
        return "| " + string.Join(gap, items.Select((i, n) => n == 0 && i.Offset == 0 ? Thing(line, i.Item) : $"{CountSyntax.Write(i.Offset)} {Thing(line, i.Item)}"));
    }

    private static string Thing(ChartLine line, ChartItem item) => item.Kind switch
    {
        ChartItemKind.Chord => line[item.Symbol!.Span],
        ChartItemKind.NoChord => "N.C.",
        ChartItemKind.BarAgain => "%",
        _ => "/",
    };
}
