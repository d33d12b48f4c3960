// A string sounds one note at a time: striking it again cuts what it sounded before.
using System.Runtime.InteropServices;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Arrangement.Binding;

/// <summary>When the strings of a piece are struck.</summary>
internal sealed class StringTimes
{
    private readonly Dictionary<int, List<(Strike Strike, EventDraft Draft)>> byString = [];

    /// <summary>Of all drafts of a piece, bar by bar and row by row.</summary>
    public StringTimes(IEnumerable<EventDraft> drafts)
    {
        foreach (var draft in drafts)
        {
            if (draft.Bound.Kind != EventKind.Struck)
                continue;
            foreach (var strike in draft.Strikes)
            {
                if (strike.Note.String is not { } s)
                    continue;
                if (!byString.TryGetValue(s, out var strikes))
                    byString[s] = strikes = [];
                strikes.Add((strike, draft));
            }
        }
        foreach (var (number, strikes) in byString)
            for (var i = 1; i < strikes.Count; i++)
                if (strikes[i].Strike.Onset < strikes[i - 1].Strike.Onset)
                {
                    byString[number] = [.. strikes.OrderBy(s => s.Strike.Onset)];
                    break;
                }
    }

    /// <summary>When a note stops: when the writer wants it to, or where its string is struck again before; exactly at its end is no cut.</summary>
    public Rational End(Strike strike)
    {
        if (strike.Note.String is not { } s)
            return strike.WantedEnd;
        var strikes = CollectionsMarshal.AsSpan(byString[s]);
        int low = 0, high = strikes.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (strikes[middle].Strike.Onset <= strike.Onset) low = middle + 1; else high = middle;
        }
        return low < strikes.Length && strikes[low].Strike.Onset is var cut && cut < strike.WantedEnd ? cut : strike.WantedEnd;
    }

    /// <summary>Tells two notes struck at once on one string.</summary>
    /// <param name="troubles">Where it is told.</param>
    /// <param name="span">A span of a row's line as a span of the text.</param>
    public void TellClashes(TroubleList troubles, Func<Span, RowHome, Span> span)
    {
        foreach (var (number, strikes) in byString)
            for (var i = strikes.Count - 2; i >= 0; i--)
            {
                var ((strike, draft), (other, clash)) = (strikes[i], strikes[i + 1]);
                if (other.Onset > strike.Onset || other.Note.Fret == strike.Note.Fret || clash.Bound.Repeated || ReferenceEquals(draft, clash))
                    continue;
                troubles.Add(new Trouble(TroubleCodes.TwoOnOneString, span(other.Note.Span, other.Home),
                    $"On this count string {number} is struck by two rows, at fret {strike.Note.Fret} and at fret {other.Note.Fret}, and a string sounds one note at a time. Put one of them on another string.")
                {
                    Strings = [number],
                    Related = [new("The other row", span(strike.Note.Span, strike.Home), null)],
                });
            }
    }
}
