// Writes fingers into the marks of an event, whichever of the two marks it carries.
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Checks.Hand;

/// <summary>Edits of <c>finger</c> and <c>fingers</c>.</summary>
internal static class FingerEdits
{
    /// <summary>The edits that make the marks of an event say these fingers; its own strings only.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="voicing">The whole grip, with what other rows play.</param>
    /// <param name="e">The event.</param>
    /// <param name="fingers">The fingers of the whole grip.</param>
    public static IEnumerable<TextEdit> Of(Piece piece, Voicing voicing, Event e, Fingers fingers)
    {
        var own = e.Notes.Where(n => n is { String: not null, Dead: false, Harmonic: false }).Select(n => n.String!.Value).ToHashSet();
        foreach (var mark in e.Marks)
            if (mark is { Kind: MarkKind.Fingers, Operand: FingersOperand whole })
            {
                var slots = fingers.Slots.Select((f, i) => own.Contains(fingers.Slots.Length - i) ? f : null);
                var played = voicing.Slots.Select((f, i) => own.Contains(voicing.Strings - i) ? f : null);
                yield return new(piece.Tree.Absolute(e.Line, whole.Span), new Fingers([.. slots]).Text(new([.. played])));
            }
            else if (mark is { Kind: MarkKind.Finger, Operand: FingerOperand one } && (mark.String ?? (own.Count == 1 ? own.Single() : null)) is { } s)
                yield return fingers[s] is { } finger ? new(piece.Tree.Absolute(e.Line, one.Span), finger.Written())
                    : new(piece.Tree.Absolute(e.Line, new(mark.Span.Start - 1, mark.Span.Length + 1)), "");
    }
}
