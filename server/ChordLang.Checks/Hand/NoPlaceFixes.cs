// Proposes the smallest change of the notes that gives them a place: a doubled note less, one note an octave away, or a string left open again.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Placement;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using LeftHand = ChordLang.Fretboard.Hands.Hand;

namespace ChordLang.Checks.Hand;

/// <summary>Repairs of notes that have no place together. Each changes what sounds or where, so none is safe.</summary>
internal static class NoPlaceFixes
{
    private const int Octave = 12, Most = 3;

    /// <summary>The repairs after which a hand can hold the notes, the least change first.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="neck">Where the pitches lie.</param>
    /// <param name="hand">Whose reach counts.</param>
    /// <param name="moment">When they are struck; only what is struck then is changed.</param>
    /// <param name="notes">All that has to be held.</param>
    public static ImmutableArray<Fix> For(Piece piece, Neck neck, LeftHand hand, Moment moment, IReadOnlyList<Heard> notes)
    {
        var mine = Enumerable.Range(0, notes.Count).Where(i => notes[i].Note.Onset == moment.Time && notes[i].Note.PitchWritten).ToList();
        var asked = notes.Select(h => new NoteToPlace(h.Note.Midi, 0, h.Note.String)).ToList();
        var top = asked.Max(n => n.Midi);
        // The melody stays; inner notes go before the bass.
        var order = mine.Where(i => asked[i].Midi != top).OrderBy(i => asked[i].Midi == asked.Min(n => n.Midi) ? 1 : 0).ThenBy(i => asked[i].Midi).ToList();
        return [.. Loosened().Concat(order.Where(Doubled).SelectMany(Without)).Concat(order.SelectMany(Moved)).Take(Most)];

        bool Doubled(int i) => asked.Where((n, k) => k != i && (n.Midi - asked[i].Midi) % Octave == 0).Any();

        bool Holds(IReadOnlyList<NoteToPlace> changed) => changed.All(n => Reached(neck, n)) && Together.NoPlace(neck, hand, changed) is null;

        IEnumerable<Fix> Loosened()
        {
            foreach (var i in mine)
                if (asked[i].String is { } s && notes[i].Note is { FretWritten: false } && Holds([.. asked.Select((n, k) => k == i ? n with { String = null } : n)])
                    && Written(piece, notes[i]) is var (line, _, at, syntax) && syntax.Notes[at] is { Pitch: { } pitch } note)
                    yield return new($"Leave the string of {notes[i].Note.Pitch} open", false,
                        [new(piece.Tree.Absolute(line, new(pitch.Span.End, note.Span.End - pitch.Span.End)), "")]);
        }

        IEnumerable<Fix> Without(int i)
        {
            if (Holds([.. asked.Where((_, k) => k != i)]) && Written(piece, notes[i]) is var (line, row, at, syntax) && syntax.Notes.Length > 1 && Said(row))
            {
                var cut = at == 0 ? Span.Between(syntax.Notes[0].Span.Start, syntax.Notes[1].Span.Start) : Span.Between(syntax.Notes[at - 1].Span.End, syntax.Notes[at].Span.End);
                yield return new($"Leave out {notes[i].Note.Pitch}, which is doubled", false, [new(piece.Tree.Absolute(line, cut), "")]);
            }
        }

        IEnumerable<Fix> Moved(int i)
        {
            foreach (var by in asked[i].Midi == asked.Min(n => n.Midi) ? new[] { Octave } : [Octave, -Octave])
                if (asked[i].Midi + by is var midi && midi < top && !asked.Any(n => n.Midi == midi) && Holds([.. asked.Select((n, k) => k == i ? n with { Midi = midi, String = null } : n)])
                    && Written(piece, notes[i]) is var (line, row, at, syntax) && Said(row))
                {
                    var moved = notes[i].Note.Pitch with { Octave = notes[i].Note.Pitch.Octave + by / Octave };
                    yield return new($"Play {notes[i].Note.Pitch} an octave {(by > 0 ? "up" : "down")}, {moved}", false, [new(piece.Tree.Absolute(line, syntax.Notes[at].Span), $"{moved}")]);
                    yield break;
                }
        }
    }

    private static bool Reached(Neck neck, NoteToPlace note) =>
        note.String is { } given ? neck.FretOf(given, note.Midi) is not null : Enumerable.Range(1, neck.Tuning.Strings).Any(s => neck.FretOf(s, note.Midi) is not null);

    // Where a note is written as one of some pitches, with its row.
    private static (int Line, RowLine Row, int At, NotesSound Sound)? Written(Piece piece, Heard heard)
    {
        var e = heard.Source;
        if (e is not { Repeated: false, Syntax.Sound: NotesSound sound } || piece.Tree.Lines[e.Line] is not RowLine row || e.Marks.Any(m => m.String is not null || m.Kind == MarkKind.Fingers))
            return null;
        for (var i = 0; i < sound.Notes.Length; i++)
            if (piece.Tree.Absolute(e.Line, sound.Notes[i].Span) is var span && span.Start <= heard.Note.Span.Start && heard.Note.Span.End <= span.End)
                return (e.Line, row, i, sound);
        return null;
    }

    // Octaves that are left out are read from the notes before: nothing behind a changed note may hang on it.
    private static bool Said(RowLine row) =>
        row.Events.SelectMany(e => e.Sounds).All(s => s.Sound is not NotesSound notes || notes.Notes.All(n => n.Pitch is not { Octave: null }));
}
