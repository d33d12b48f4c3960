// Hovers of a row: counts, notes, voicings, shapes, marks and voice labels.
using ChordLang.Arrangement.Music;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Hovers;

internal static class RowHover
{
    public static HoverText? Of(Lesson lesson, int line, Token token, int offset)
    {
        var (span, row) = (lesson.Tree.Absolute(line, token.Span), (RowLine)lesson.Tree.Lines[line]);
        if (token.Kind == TokenKind.Label)
            return Label(lesson, line, row, span);
        if (token.Kind == TokenKind.Unreadable)
            return HoverAt.Unread(lesson, line, span);
        if (lesson.RowOn(line) is not var (bar, bound))
            return HoverText.Of(span, $"\"{lesson.Text[span]}\" stands in a row without a bar above it, so it has no place in the music yet. Write a line that starts with | over it.");
        foreach (var written in row.Events)
            foreach (var played in written.Sounds)
                if (played.Marks.FirstOrDefault(m => m.Span.Touches(token.Span.Start) && token.Span.End <= m.Span.End) is { } mark)
                    return mark.Operand is SymbolOperand symbol && symbol.Span.Start <= token.Span.Start
                        ? ChartHover.Symbol(lesson, lesson.Tree.Absolute(line, symbol.Span), symbol.Symbol, null)
                        : MarkHover.Of(bar, mark, span);
        if (token.Kind == TokenKind.Count)
            return Count(bar, row, token, span);
        var heard = bound.Events.FirstOrDefault(e => e.SoundSpan.Start <= span.Start && span.End <= e.SoundSpan.End);
        return heard is null ? Loose(lesson, row, token, span) : Sound(lesson, bar, heard, token, span, offset);
    }

    private static HoverText Count(Bar bar, RowLine row, Token token, Span span)
    {
        foreach (var written in row.Events)
            if (written.Count.Span == token.Span)
                return CountHover.Of(bar, written.Count.Offset, span, written.To is null ? "the sound behind it is struck" : $"a run of {written.Sounds.Length} sounds begins");
            else if (written.To is { } to && to.Span == token.Span)
                return CountHover.Of(bar, to.Offset, span, "the last sound of the run is struck");
        return HoverText.Of(span, "A count: the sound behind it is struck there.");
    }

    private static HoverText Sound(Lesson lesson, Bar bar, Event e, Token token, Span span, int offset) => e.Kind switch
    {
        EventKind.Rest => HoverText.Of(span, $"This voice rests for {Say.Counts(Length(bar, e))}."),
        EventKind.Tied => HoverText.Of(span, $"The sound before goes on for {Say.Counts(Length(bar, e))}{(e.Notes.IsEmpty ? "" : $": {Say.List(e.Notes.Select(n => $"{n.Pitch}"))}")}."),
        EventKind.Unbound => HoverAt.Unread(lesson, lesson.Text.LineAt(span.Start), span),
        _ when token.Kind == TokenKind.EqualSign => HoverText.Of(span, "Both sides are said to be the same sound; the checker compares them."),
        _ => SoundHover.Of(lesson, bar, e, span, offset),
    };

    private static HoverText Loose(Lesson lesson, RowLine row, Token token, Span span) => token.Kind == TokenKind.Keyword
        ? HoverText.Of(span, "A run: the sounds behind it are spread evenly from the first count to the last.")
        : row.Findings.IsEmpty && lesson.Text[span] is var text ? HoverText.Of(span, $"\"{text}\" belongs to no sound of this bar.") : HoverAt.Unread(lesson, lesson.Text.LineAt(span.Start), span);

    private static HoverText Label(Lesson lesson, int line, RowLine row, Span span)
    {
        var bars = lesson.Whole.Piece.Bars.Count(b => b.Rows.Any(r => r.Voice == row.Voice));
        var notes = lesson.Whole.Piece.Events.Where(e => e.Line >= 0 && e.VoiceKey == row.Voice).SelectMany(e => e.Notes).Where(n => !n.Dead).ToList();
        return HoverText.Of(span, $"This row is the voice {row.Voice}; it plays in {Say.Number(bars, "bar")} of the piece.",
            notes.Count == 0 ? null : $"It lies between {notes.MinBy(n => n.Midi)!.Pitch} and {notes.MaxBy(n => n.Midi)!.Pitch}.",
            lesson.RowOn(line) is null ? "Here it stands under no bar." : null);
    }

    private static Rational Length(Bar bar, Event e) => (e.End - e.Onset) / bar.Settings.Meter.Count;
}
