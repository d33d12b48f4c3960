// Moves a whole piece, or some lines of it, by one interval: edits on its text, so that everything that does not move stays as it was typed.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Transposing;

/// <summary>Transposes pieces.</summary>
public static class Transposition
{
    /// <summary>
    /// Moves a piece. Keys, chord symbols and written pitches take the interval's spelling; frets, shapes and positions move along the neck; a grip
    /// that an open string or an end of the neck stops becomes the nearest one of the same function, and that is told as a loss. Tuning and capo stay.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="interval">See <see cref="IntervalChoice"/>.</param>
    /// <param name="library">Where <c>use</c> finds its files; null: nowhere.</param>
    public static TransposedPiece Of(Piece piece, Interval interval, ILibrary? library = null)
    {
        var tree = piece.Tree;
        var plan = new GripPlan(piece, interval);
        var writer = new MovedLine(piece, interval, new(tree, interval), plan);
        var text = tree.Source.With(Enumerable.Range(0, tree.Lines.Length).SelectMany(i => writer.Of(i).ToList()).ToList());
        // Names and frets change their length; what stood in canonical columns shall stand in them again.
        if (Formatter.Format(tree).IsEmpty)
            text = Formatter.Formatted(text);
        var moved = Binder.Bind(SyntaxTree.Parse(text), library);
        var places = moved.Bars.SelectMany(b => b.Rows.Where(r => !r.Borrowed).SelectMany(r => r.Events)).ToLookup(e => (e.Line, e.Offset), e => e.SoundSpan);
        Span Place(LossDraft draft) => draft.Event is { } e && places[(e.Line, e.Offset)].Select(s => (Span?)s).FirstOrDefault() is { } span ? span
            : moved.Tree.Source.Lines[draft.Line] is var line ? new(line.Start, line.Length) : default;
        return new(moved, interval, [.. plan.Losses.Select(l => l.Loss with { Span = Place(l) }).OrderBy(l => l.Span.Start)]);
    }

    /// <summary>The edits that move what stands on some lines and leave the rest; definitions of shapes stay, and a shape that cannot move as it is becomes frets.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="interval">See <see cref="IntervalChoice"/>.</param>
    /// <param name="firstLine">The first line, from 0.</param>
    /// <param name="lastLine">The last line.</param>
    public static ImmutableArray<TextEdit> Edits(Piece piece, Interval interval, int firstLine, int lastLine)
    {
        var part = piece with { Events = [.. piece.Events.Where(e => e.Line >= firstLine && e.Line <= lastLine)] };
        var writer = new MovedLine(part, interval, new(piece.Tree, interval), new(part, interval, shapesStay: true));
        return [.. Enumerable.Range(firstLine, lastLine - firstLine + 1).Where(i => piece.Tree.Lines[i] is not ShapeLine).SelectMany(i => writer.Of(i).ToList())];
    }
}
