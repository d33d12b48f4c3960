// Brings the events of all rows into the order of time.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;

namespace ChordLang.Arrangement.Binding;

/// <summary>Orders events. Rows are in order already, and bars follow each other: so two rows are mostly all that is to be merged.</summary>
internal static class EventOrder
{
    /// <summary>All events by onset, then by row, then as they are written.</summary>
    public static ImmutableArray<Event> Of(IReadOnlyList<Bar> bars)
    {
        var events = new List<Event>();
        foreach (var bar in bars)
            if (bar.Rows.Length == 2)
                Merge(bar.Rows[0].Events, bar.Rows[1].Events, events);
            else
                foreach (var row in bar.Rows)
                    events.AddRange(row.Events);
        // Not so with more voices, and where an event has been put outside its bar.
        for (var i = 1; i < events.Count; i++)
            if (events[i].Onset.CompareTo(events[i - 1].Onset) is var later && (later < 0 || later == 0 && events[i].Row < events[i - 1].Row))
                return [.. events.OrderBy(e => e.Onset).ThenBy(e => e.Row)];
        return [.. events];
    }

    private static void Merge(ImmutableArray<Event> first, ImmutableArray<Event> second, List<Event> events)
    {
        int a = 0, b = 0;
        while (a < first.Length || b < second.Length)
            events.Add(b == second.Length || a < first.Length && first[a].Onset <= second[b].Onset ? first[a++] : second[b++]);
    }
}
