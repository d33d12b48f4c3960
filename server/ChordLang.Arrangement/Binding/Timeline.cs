// Gives each bar its place in time, its number, and the shortening that pickups bring.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>Lays bars out in time.</summary>
internal static class Timeline
{
    /// <summary>The bars, with neither chords nor rows; the first is numbered one more than <paramref name="barsBefore"/>.</summary>
    public static ImmutableArray<Bar> Of(SyntaxTree tree, ImmutableArray<BarPlan> plans, TroubleList troubles, int barsBefore)
    {
        var bars = ImmutableArray.CreateBuilder<Bar>(plans.Length);
        var (start, number) = (Rational.Zero, barsBefore);
        for (var i = 0; i < plans.Length; i++)
        {
            var (plan, meter) = (plans[i], plans[i].Settings.Meter);
            var from = Pickup(tree, plans, i, bars, troubles) ?? Rational.Zero;
            if (from > 0 && i > 0)
            {
                // The bar before ends where the pickup begins: the two are one bar, under one number.
                bars[i - 1] = bars[i - 1] with { Length = (from - bars[i - 1].From) * meter.Count };
                start = bars[i - 1].End;
            }
            else if (from == 0)
                number++;
            var length = (meter.Counts - from) * meter.Count;
            bars.Add(new()
            {
                Index = i, Number = number, Line = plan.Line, Syntax = plan.Syntax, Span = tree.Absolute(plan.Line, plan.Syntax.Span), Settings = plan.Settings,
                Start = start, Length = length, From = from, Chords = [], Rows = [], Prose = [.. plan.Prose],
            });
            start += length;
        }
        return bars.MoveToImmutable();
    }

    private static Rational? Pickup(SyntaxTree tree, ImmutableArray<BarPlan> plans, int i, ImmutableArray<Bar>.Builder bars, TroubleList troubles)
    {
        if (plans[i].Pickup is not var (line, count))
            return null;
        var (offset, meter) = (count.Offset, plans[i].Settings.Meter);
        if (offset <= 0 || offset >= meter.Counts)
        {
            troubles.Add(line, TroubleCodes.MisplacedPickup, count.Span, offset <= 0 ? "A pickup that begins on count 1 is a whole bar. Leave the pickup out, or name a later count."
                : $"A bar of {meter} has the counts 1 to {meter.Counts}, so no pickup can begin on count {CountSyntax.Write(offset)}.");
            return null;
        }
        if (i == 0 || plans[i - 1].Settings.Meter == meter && bars[i - 1].From < offset && LastOffset(tree, plans[i - 1]) < offset)
            return offset;
        troubles.Add(line, TroubleCodes.MisplacedPickup, count.Span,
            $"A pickup within the piece shortens the bar before it, but that bar goes on to count {CountSyntax.Write(offset)} or beyond, or has another meter. Move what stands there, or leave the pickup out.");
        return null;
    }

    private static Rational LastOffset(SyntaxTree tree, BarPlan plan)
    {
        var last = Rational.Zero;
        foreach (var item in plan.Syntax.Items)
            last = Rational.Max(last, item.Count?.Offset ?? Rational.Zero);
        foreach (var row in plan.Rows)
            foreach (var e in ((RowLine)tree.Lines[row]).Events)
                last = Rational.Max(last, Rational.Max(e.Count.Offset, e.To?.Offset ?? Rational.Zero));
        return last;
    }
}
