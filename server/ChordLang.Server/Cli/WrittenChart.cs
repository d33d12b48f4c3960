// The chords of a piece in the order written, as harmony reads them.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Harmony.Charts;
using ChordLang.Harmony.Keys;

namespace ChordLang.Server.Cli;

/// <summary>A chart and where its chords stand.</summary>
/// <param name="Chart">One chord for each symbol written and understood; a bar with <c>%</c> writes again what it repeats.</param>
/// <param name="Places">For each chord its count and its symbol as written.</param>
/// <param name="Given">The keys that the piece states, and from which bar on.</param>
internal sealed record WrittenChart(Chart Chart, ImmutableArray<(string Count, string Symbol)> Places, ImmutableArray<KeySpan> Given)
{
    /// <summary>Reads the chart of a piece.</summary>
    public static WrittenChart Of(Piece piece)
    {
        var chords = ImmutableArray.CreateBuilder<ChartChord>();
        var places = ImmutableArray.CreateBuilder<(string, string)>();
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
                    places.Add((bar.CountOf(span.Start), piece.Tree.Source.Text.Substring(span.Span.Start, span.Span.Length)));
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
