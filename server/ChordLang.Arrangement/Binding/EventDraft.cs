// Events while their ends are still open: ties lengthen notes, and strings struck again cut them.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>Where a row stands among those of the piece: stays the same while the text before it changes.</summary>
/// <param name="Bar">Index of its bar.</param>
/// <param name="Row">Its place in the bar, from 0.</param>
internal readonly record struct RowHome(int Bar, int Row);

/// <summary>A note that was struck, with its ends still open. Tied events share the strike of the first. Once its row is bound, it changes no more.</summary>
/// <param name="note">The note; its spans are offsets of the line on which it is written.</param>
/// <param name="home">The row of that line.</param>
/// <param name="onset">When it is struck.</param>
/// <param name="end">When its event ends.</param>
internal sealed class Strike(Note note, RowHome home, Rational onset, Rational end)
{
    /// <summary>The note.</summary>
    public Note Note { get; } = note;

    /// <summary>The row in which it is written; for <c>again</c> that of the sound before.</summary>
    public RowHome Home { get; } = home;

    /// <summary>When it is struck.</summary>
    public Rational Onset { get; } = onset;

    /// <summary>When the writer wants it to stop.</summary>
    public Rational WantedEnd { get; set; } = end;
}

/// <summary>An event whose notes have no times yet.</summary>
/// <param name="bound">The event; its spans are offsets of its line.</param>
/// <param name="strikes">Its strikes.</param>
/// <param name="grace">The row in which its grace notes are written.</param>
internal sealed class EventDraft(Event bound, ImmutableArray<Strike> strikes, RowHome grace)
{
    /// <summary>The event; its notes come from the strikes.</summary>
    public Event Bound { get; } = bound;

    /// <summary>The row in which its grace notes are written; for <c>again</c> that of the sound before.</summary>
    public RowHome Grace { get; } = grace;

    /// <summary>Its strikes, or for a tie those that go on.</summary>
    public ImmutableArray<Strike> Strikes { get; } = strikes;
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
