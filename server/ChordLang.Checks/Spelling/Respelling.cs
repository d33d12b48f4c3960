// Writes another spelling into the text, so that nothing sounds otherwise: neither the note nor those whose octave follows from it.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Pitches;

namespace ChordLang.Checks.Spelling;

/// <summary>Edits that respell.</summary>
public static class Respelling
{
    // At six semitones the letter decides which octave is nearest, see OctaveReading.
    private const int Tritone = 6;

    /// <summary>The smallest edits that give notes of a piece another spelling.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="notes">The notes with their pitches as they should be written; each sounds as its note does.</param>
    public static ImmutableArray<TextEdit> Edits(Piece piece, IReadOnlyCollection<(Event Event, Note Note, Pitch Pitch)> notes)
    {
        var edits = new SortedDictionary<int, TextEdit>();
        var changed = new Dictionary<int, Pitch>();
        foreach (var (_, note, pitch) in notes)
            if (pitch != note.Pitch)
                changed[At(note).Start] = pitch;
        foreach (var line in notes.Where(n => n.Pitch != n.Note.Pitch).Select(n => n.Event.Line).Distinct())
        {
            var row = piece.Events.Where(e => e.Line == line && e is { Repeated: false, Kind: EventKind.Struck }).SelectMany(e => e.Notes.Concat(e.Grace)).ToList();
            foreach (var note in row.Where(n => n.PitchWritten))
            {
                var at = At(note);
                var text = Respelled(piece, at, note.Pitch, changed.GetValueOrDefault(at.Start, note.Pitch), row.Any(o => Math.Abs(o.Midi - note.Midi) == Tritone));
                if (text != piece.Tree.Source[at])
                    edits[at.Start] = new(at, text);
            }
        }
        return [.. edits.Values];
    }

    private static Span At(Note note) => note.PitchSpan ?? note.Span;

    // The octave is left out where the writer left it out, unless the letter takes the note across it (B#3 is C4) or a tritone stands near.
    private static string Respelled(Piece piece, Span at, Pitch old, Pitch pitch, bool whole)
    {
        var text = piece.Tree.Source[at];
        var behind = text.IndexOf('@', StringComparison.Ordinal) is >= 0 and var i ? text[i..] : "";
        var octave = text.Length > behind.Length && char.IsAsciiDigit(text[text.Length - behind.Length - 1]);
        return (whole || octave || pitch.Octave != old.Octave ? pitch.ToString() : pitch.Name.ToString()) + behind;
    }
}
