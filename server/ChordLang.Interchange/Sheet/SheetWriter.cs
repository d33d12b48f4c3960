// An arrangement as the lines of a sheet: measured, broken into lines, drawn.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Interchange.Spoken;

namespace ChordLang.Interchange.Sheet;

/// <summary>Draws sheets.</summary>
public static class SheetWriter
{
    /// <summary>The lines of a piece, in order.</summary>
    /// <param name="piece">The piece, as written.</param>
    /// <param name="placed">Its notes on strings.</param>
    /// <param name="options">What was asked for.</param>
    public static ImmutableArray<SheetSystem> Systems(Piece piece, PlacedPiece placed, SheetOptions options)
    {
        var (places, form, voices) = (new Places(piece, placed), new FormSigns(piece), new Neighbours(piece));
        var plans = new Measure(piece, places, form, options).All();
        var writer = new SystemWriter(piece, places, voices, form, options);
        var spoken = Describer.Whole(piece, placed, false).Where(s => s.Bar >= 0).ToLookup(s => s.Bar, s => s.Text);
        var systems = ImmutableArray.CreateBuilder<SheetSystem>();
        foreach (var (from, to) in Stretches(piece))
            foreach (var line in LineBreaks.Of(plans, from, to, options.Width - 2, i => SystemPlan.Prefix(piece.Bars[i].Settings, Meter(i), options)))
            {
                var system = writer.Draw(SystemPlan.Of(plans, line, Meter(line.First), options));
                systems.Add(system with { Spoken = [.. Enumerable.Range(system.FirstBar, system.LastBar - system.FirstBar + 1).SelectMany(b => spoken[b])] });
            }
        return systems.ToImmutable();

        bool Meter(int bar) => bar == 0 || piece.Bars[bar].Settings.Meter != piece.Bars[bar - 1].Settings.Meter;
    }

    // A section begins a line of its own, and so does another neck; a pickup goes with the bar that it leads to.
    private static IEnumerable<(int From, int To)> Stretches(Piece piece)
    {
        var from = 0;
        for (var i = 1; i < piece.Bars.Length; i++)
            if (piece.Bars[i].Settings.Neck != piece.Bars[i - 1].Settings.Neck || (i > 1 || piece.Bars[0].Number > 0) && piece.Sections.Any(s => !s.Again && s.FirstBar == i))
            {
                yield return (from, i);
                from = i;
            }
        if (piece.Bars.Length > 0)
            yield return (from, piece.Bars.Length);
    }
}
