// Catches a hammer-on that does not go up its string and a pull-off that does not go down it.
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Frets;

/// <summary>See its page.</summary>
public sealed class SlurDirection : Check
{
    /// <inheritdoc/>
    public override string Code => "fret-slur-direction";

    /// <inheritdoc/>
    public override string Title => "A hammer-on down the string, a pull-off up it";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        var slurs = new Slurs(piece);
        foreach (var e in piece.Events)
        {
            if (e.Repeated || e.Kind != EventKind.Struck || !e.Has(MarkKind.Hammer) && !e.Has(MarkKind.Pull) || !e.SlideFrom.IsEmpty)
                continue;
            // Of a grip some notes may stay where they are; one that moves as the mark says is what the mark speaks of.
            var moves = e.Notes.Select(n => Move(slurs, e, n)).OfType<(Note Note, Note From, MarkSyntax Mark)>().ToList();
            if (moves.Count == 0 || moves.Any(m => m.Mark.Kind == MarkKind.Hammer ? m.Note.Fret > m.From.Fret : m.Note.Fret < m.From.Fret))
                continue;
            yield return Told(piece, e, moves[Math.Max(0, moves.FindIndex(m => m.Note.Fret != m.From.Fret))]);
        }
    }

    // A note and where it comes from, both on one string and at known frets.
    private static (Note Note, Note From, MarkSyntax Mark)? Move(Slurs slurs, Event e, Note note) =>
        note is { String: { } s, Fret: not null, Harmonic: false } && Slurs.MarkOf(e, note) is { Kind: MarkKind.Hammer or MarkKind.Pull } mark
            && slurs.Before(e, note).LastOrDefault(n => n.String == s && n.Fret is not null && !n.Harmonic) is { } from ? (note, from, mark) : null;

    private Finding Told(Piece piece, Event e, (Note Note, Note From, MarkSyntax Mark) move)
    {
        var (note, from, mark) = move;
        var hammer = mark.Kind == MarkKind.Hammer;
        var (rule, other, word) = hammer
            ? ("a hammer-on lands on a higher fret", "a pull-off", "pull")
            : ("a pull-off leaves its string sounding at a lower fret", "a hammer-on", "hammer");
        var same = note.Fret == from.Fret;
        return new(Code, Severity,
            $"{note.Pitch} at fret {note.Fret} of string {note.String} is to be {(hammer ? "hammered" : "pulled off")} from fret {from.Fret}, but {rule}. "
            + (same ? "Strike it again without the mark, or look at the two frets." : $"From {from.Fret} to {note.Fret} it is {other}; else look at the two frets."), note.Span)
        {
            Strings = [note.String!.Value],
            Fixes = same ? [] : [new($"Write {word}", false, [new(piece.Tree.Absolute(e.Line, mark.Name), word)])],
            Related = from.Span.Length > 0 ? [new($"{from.Pitch} lies at fret {from.Fret}", from.Span, null)] : [],
        };
    }
}
