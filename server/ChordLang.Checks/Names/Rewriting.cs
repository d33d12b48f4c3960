// Turns a movement of the hand into edits of the text, whatever form the sound is written in.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Checks.Names;

/// <summary>Writes changed notes.</summary>
internal static class Rewriting
{
    /// <summary>
    /// The edits that put the changed notes of one event in their place; empty where the sound is not written there (<c>%</c>). New pitches are
    /// spelled by the chord.
    /// </summary>
    public static ImmutableArray<TextEdit> Of(Piece piece, Chord chord, Event e, ImmutableArray<Change> changes) => Of(piece, chord.Spell, e, changes);

    /// <summary>As before, with the spelling of new pitches (MIDI numbers) given.</summary>
    public static ImmutableArray<TextEdit> Of(Piece piece, Func<int, PitchName> spell, Event e, ImmutableArray<Change> changes)
    {
        if (e.Syntax is not { } played)
            return [];
        var writer = new Writer(piece, spell, e, changes);
        var edits = writer.Sound(played.Sound).ToList();
        if (edits.Count > 0)
            edits.AddRange(writer.Marks(played.Marks));
        return [.. edits];
    }

    /// <summary>The voicing after the changes, or null where a note is not placed.</summary>
    public static Voicing? After(Event e, ImmutableArray<Change> changes)
    {
        if (e.Voicing is not { } voicing)
            return null;
        var slots = new int?[voicing.Strings];
        foreach (var note in e.Notes)
            if (!changes.Any(c => ReferenceEquals(c.Tone.Note, note)))
            {
                if (note.String is not { } s || s > slots.Length)
                    return null;
                slots[^s] = note.Fret;
            }
        foreach (var change in changes)
        {
            if (change.String is not { } s || s > slots.Length)
                return null;
            slots[^s] = change.Fret;
        }
        return new([.. slots]);
    }

    private sealed record Writer(Piece Piece, Func<int, PitchName> Spell, Event Event, ImmutableArray<Change> Changes)
    {
        private Span Absolute(Span span) => Piece.Tree.Absolute(Event.Line, span);

        private bool SameStrings => Changes.All(c => c.String == c.Tone.Note.String);

        public IEnumerable<TextEdit> Sound(SoundSyntax sound) => sound switch
        {
            SlotsSound slots when SameStrings && !(slots.Compact && Changes.Any(c => c.Fret > 9)) =>
                Changes.Where(c => c.String is { } s && s <= slots.Slots.Length)
                    .Select(c => new TextEdit(Absolute(slots.Slots[^c.String!.Value].Span), $"{c.Fret}")),
            NotesSound notes => notes.Notes.SelectMany(n => Note(n)),
            EqualSound equal => Sound(equal.Left).Concat(Sound(equal.Right)),
            RestSound or TiedSound => [],
            _ => Whole() is { } text ? [new TextEdit(Absolute(sound.Span), text)] : [],
        };

        public IEnumerable<TextEdit> Marks(ImmutableArray<MarkSyntax> marks)
        {
            if (SameStrings)
                yield break;
            var moves = Changes.Select(c => c.String - c.Tone.Note.String).Distinct().ToArray();
            if (moves is not [{ } by] || Changes.Length < Event.Notes.Length)
                yield break;
            foreach (var mark in marks)
            {
                if (mark is { Kind: MarkKind.Fingers, Operand: FingersOperand { Fingers: var fingers } operand })
                    yield return new(Absolute(operand.Span), string.Join('-', Enumerable.Range(0, fingers.Length)
                        .Select(i => i + by >= 0 && i + by < fingers.Length ? fingers[i + by] : Grammar.Syntax.Finger.None).Select(Sign)));
                if (mark.String is { } s)
                    yield return new(Absolute(new(mark.Name.End + 1, $"{s}".Length)), $"{s + by}");
            }
        }

        private IEnumerable<TextEdit> Note(NoteSyntax syntax)
        {
            var span = Absolute(syntax.Span);
            foreach (var change in Changes)
                if (change.Tone.Note is var note && (Within(span, note.Span) || note.PitchSpan is { } p && Within(span, p)))
                {
                    var at = syntax.String is null || change.String is null ? "" : $"@{change.String}";
                    yield return new(span, (syntax.Fret is not null ? $"{change.Fret}" : change.Midi == note.Midi ? $"{note.Pitch}" : Written(change.Midi)) + at);
                    yield break;
                }
        }

        private string? Whole() => After(Event, Changes)?.ToString() ?? (Event.Notes.All(n => n.String is null)
            ? string.Join('+', Event.Notes.Select(n => Changes.FirstOrDefault(c => ReferenceEquals(c.Tone.Note, n)) is { } c ? Written(c.Midi) : n.Pitch.ToString()))
            : null);

        private string Written(int midi) => Pitch.Of(midi, Spell(midi)).ToString();

        private static bool Within(Span outer, Span inner) => inner.Start >= outer.Start && inner.End <= outer.End;

        private static string Sign(Grammar.Syntax.Finger finger) => finger switch
        {
            Grammar.Syntax.Finger.None => "x", Grammar.Syntax.Finger.Thumb => "T", _ => $"{(int)finger}",
        };
    }
}
