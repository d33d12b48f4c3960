// Puts the events of a row on their places in the bar, and tells counts that cannot be.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Arrangement.Binding;

/// <summary>A sound on its place.</summary>
/// <param name="Offset">Counts from the bar line.</param>
/// <param name="Count">Where its count is written; inside a run, the sound itself.</param>
/// <param name="Played">The sound, or null where it was forgotten.</param>
/// <param name="InRun">True inside a run.</param>
internal sealed record PlacedSound(Rational Offset, Span Count, PlayedSyntax? Played, bool InRun)
{
    /// <summary>True where it cannot be played: outside the bar, or on a count that is taken.</summary>
    public bool Misplaced { get; init; }
}

/// <summary>Places the sounds of rows.</summary>
internal static class RowPlaces
{
    /// <summary>The sounds of a row, in order of time; those on one count in order of the text.</summary>
    public static ImmutableArray<PlacedSound> Of(RowLine row, int line, Bar bar, TroubleList troubles)
    {
        var places = new List<PlacedSound>();
        foreach (var e in row.Events)
            Spread(e, row, line, places, troubles);
        TellDisorder(places, line, troubles);
        var end = bar.OffsetOf(bar.End);
        for (var i = 0; i < places.Count; i++)
            if (places[i].Offset >= end || places[i].Offset < bar.From)
            {
                if (!places[i].InRun)
                    troubles.Add(line, TroubleCodes.OutsideBar, places[i].Count, Counting.Outside(bar, places[i].Offset));
                places[i] = places[i] with { Misplaced = true };
            }
        var ordered = places.OrderBy(p => p.Offset).ToList();
        for (int i = 1, kept = 0; i < ordered.Count; i++)
            if (ordered[i].Offset == ordered[kept].Offset && !ordered[i].Misplaced)
            {
                TellTwice(ordered[kept], ordered[i], row, line, troubles);
                ordered[i] = ordered[i] with { Misplaced = true };
            }
            else
                kept = i;
        return [.. ordered];
    }

    private static void Spread(EventSyntax e, RowLine row, int line, List<PlacedSound> places, TroubleList troubles)
    {
        if (e.To is null || e.Sounds.IsEmpty)
        {
            places.Add(new(e.Count.Offset, e.Count.Span, e.Sounds.IsEmpty ? null : e.Sounds[0], false));
            return;
        }
        var (length, gaps) = (e.To.Offset - e.Count.Offset, e.Sounds.Length - 1);
        var offsets = RunReading.Offsets(e);
        if (offsets is null)
            TellRun(e, row, line, troubles);
        if (length <= 0)
            gaps = 0;
        for (var i = 0; i <= gaps; i++)
            places.Add(new(offsets?[i] ?? (gaps == 0 ? e.Count.Offset : e.Count.Offset + length * Rational.Of(i, gaps)),
                i == 0 ? e.Count.Span : i == gaps ? e.To.Span : e.Sounds[i].Sound.Span, e.Sounds[i], i > 0 && i < gaps));
    }

    private static void TellRun(EventSyntax e, RowLine row, int line, TroubleList troubles)
    {
        var (from, to) = (row[e.Count.Span], row[e.To!.Span]);
        if (e.To.Offset <= e.Count.Offset)
        {
            troubles.Add(line, TroubleCodes.OutOfOrder, e.To.Span, $"A run goes forward, but count {to} does not come behind count {from}. Swap the two, or correct the one that is wrong.");
            return;
        }
        var written = e.Sounds.Length;
        // The numbers of sounds nearest to what is written, at most one below and one above.
        var fitting = RunReading.Fitting(e);
        var near = fitting.Where(n => n < written).TakeLast(1).Concat(fitting.Where(n => n > written).Take(1)).ToList();
        var would = near.Count == 0 ? "No number of sounds shares this stretch evenly; choose other counts."
            : $"{string.Join(" would, or ", near.Select(n => $"{n}, one every {Every((e.To.Offset - e.Count.Offset) / (n - 1))}"))} would. Look for a sound too few or too many, or write each count.";
        troubles.Add(line, TroubleCodes.RunDoesNotFit, e.Count.Span.Join(e.To.Span),
            $"{written} {(written == 1 ? "sound does" : "sounds do")} not share the counts {from} to {to} evenly: {would}");
    }

    private static string Every(Rational step) => step.ToString() switch
    {
        "1" => "count", "1/2" => "half count", "1/3" => "third of a count", "1/4" => "quarter of a count", "1/6" => "sixth of a count", "1/8" => "eighth of a count",
        var counts => $"{counts} counts",
    };

    private static void TellDisorder(List<PlacedSound> places, int line, TroubleList troubles)
    {
        var written = places.Where(p => !p.InRun).ToList();
        for (var i = 1; i < written.Count; i++)
        {
            var (before, here) = (written[i - 1], written[i]);
            if (here.Offset >= before.Offset)
                continue;
            // 1 4 2 3: the four is the odd one, for all others rise.
            var odd = i + 1 < written.Count && written[i + 1].Offset <= before.Offset && written[i + 1].Offset > here.Offset && (i < 2 || written[i - 2].Offset < here.Offset);
            var (blamed, other) = odd ? (before, here) : (here, before);
            troubles.Add(line, TroubleCodes.OutOfOrder, blamed.Count,
                $"Count {CountSyntax.Write(blamed.Offset)} stands {(odd ? "before" : "behind")} count {CountSyntax.Write(other.Offset)}. Counts rise from left to right in a row; correct it, or put the sound where it belongs.");
        }
    }

    private static void TellTwice(PlacedSound first, PlacedSound second, RowLine row, int line, TroubleList troubles)
    {
        ImmutableArray<Fix> fixes = [];
        if (first.Played is { Sound: NotesSound, Marks: var marks } one && second.Played is { Sound: NotesSound two, Marks.Length: 0 } && !first.InRun && !second.InRun
            && (marks.IsEmpty ? one.Sound.Span.End : marks[^1].Span.End) <= second.Count.Start)
            fixes = [new("Strike both together", false, [new(new(one.Sound.Span.End, 0), "+" + row[two.Span]), new(Span.Between(one.Span.End, two.Span.End), "")])];
        troubles.Add(line, TroubleCodes.Twice, second.Count,
            $"Count {CountSyntax.Write(second.Offset)} stands twice in this row. Give the second its own count; notes struck together are joined with a plus sign.", fixes);
    }
}
