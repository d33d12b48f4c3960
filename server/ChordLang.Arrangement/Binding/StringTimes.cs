// A string sounds one note at a time: striking it again cuts what it sounded before.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>Closes the ends of all strikes of a piece.</summary>
internal static class StringTimes
{
    /// <summary>Cuts each note where its string is struck again before it would end; exactly at its end is no cut. Tells two notes struck at once on one string.</summary>
    public static void Close(IReadOnlyList<EventDraft> drafts, TroubleList troubles)
    {
        var byString = new Dictionary<int, List<(Strike Strike, Event Event)>>();
        foreach (var draft in drafts)
        {
            if (draft.Bound.Kind != EventKind.Struck)
                continue;
            foreach (var strike in draft.Strikes)
            {
                strike.End = strike.WantedEnd;
                if (strike.Note.String is not { } s)
                    continue;
                if (!byString.TryGetValue(s, out var strikes))
                    byString[s] = strikes = [];
                strikes.Add((strike, draft.Bound));
            }
        }
        foreach (var (number, strikes) in byString)
        {
            Rational? next = null;
            var ordered = strikes.OrderBy(s => s.Strike.Onset).ToList();
            for (var i = ordered.Count - 1; i >= 0; i--)
            {
                var (strike, e) = ordered[i];
                if (i + 1 < ordered.Count && ordered[i + 1].Strike.Onset > strike.Onset)
                    next = ordered[i + 1].Strike.Onset;
                else if (i + 1 < ordered.Count && ordered[i + 1] is var (other, clash) && other.Note.Fret != strike.Note.Fret && !clash.Repeated && !ReferenceEquals(e, clash))
                    TellClash(number, strike, other, troubles);
                if (next is { } cut && cut < strike.WantedEnd)
                    strike.End = cut;
            }
        }
    }

    private static void TellClash(int number, Strike one, Strike other, TroubleList troubles) =>
        troubles.Add(new Trouble(TroubleCodes.TwoOnOneString, other.Note.Span,
            $"On this count string {number} is struck by two rows, at fret {one.Note.Fret} and at fret {other.Note.Fret}, and a string sounds one note at a time. Put one of them on another string.")
        {
            Strings = [number],
            Related = [new("The other row", one.Note.Span, null)],
        });
}
