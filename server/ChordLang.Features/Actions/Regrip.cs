// Writes another grip for an event, and lets its marks follow.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Actions;

internal static class Regrip
{
    /// <summary>The edits that replace the whole sound of an event by another grip. Fingers are worked out anew; marks on strings that are silent now go.</summary>
    public static ImmutableArray<TextEdit> Of(Piece piece, Event e, Voicing voicing) =>
        [new(piece.Tree.Absolute(e.Line, e.Syntax!.Sound.Span), $"{voicing}"), .. Marks(piece, e, voicing)];

    private static IEnumerable<TextEdit> Marks(Piece piece, Event e, Voicing voicing)
    {
        var fingers = new Lazy<Fingers?>(() => FingeringSearch.Best(piece.Bars[e.Bar].Settings.Neck, piece.Bars[e.Bar].Settings.Hand, voicing).Best);
        foreach (var mark in e.Marks)
            if (mark.String is { } s && voicing[s] is null)
                yield return Gone(piece, e, mark);
            else if (mark.Operand is FingersOperand whole)
                yield return fingers.Value is { } best ? new(piece.Tree.Absolute(e.Line, whole.Span), best.Text(voicing)) : Gone(piece, e, mark);
            else if (mark.Operand is FingerOperand one && mark.String is { } on)
                yield return fingers.Value?[on] is { } finger ? new(piece.Tree.Absolute(e.Line, one.Span), finger.Written()) : Gone(piece, e, mark);
    }

    private static TextEdit Gone(Piece piece, Event e, MarkSyntax mark)
    {
        var (line, from) = (piece.Tree.Lines[e.Line], mark.Span.Start);
        while (from > 0 && line.Text[from - 1] is ' ' or '\t')
            from--;
        return new(piece.Tree.Absolute(e.Line, Span.Between(from, mark.Span.End)), "");
    }
}
