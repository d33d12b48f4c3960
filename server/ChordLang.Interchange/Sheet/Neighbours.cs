// What comes before and after an event in its voice, and where on a line its note values stand.
using ChordLang.Arrangement.Music;

namespace ChordLang.Interchange.Sheet;

/// <summary>The voices of some bars as chains of events.</summary>
internal sealed class Neighbours
{
    private readonly Dictionary<Event, (Event? Before, Event? After)> links = new(ReferenceEqualityComparer.Instance);

    public Neighbours(IEnumerable<Bar> bars)
    {
        var last = new Dictionary<string, Event>(StringComparer.Ordinal);
        foreach (var e in bars.SelectMany(b => b.Rows).SelectMany(r => r.Events).Where(e => e.End > e.Onset))
        {
            Event? before = last.TryGetValue(e.VoiceKey, out var b) && b.End == e.Onset ? b : null;
            links[e] = (before, null);
            if (before is not null)
                links[before] = (links[before].Before, e);
            last[e.VoiceKey] = e;
        }
    }

    public Event? Before(Event e) => links.GetValueOrDefault(e).Before;

    public Event? After(Event e) => links.GetValueOrDefault(e).After;
}

/// <summary>Where the strokes of each event stand on one line.</summary>
internal sealed class Stands
{
    private readonly Dictionary<Event, (double First, double Last)> at = new(ReferenceEqualityComparer.Instance);

    public Stands(SystemPlan system)
    {
        foreach (var bar in system.Bars)
            foreach (var stroke in bar.Plan.Strands.SelectMany(s => s.Strokes))
                foreach (var e in stroke.Events)
                {
                    var x = bar.X(stroke.Start);
                    at[e] = at.TryGetValue(e, out var known) ? (Math.Min(known.First, x), Math.Max(known.Last, x)) : (x, x);
                }
    }

    /// <summary>The first and the last stroke of an event; null where it is not on this line.</summary>
    public (double First, double Last)? Of(Event? e) => e is not null && at.TryGetValue(e, out var found) ? found : null;
}
