// Gives the chord symbols of a bar their spans in time.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>Binds chart lines, one bar at a time.</summary>
internal sealed class ChartBinder(SyntaxTree tree, ChordBook book, TroubleList troubles)
{
    /// <summary>True where a bar is written <c>%</c>.</summary>
    public static bool IsAgain(BarSyntax bar) => bar.Items is [{ Kind: ChartItemKind.BarAgain, Count: null }];

    /// <summary>The chord spans of a bar.</summary>
    /// <param name="bar">The bar, its place in time known.</param>
    /// <param name="previous">The bar before, bound, or null.</param>
    public ImmutableArray<ChordSpan> Bind(Bar bar, Bar? previous)
    {
        var before = previous?.Chords is [.., var last] ? last : null;
        if (IsAgain(bar.Syntax))
            return Again(bar, previous);
        var spans = new List<ChordSpan>();
        foreach (var (item, offset) in Placed(bar))
        {
            var (start, where) = (bar.TimeOf(offset), tree.Absolute(bar.Line, item.Symbol?.Span ?? item.Span));
            if (item.Kind == ChartItemKind.Chord)
                spans.Add(new(start, bar.End, book.Read(item.Symbol!, bar.Line), item.Symbol, where, false));
            else if (item.Kind == ChartItemKind.NoChord)
                spans.Add(new(start, bar.End, null, null, where, false));
            else if (item.Kind == ChartItemKind.BarAgain)
                troubles.Add(bar.Line, TroubleCodes.BarSignNotAlone, item.Span, "% repeats a whole bar, so it stands alone in its bar. Write the chords out, or leave only the %.");
        }
        if (before is not null && (spans.Count == 0 || spans[0].Start > bar.Start))
            spans.Insert(0, before with { Start = bar.Start, Carried = true });
        for (var i = 0; i < spans.Count; i++)
            spans[i] = spans[i] with { End = i + 1 < spans.Count ? spans[i + 1].Start : bar.End };
        return [.. spans];
    }

    private ImmutableArray<ChordSpan> Again(Bar bar, Bar? previous)
    {
        if (previous is null)
        {
            troubles.Add(bar.Line, TroubleCodes.NothingToRepeat, bar.Syntax.Items[0].Span, "% repeats the bar before, but this is the first bar. Write its chords.");
            return [];
        }
        if (previous.Length != bar.Length || previous.Settings.Meter != bar.Settings.Meter)
            troubles.Add(bar.Line, TroubleCodes.RepeatedBarDiffers, bar.Syntax.Items[0].Span,
                $"% repeats the bar before, but that one is of another length: {previous.Settings.Meter} there, {bar.Settings.Meter} here. Write this bar out.");
        var spans = ImmutableArray.CreateBuilder<ChordSpan>();
        foreach (var span in previous.Chords)
            if (bar.Start + (span.Start - previous.Start) is var start && start < bar.End)
                spans.Add(span with { Start = start, End = Rational.Min(bar.Start + (span.End - previous.Start), bar.End), Carried = true });
        if (spans.Count > 0)
            spans[^1] = spans[^1] with { End = bar.End };
        return spans.ToImmutable();
    }

    // Items with their offsets, rising, all inside the bar; the others are told.
    private IEnumerable<(ChartItem Item, Rational Offset)> Placed(Bar bar)
    {
        var (items, end) = (bar.Syntax.Items, bar.OffsetOf(bar.End));
        var reading = ChartReading.Of(bar.Syntax, bar.From, end);
        if (reading.Blame is { } blame)
            Sharing(bar, blame, end);
        Rational? before = null;
        for (var i = 0; i < items.Length; i++)
        {
            var offset = reading.Offsets[i] ?? bar.From + (end - bar.From) * Rational.Of(i, items.Length);
            if (items[i].Count is { } count)
            {
                if (offset >= end || offset < bar.From)
                {
                    troubles.Add(bar.Line, TroubleCodes.OutsideBar, count.Span, Counting.Outside(bar, offset));
                    continue;
                }
                if (before is { } b && offset <= b)
                {
                    troubles.Add(bar.Line, offset == b ? TroubleCodes.Twice : TroubleCodes.OutOfOrder, count.Span, offset == b
                        ? $"Two chords stand on count {CountSyntax.Write(offset)}. Give each its own count."
                        : $"Count {CountSyntax.Write(offset)} comes behind count {CountSyntax.Write(b)}. Write the chords in the order of their counts.");
                    continue;
                }
            }
            // A chord that shares with a misplaced one has no place of its own; the misplaced count is told.
            else if (offset >= end || offset < bar.From || before is { } b && offset <= b)
                continue;
            before = offset;
            yield return (items[i], offset);
        }
    }

    private void Sharing(Bar bar, ChartItem blame, Rational end)
    {
        var items = bar.Syntax.Items;
        var chords = items.Where(i => i.Kind != ChartItemKind.Slash).ToList();
        var plain = items.All(i => i.Count is null) && chords.Count == items.Length && bar.From == 0 && end.IsWhole && chords.Count <= end.Floor;
        // Those that players would take: the first chord gets what is left over.
        var counts = plain ? string.Join(' ', chords.Select((c, i) => $"{(i == 0 ? 1 : end.Floor - chords.Count + i + 1)} {((ChartLine)tree.Lines[bar.Line])[c.Span]}")) : "";
        var what = items.Any(i => i.Kind == ChartItemKind.Slash)
            ? "Each chord and each / is one count long here, and together they do not fill the stretch that they share"
            : "The chords without counts would not begin on whole counts here";
        troubles.Add(bar.Line, TroubleCodes.Sharing, blame.Span, $"{what}. Write the count before each chord" + (plain ? $", such as {counts}." : ", such as 1 Am7 3 D7."),
            plain ? [TroubleList.Replace($"Write {counts}", chords[0].Span.Join(chords[^1].Span), counts)] : []);
    }
}
