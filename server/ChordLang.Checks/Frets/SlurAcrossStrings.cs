// Catches a hammer-on, pull-off or slide that is written across two strings, where no finger can do it.
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Hand;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Frets;

/// <summary>See its page.</summary>
public sealed class SlurAcrossStrings : Check
{
    /// <inheritdoc/>
    public override string Code => "fret-slur-across-strings";

    /// <inheritdoc/>
    public override string Title => "A hammer-on, pull-off or slide from another string";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        var slurs = new Slurs(piece);
        foreach (var e in piece.Events)
        {
            if (e.Repeated || e.Kind != EventKind.Struck || !e.Has(MarkKind.Hammer) && !e.Has(MarkKind.Pull) && !e.Has(MarkKind.Slide) && e.SlideFrom.IsEmpty)
                continue;
            foreach (var note in e.Notes)
                // A grip that is told to slide moves as far as it has company on its strings; where one note has it, the mark speaks of that.
                if (note.String is { } s && slurs.Before(e, note) is { IsEmpty: false } before && before.All(n => n.String is not null)
                    && !e.Notes.Any(n => !n.Dead && before.Any(b => b.String == n.String)))
                {
                    yield return Told(piece, e, note, before[^1], Slurs.MarkOf(e, note)?.Kind ?? MarkKind.Slide, alone: e.Notes.Length == 1 && before.Length == 1);
                    break;
                }
        }
    }

    private Finding Told(Piece piece, Event e, Note note, Note from, MarkKind kind, bool alone)
    {
        var (what, how) = kind switch
        {
            MarkKind.Hammer => ("hammered", "a hammer-on sounds the string that is sounding already"),
            MarkKind.Pull => ("pulled off", "a pull-off plucks the string that its finger leaves"),
            _ => ("slid to", "a slide stays on its string"),
        };
        var neck = piece.Bars[e.Bar].Settings.Neck;
        // No fix that the neighbour of this check would tell: a hammer-on goes up, a pull-off down.
        var fix = alone && neck.FretOf(from.String!.Value, note.Midi) is { } fret && !(kind == MarkKind.Hammer && fret <= from.Fret) && !(kind == MarkKind.Pull && fret >= from.Fret)
            ? OtherStrings.Move(piece, e, note, from.String.Value, fret) : null;
        return new(Code, kind == MarkKind.Hammer ? Severity.Information : Severity,
            $"{note.Pitch} on string {note.String} is to be {what} from {from.Pitch} on string {from.String}, but {how}. "
            + (fix is null ? "Leave out the mark, or put both on one string." : $"Put it on string {from.String} too, or leave out the mark."), note.Span)
        {
            Strings = [note.String!.Value], Fixes = fix is null ? [] : [fix with { Safe = false }],
            Related = from.Span.Length > 0 ? [new($"{from.Pitch} lies on string {from.String}", from.Span, null)] : [],
        };
    }
}
