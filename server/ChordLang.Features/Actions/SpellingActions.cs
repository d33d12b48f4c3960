// Spells written pitches another way: the one under the cursor by its other name, or all chosen ones as key and harmony call for.
using ChordLang.Checks.Spelling;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Actions;

internal static class SpellingActions
{
    private const int Enharmonic = 12;

    public static IEnumerable<LessonAction> Of(Selection chosen)
    {
        var piece = chosen.Piece;
        var written = chosen.Events.SelectMany(e => e.Notes.Where(n => n is { PitchWritten: true, Dead: false }).Select(n => (Event: e, Note: n))).ToList();
        if (written.Count == 0)
            yield break;
        var cursor = chosen.Range.Length == 0 ? written.Where(w => (w.Note.PitchSpan ?? w.Note.Span).Touches(chosen.Range.Start)).Take(1).ToList() : [];
        foreach (var (e, note) in cursor)
            foreach (var fifths in (int[])[note.Pitch.Name.Fifths - Enharmonic, note.Pitch.Name.Fifths + Enharmonic])
                if (PitchName.FromFifths(fifths) is { Alteration: >= -1 and <= 1 } name && Pitch.Of(note.Midi, name) is var other)
                    yield return new($"spell {other}", $"Write {note.Pitch} as {other}", ActionKind.Rewrite, () => Respelling.Edits(piece, [(e, note, other)]));
        yield return new("respell", written.Count == 1 ? "Spell it as key and harmony call for" : "Spell these as key and harmony call for", ActionKind.Rewrite, () =>
            Respelling.Edits(piece, [.. SpelledPiece.Of(piece, false).Where(s => written.Any(w => ReferenceEquals(w.Note, s.Note)) && s.Proposed != s.Note.Pitch).Select(s => (s.Event, s.Note, s.Proposed))]))
        { Costly = true };
    }
}
