// Hovers of bar lines and counts: where one is in the piece, and how it is counted.
using ChordLang.Arrangement.Music;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Hovers;

internal static class BarHover
{
    /// <summary>What is to be said of the bar whose line stands at a column of a line.</summary>
    /// <param name="lesson">The whole, or its chart.</param>
    /// <param name="line">The line.</param>
    /// <param name="column">The column.</param>
    /// <param name="span">Where the bar line stands.</param>
    public static HoverText Of(Lesson lesson, int line, int column, Span span)
    {
        var bars = lesson.BarsOn(line).ToList();
        var bar = bars.LastOrDefault(b => b.Syntax.BarLine.Touches(column)) ?? bars.LastOrDefault(b => b.Syntax.Span.Start <= column) ?? bars[0];
        var section = lesson.SectionOf(bar);
        var place = section is null ? "" : $", {Ordinal(bar.Index - section.FirstBar + 1)} of section {section.Name}";
        var key = bar.Settings.Key is { } k ? $" in {k}" : lesson.Harmony.Keys.At(bar.Number) is { } found ? $", in {found} as it sounds" : "";
        return HoverText.Of(span, $"{Say.Capital(Say.Bar(bar))}{place}: {Chords(bar)}.",
            $"It has {Say.Counts(bar.Length / bar.Settings.Meter.Count)} of {bar.Settings.Meter}{key}.", Skeleton(lesson, bar), Voices(bar), Played(lesson, bar));
    }

    /// <summary>The chords of a bar as words.</summary>
    public static string Chords(Bar bar) => bar.Chords.Length == 0 ? "no chord is written yet"
        : string.Join(", then ", bar.Chords.Select(c => c.Symbol is null ? "no chord" : c.Carried && c.Start == bar.Start ? $"{c.Symbol.Text} goes on" : c.Symbol.Text));

    private static string? Skeleton(Lesson lesson, Bar bar)
    {
        var harmony = lesson.Harmony;
        var mine = Enumerable.Range(0, harmony.Written.Places.Length).Where(i => harmony.Written.Places[i].Bar == bar.Index).ToList();
        if (mine.Count == 0 || harmony.Skeleton.Levels.Length < 3)
            return null;
        if (mine.Count == 1)
            return Alone(lesson, mine[0]);
        var left = mine.Where(harmony.Skeleton.Levels[1].Indices.Contains).Select(i => harmony.Written.Places[i].Symbol).ToList();
        return left.Count == 0 || left.Count == mine.Count ? null : $"Without decoration {Say.List(left)} would remain.";
    }

    // Whether the only chord of a bar belongs to the skeleton, and what it hangs on where it does not.
    private static string? Alone(Lesson lesson, int chord)
    {
        var (places, skeleton) = (lesson.Harmony.Written.Places, lesson.Harmony.Skeleton);
        if (skeleton.Levels[2].Indices.Contains(chord))
            return $"{places[chord].Symbol} belongs to the skeleton of the piece.";
        if (skeleton.Levels[1].Indices.Contains(chord))
            return $"{places[chord].Symbol} remains when passing chords and related twos are taken away.";
        return skeleton.Heads[chord] is var head && head >= 0 && lesson.Harmony.Written.Chart.Chords[head].Bar is var bar
            ? $"{places[chord].Symbol} is decoration: it hangs on {places[head].Symbol} in {Say.Bar(bar)}." : null;
    }

    private static string? Voices(Bar bar) => bar.Rows.Length < 2 ? null : $"{Say.Number(bar.Rows.Length, "voice")} sound together here.";

    private static string? Played(Lesson lesson, Bar bar)
    {
        var times = lesson.Piece.PlayOrder.Count(i => i == bar.Index);
        return times > 1 ? $"It is played {(times == 2 ? "twice" : $"{times} times")} in the piece." : null;
    }

    private static string Ordinal(int n) => n switch { 1 => "the first bar", 2 => "the second bar", 3 => "the third bar", _ => $"bar {n}" };
}

internal static class CountHover
{
    public static HoverText Of(Bar bar, Rational offset, Span span, string what)
    {
        var (whole, beyond) = (offset.Floor + 1, offset - Rational.Of(offset.Floor));
        var where = beyond == Rational.Zero ? $"count {whole} of {Say.Bar(bar)}" : $"{Say.Counts(beyond)} behind count {whole} of {Say.Bar(bar)}";
        return HoverText.Of(span, $"Say \"{Say.Spoken(offset)}\": there {what}, on {where}.", Aloud(bar, offset),
            offset < bar.From || offset >= bar.From + bar.Length / bar.Settings.Meter.Count ? $"{Say.Capital(Say.Bar(bar))} has no such count." : null);
    }

    // The counting of one count, with the place in it: "2 and".
    private static string? Aloud(Bar bar, Rational offset)
    {
        var beyond = (offset - Rational.Of(offset.Floor)).Denominator;
        var counts = string.Join(' ', Enumerable.Range(1, Math.Clamp(bar.Settings.Meter.Counts, 1, 16)).Select(n => beyond switch { 2 => $"{n} and", 4 => $"{n} e and a", 3 => $"{n} trip let", _ => $"{n}" }));
        return bar.Settings.Meter.Counts > 16 ? null : $"The whole bar is counted: {counts}.";
    }
}
