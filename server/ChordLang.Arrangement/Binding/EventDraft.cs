// Events while their ends are still open: ties lengthen notes, and strings struck again cut them.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>A note that was struck, with its ends still open. Tied events share the strike of the first.</summary>
internal sealed class Strike(Note note, Rational onset, Rational end)
{
    /// <summary>The note.</summary>
    public Note Note { get; } = note;

    /// <summary>When it is struck.</summary>
    public Rational Onset { get; } = onset;

    /// <summary>When the writer wants it to stop.</summary>
    public Rational WantedEnd { get; set; } = end;

    /// <summary>When it stops.</summary>
    public Rational End { get; set; } = end;

    /// <summary>The note with its times.</summary>
    public Note Timed() => Note with { Onset = Onset, WantedEnd = WantedEnd, End = End };
}

/// <summary>An event whose notes have no times yet.</summary>
internal sealed class EventDraft(Event bound, ImmutableArray<Strike> strikes)
{
    /// <summary>The event; its notes come from the strikes.</summary>
    public Event Bound { get; } = bound;

    /// <summary>Its strikes, or for a tie those that go on.</summary>
    public ImmutableArray<Strike> Strikes { get; } = strikes;

    /// <summary>The event, finished.</summary>
    public Event Finish() => Bound with { Notes = [.. Strikes.Select(s => s.Timed())] };
}

/// <summary>What a voice remembers from event to event.</summary>
internal sealed class VoiceMemory
{
    /// <summary>The last event that was struck or tied, for <c>again</c>; rests do not end it.</summary>
    public EventDraft? Sound { get; set; }

    /// <summary>The same, for <c>tied</c>: a rest ends it.</summary>
    public EventDraft? Open { get; set; }

    /// <summary>True where the sound before could not be bound, so that what leans on it is not told again.</summary>
    public bool Broken { get; set; }
}
