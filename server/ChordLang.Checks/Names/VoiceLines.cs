// Hears single notes as lines: a note that steps in and steps out of a voice passes by, whatever the chord.
using ChordLang.Arrangement.Music;

namespace ChordLang.Checks.Names;

/// <summary>The lines of a piece, voice by voice.</summary>
internal sealed class VoiceLines
{
    private const int Step = 2;
    private readonly Dictionary<Event, (Event? Before, Event? After)> neighbours = new(ReferenceEqualityComparer.Instance);

    public VoiceLines(Piece piece)
    {
        var last = new Dictionary<string, Event>();
        foreach (var e in piece.Events)
        {
            if (e.Kind == EventKind.Tied)
                continue;
            if (e.Kind != EventKind.Struck)
            {
                last.Remove(e.VoiceKey);
                continue;
            }
            var before = last.GetValueOrDefault(e.VoiceKey);
            neighbours[e] = (before, null);
            if (before is not null)
                neighbours[before] = neighbours[before] with { After = e };
            last[e.VoiceKey] = e;
        }
    }

    /// <summary>The event that follows in the voice; null at its end and before a rest.</summary>
    public Event? After(Event e) => neighbours.TryGetValue(e, out var near) ? near.After : null;

    /// <summary>True for a passing or neighbour note: at most two notes strong, approached and left by a second in its voice (common practice).</summary>
    public bool Passes(Event e, Note note) =>
        e.Notes.Length <= 2 && neighbours.TryGetValue(e, out var near) && Steps(near.Before, note) && Steps(near.After, note);

    private static bool Steps(Event? e, Note note) =>
        e is { Notes.Length: <= 2 } && e.Notes.Any(n => n.Midi != note.Midi && Math.Abs(n.Midi - note.Midi) <= Step);
}
