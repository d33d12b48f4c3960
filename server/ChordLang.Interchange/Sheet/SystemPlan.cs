// One line of a sheet with every column in its place.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Sheet;

/// <summary>A bar on its line.</summary>
internal sealed class PlacedBar
{
    private readonly double[] xs;

    public PlacedBar(BarPlan plan, double left, double lead, double stretch)
    {
        Plan = plan;
        Left = left;
        xs = new double[plan.Times.Length];
        var x = left + lead;
        for (var i = 0; i < xs.Length; i++)
        {
            xs[i] = x;
            x += plan.Gaps[i] * stretch;
        }
        Right = x;
    }

    public BarPlan Plan { get; }

    public Bar Bar => Plan.Bar;

    /// <summary>Its bar line at the left.</summary>
    public double Left { get; }

    /// <summary>Its bar line at the right.</summary>
    public double Right { get; }

    /// <summary>The first column.</summary>
    public double First => xs[0];

    /// <summary>Where a column of this bar stands.</summary>
    public double X(Rational time)
    {
        var i = Plan.Times.BinarySearch(time);
        return i >= 0 ? xs[i] : ~i == 0 ? xs[0] : xs[Math.Min(~i, xs.Length) - 1];
    }
}

/// <summary>A line of a sheet. All lengths are units of the drawing.</summary>
internal sealed record SystemPlan
{
    /// <summary>Room before the strings for their names.</summary>
    public const double Names = 14;

    public required ImmutableArray<PlacedBar> Bars { get; init; }

    /// <summary>Width of the drawing; wider than asked only where a single bar is.</summary>
    public required double Width { get; init; }

    /// <summary>True where the meter is written at its start.</summary>
    public required bool Meter { get; init; }

    /// <summary>By how much its gaps were stretched.</summary>
    public required double Stretch { get; init; }

    public double Right => Bars[^1].Right;

    public Settings Settings => Bars[0].Bar.Settings;

    /// <summary>Width of everything before the first bar.</summary>
    public static double Prefix(Settings settings, bool meter, SheetOptions options) =>
        Names + (options.Staves == Staves.Tab ? 0 : 27 + KeySignature.Width(settings.Key, null)) + (meter ? 17 : 0);

    /// <summary>Puts a line's bars in their places.</summary>
    /// <param name="plans">Its bars, measured.</param>
    /// <param name="stretch">By how much their gaps are stretched.</param>
    /// <param name="meter">True where the meter is written at its start.</param>
    /// <param name="options">What was asked for.</param>
    public static SystemPlan Of(IReadOnlyList<BarPlan> plans, double stretch, bool meter, SheetOptions options)
    {
        var x = Prefix(plans[0].Bar.Settings, meter, options);
        var bars = ImmutableArray.CreateBuilder<PlacedBar>(plans.Count);
        for (var i = 0; i < plans.Count; i++)
        {
            bars.Add(new(plans[i], x, plans[i].Lead + (i > 0 ? plans[i].Change : 0), stretch));
            x = bars[^1].Right;
        }
        return new() { Bars = bars.ToImmutable(), Width = Math.Max(options.Width, x + 2), Meter = meter, Stretch = stretch };
    }

    /// <summary>The placed bar of an event, or null where it stands on another line.</summary>
    public PlacedBar? Of(int bar) => bar - Bars[0].Bar.Index is var i && i >= 0 && i < Bars.Length ? Bars[i] : null;
}
