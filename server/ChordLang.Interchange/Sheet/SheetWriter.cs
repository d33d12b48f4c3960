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
        var drawing = new Drawing(piece, placed, options);
        var shown = new HashSet<string>(StringComparer.Ordinal);
        var plans = new BarPlan[piece.Bars.Length];
        for (var i = 0; i < plans.Length; i++)
            plans[i] = drawing.Measure.Of(i, g => shown.Add(g.Shape.Key) || options.Diagrams == Diagrams.Every);
        return [.. drawing.Lines([.. plans.Select(p => p.Width)]).Select(line => drawing.Draw(plans.AsSpan(line.First, line.Count).ToArray(), line.Stretch))];
    }
}

/// <summary>What is known of a piece that is drawn.</summary>
internal sealed class Drawing(Piece piece, PlacedPiece placed, SheetOptions options)
{
    private SystemWriter? writer;
    private ILookup<int, EventPlace>? told;

    public Places Places { get; } = new(piece, placed);

    public FormSigns Form { get; } = new(piece);

    public Courtesies Courtesies { get; } = new(piece);

    public Measure Measure => field ??= new(piece, Places, Form, Courtesies, options);

    /// <summary>Breaks a piece into lines.</summary>
    public IEnumerable<Line> Lines(IReadOnlyList<BarWidth> widths)
    {
        foreach (var (from, to) in Stretches())
            foreach (var line in LineBreaks.Of(widths, from, to, options.Width - 2, i => SystemPlan.Prefix(piece.Bars[i].Settings, Meter(i), options)))
                yield return line;
    }

    /// <summary>Draws a line, with its words.</summary>
    public SheetSystem Draw(IReadOnlyList<BarPlan> plans, double stretch)
    {
        writer ??= new(piece, Places, Form, options);
        return writer.Draw(SystemPlan.Of(plans, stretch, Meter(plans[0].Bar.Index), options)) with { Spoken = [.. plans.SelectMany(p => Told(p.Bar.Index))] };
    }

    private ImmutableArray<string> Told(int bar) => Describer.OfBar(piece, bar, (told ??= placed.Events.ToLookup(e => e.Event.Bar))[bar]);

    private bool Meter(int bar) => bar == 0 || piece.Bars[bar].Settings.Meter != piece.Bars[bar - 1].Settings.Meter;

    // A section begins a line of its own, and so does another neck; a pickup goes with the bar that it leads to.
    private IEnumerable<(int From, int To)> Stretches()
    {
        var begins = piece.Sections.Where(s => !s.Again).Select(s => s.FirstBar).ToHashSet();
        var from = 0;
        for (var i = 1; i < piece.Bars.Length; i++)
            if (piece.Bars[i].Settings.Neck != piece.Bars[i - 1].Settings.Neck || (i > 1 || piece.Bars[0].Number > 0) && begins.Contains(i))
            {
                yield return (from, i);
                from = i;
            }
        if (piece.Bars.Length > 0)
            yield return (from, piece.Bars.Length);
    }
}
