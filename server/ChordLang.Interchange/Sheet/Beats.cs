// Where a meter has its beats: note values are cut there, and beams end there (common practice of notation).
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.MusicXml;

namespace ChordLang.Interchange.Sheet;

/// <summary>Beats and what follows from them. Times are whole notes from the bar line.</summary>
internal static class Beats
{
    /// <summary>The values that fill a time, cut so that beats and the middle of a bar in four stay visible.</summary>
    public static ImmutableArray<NoteValue> Cut(Meter meter, Rational from, Rational to, bool rest)
    {
        var values = ImmutableArray.CreateBuilder<NoteValue>();
        for (var at = from; at < to;)
        {
            var end = End(meter, at, to, rest);
            values.AddRange(NoteValues.Split(at, end, meter.Count));
            at = end;
        }
        return values.ToImmutable();
    }

    /// <summary>The group of a beam: strokes with the same number may share one.</summary>
    public static long Group(Meter meter, Rational time)
    {
        // Eighths of odd meters go in twos with a three at the end; of quarter meters beat by beat.
        var beat = meter.Beat;
        if (!meter.Compound && meter.Unit >= 8)
        {
            var pair = (time / (Rational.Of(2) * meter.Count)).Floor;
            return meter.Counts % 2 == 1 && meter.Counts > 1 ? Math.Min(pair, meter.Counts / 2 - 1) : pair;
        }
        return (time / beat).Floor;
    }

    private static Rational End(Meter meter, Rational at, Rational to, bool rest)
    {
        var beat = meter.Beat;
        var next = Rational.Of((at / beat).Floor + 1) * beat;
        var onBeat = (at / beat).IsWhole;
        if (to <= next)
            return to;
        if (meter.Compound)
        {
            var beats = (to / beat).Floor - (at / beat).Floor;
            if (!onBeat)
                return next;
            // Whole beats: one, two or four of them have a value of their own.
            var whole = beats >= 4 ? 4 : beats >= 2 ? 2 : 1;
            return (at + Rational.Of(whole) * beat) is var end && end <= to ? end : next;
        }
        if (!onBeat && (to - at > beat || rest))
            return next;
        if (meter is { Counts: 4, Unit: 4 } && Rational.Of(1, 2) is var middle && at < middle && to > middle && (!onBeat || rest))
            return middle;
        return to;
    }
}
