// From which note another is hammered, pulled or slid: the two want one string.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Placing;

/// <summary>The hammers, pulls and slides of a piece. <c>slur</c> is left out: a phrase may cross the strings.</summary>
/// <param name="piece">The piece.</param>
public sealed class Slurs(Piece piece)
{
    // Built where the first slur asks for it; most pieces have none.
    private Dictionary<Event, Event>? before;

    /// <summary>The mark by which a note is reached from the note before it, or null.</summary>
    public static MarkSyntax? MarkOf(Event e, Note note) =>
        e.Marks.FirstOrDefault(m => m.Kind is MarkKind.Hammer or MarkKind.Pull or MarkKind.Slide && (m.String is null || m.String == note.String));

    /// <summary>
    /// The notes from which a note may be reached: those of the sound before it in its row; a grace note or a written beginning of the slide goes
    /// before them. Empty where it is reached in no such way, or nothing sounds before it.
    /// </summary>
    public ImmutableArray<Note> Before(Event e, Note note)
    {
        if (e.Kind != EventKind.Struck || note.Dead)
            return [];
        if (!e.SlideFrom.IsEmpty && e.Marks.Any(m => m.Kind == MarkKind.SlideFrom && (m.String is null || m.String == note.String)))
            return e.SlideFrom;
        if (MarkOf(e, note) is null)
            return [];
        if (!e.Grace.IsEmpty)
            return e.Grace;
        before ??= Follow(piece);
        return before.TryGetValue(e, out var last) && last.Kind is EventKind.Struck or EventKind.Tied ? [.. last!.Notes.Where(n => !n.Dead)] : [];
    }

    /// <summary>The pitch (MIDI) that wants the same string as a note, where it is one note alone, or its counterpart in a grip of as many notes; else null.</summary>
    public int? From(Event e, Note note)
    {
        if (e.Marks.IsEmpty || !e.Grace.IsEmpty || MarkOf(e, note) is null || Before(e, note) is not { IsEmpty: false } from)
            return null;
        if (from.Length == 1)
            return from[0].Midi;
        var mine = e.Notes.Where(n => !n.Dead).OrderBy(n => n.Midi).ToList();
        return mine.Count == from.Length ? from.OrderBy(n => n.Midi).ElementAt(mine.FindIndex(n => ReferenceEquals(n, note))).Midi : null;
    }

    private static Dictionary<Event, Event> Follow(Piece piece)
    {
        var (found, last) = (new Dictionary<Event, Event>(ReferenceEqualityComparer.Instance), new Dictionary<string, Event>(StringComparer.Ordinal));
        foreach (var e in piece.Events)
        {
            if (last.TryGetValue(e.VoiceKey, out var one))
                found[e] = one;
            last[e.VoiceKey] = e;
        }
        return found;
    }
}
