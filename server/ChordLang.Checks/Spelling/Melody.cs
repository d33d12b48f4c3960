// Hears written notes in their line: what comes before and after in the voice explains many a strange note.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Names;

namespace ChordLang.Checks.Spelling;

/// <summary>The written pitches of a piece in their voices.</summary>
internal sealed class Melody(Piece piece)
{
    private readonly VoiceLines voices = new(piece);

    /// <summary>Every note whose pitch the writer wrote himself, where it is written.</summary>
    public IEnumerable<(Event Event, Note Note)> WrittenNotes()
    {
        foreach (var e in piece.Events)
            if (e is { Kind: EventKind.Struck, Repeated: false, Syntax: not null })
                foreach (var note in e.Notes)
                    if (note is { PitchWritten: true, Dead: false, Harmonic: false })
                        yield return (e, note);
    }

    /// <summary>True for a chromatic approach: the voice goes on by a semitone (common practice).</summary>
    public bool Leans(Event e, Note note) => voices.After(e) is { } after && after.Notes.Any(n => Math.Abs(n.Midi - note.Midi) == 1);

    /// <summary>True for a passing or neighbour note.</summary>
    public bool Passes(Event e, Note note) => voices.Passes(e, note);
}
