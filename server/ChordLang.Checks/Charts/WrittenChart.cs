// The chords of a piece in the order written, as harmony reads them.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Text;
using ChordLang.Harmony.Charts;
using ChordLang.Harmony.Keys;

namespace ChordLang.Checks.Charts;

/// <summary>Where a chord of a chart is written.</summary>
/// <param name="Count">The count it stands on, as the notation writes it.</param>
/// <param name="Symbol">Its symbol as written.</param>
/// <param name="Bar">Index of its bar.</param>
/// <param name="Span">Where the symbol stands; for a bar with <c>%</c>, in the bar it repeats.</param>
public sealed record ChordPlace(string Count, string Symbol, int Bar, Span Span);

/// <summary>A chart and where its chords stand.</summary>
/// <param name="Chart">One chord for each symbol written and understood; a bar with <c>%</c> writes again what it repeats.</param>
/// <param name="Places">The place of each chord.</param>
/// <param name="Given">The keys that the piece states, and from which bar on.</param>
public sealed record WrittenChart(Chart Chart, ImmutableArray<ChordPlace> Places, ImmutableArray<KeySpan> Given)
{
    /// <summary>Reads the chart of a piece.</summary>
    public static WrittenChart Of(Piece piece)
    {
        var chords = ImmutableArray.CreateBuilder<ChartChord>();
        var places = ImmutableArray.CreateBuilder<ChordPlace>();
        var given = ImmutableArray.CreateBuilder<KeySpan>();
        foreach (var bar in piece.Bars)
        {
            if (bar.Settings.Key is { } key && (given.Count == 0 || given[^1].Key != key))
                given.Add(new(bar.Number, key, true, 1));
            foreach (var span in bar.Chords)
            {
                var counts = ((span.End - span.Start) / bar.Settings.Meter.Count).Value;
                if (span.Carried && !Rewritten(piece, bar, span))
                {
                    if (span.Chord is not null && chords.Count > 0)
                        chords[^1] = chords[^1] with { Duration = chords[^1].Duration + counts };
                }
                else if (span is { Chord: { } chord, Symbol: not null })
                {
                    chords.Add(new(bar.Number, bar.OffsetOf(span.Start).Value, counts, chord));
                    places.Add(new(bar.CountOf(span.Start), piece.Tree.Source[span.Span], bar.Index, span.Span));
                }
            }
        }
        return new(new(chords.ToImmutable(), piece.Settings.Meter.Counts), places.ToImmutable(), given.ToImmutable());
    }

    // True where % repeats a chord that stands written in the bar it leads back to.
    private static bool Rewritten(Piece piece, Bar bar, ChordSpan span)
    {
        var place = bar.Chords.IndexOf(span);
        while (bar.Repeats is { } repeated && repeated < bar.Index)
            bar = piece.Bars[repeated];
        return place < bar.Chords.Length && !bar.Chords[place].Carried;
    }
}
