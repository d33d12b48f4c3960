// How long a ring mark lets a note sound.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>Reads ring marks against the bars.</summary>
internal sealed class RingReader(ImmutableArray<Bar> bars, TroubleList troubles)
{
    /// <summary>How many bars ahead <c>ring until</c> looks for its count: meters change, but no note rings longer.</summary>
    private const int Ahead = 8;

    /// <summary>When a note of an event ends by its ring marks, or null where it has none. A mark on the string goes before one on the whole sound.</summary>
    public Rational? End(Event e, Bar bar, int line, int? stringNumber)
    {
        var mark = e.Marks.LastOrDefault(m => IsRing(m) && m.String is not null && m.String == stringNumber) ?? e.Marks.LastOrDefault(m => IsRing(m) && m.String is null);
        return mark switch
        {
            null => null,
            { Kind: MarkKind.RingOver } => bars[Math.Min(bar.Index + 1, bars.Length - 1)].End,
            { Kind: MarkKind.RingUntil, Operand: CountOperand { Count: var count } } => Until(e, bar, line, count),
            _ => bar.End,
        };
    }

    private Rational Until(Event e, Bar bar, int line, CountSyntax count)
    {
        var valid = false;
        for (var i = bar.Index; i < bars.Length && i <= bar.Index + Ahead; i++)
        {
            var holds = count.Offset >= bars[i].From && bars[i].TimeOf(count.Offset) is var time && time < bars[i].End;
            valid |= holds;
            if (holds && bars[i].TimeOf(count.Offset) > e.Onset)
                return bars[i].TimeOf(count.Offset);
        }
        // Where the last bar is over before the count comes round, the sound rings to the end of the piece.
        if (!valid && e.Syntax is { } played && !e.Repeated && played.Marks.Any(m => m.Operand is CountOperand o && ReferenceEquals(o.Count, count)))
            troubles.Add(line, TroubleCodes.OutsideBar, count.Span, Counting.Outside(bar, count.Offset));
        return valid ? bars[Math.Min(bar.Index + Ahead, bars.Length - 1)].End : bar.End;
    }

    private static bool IsRing(MarkSyntax mark) => mark.Kind is MarkKind.Ring or MarkKind.RingUntil or MarkKind.RingOver;
}
