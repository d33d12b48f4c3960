// Where each note of an event goes; the writer of the text only follows it.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Fingering;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Transposing;

/// <summary>A note on its way.</summary>
/// <param name="Note">As it was.</param>
/// <param name="Pitch">What it sounds now.</param>
/// <param name="String">Its string now, or null where it has none.</param>
/// <param name="Fret">Its fret now, or null where it has none.</param>
internal sealed record NoteMove(Note Note, Pitch Pitch, int? String, int? Fret)
{
    /// <summary>True where a grip without this note is all that can be held.</summary>
    public bool LeftOut { get; init; }
}

/// <summary>An event on its way.</summary>
/// <param name="Event">As it was.</param>
/// <param name="Notes">Its notes, in their order.</param>
internal sealed record EventMove(Event Event, ImmutableArray<NoteMove> Notes)
{
    /// <summary>True where every note stays on its string, so that only the frets change.</summary>
    public bool SameStrings { get; init; } = true;

    /// <summary>True where its shape has open strings and its own definition moves instead.</summary>
    public bool ShapeMoves { get; init; }

    /// <summary>True where the frets are written out because the shape cannot move.</summary>
    public bool WriteFrets { get; init; }

    /// <summary>Fingers for all that is struck then, where the written ones cannot stay.</summary>
    public Fingers? Fingers { get; init; }

    /// <summary>How many frets all its notes go up on their strings, or null where they do not go alike.</summary>
    public int? Shift
    {
        get
        {
            int? shift = null;
            foreach (var n in Notes)
                if (!SameStrings || n.Fret - n.Note.Fret is not { } by || (shift ??= by) != by)
                    return null;
            return shift;
        }
    }

    /// <summary>The move of the note that was on a string, or null.</summary>
    public NoteMove? On(int stringNumber)
    {
        foreach (var n in Notes)
            if (n.Note.String == stringNumber)
                return n;
        return null;
    }
}
