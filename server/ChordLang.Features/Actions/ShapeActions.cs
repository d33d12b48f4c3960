// Gives a voicing a name as a shape, and writes a shape out as frets again.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Actions;

internal static class ShapeActions
{
    private const int LeastNotes = 2;

    public static IEnumerable<LessonAction> Of(Selection chosen)
    {
        if (chosen.Single is not { Voicing: { } voicing } e)
            yield break;
        var tree = chosen.Piece.Tree;
        if (e.Syntax!.Sound is SlotsSound slots && e.Notes.Length >= LeastNotes && !e.Notes.Any(n => n.Dead))
            yield return new("make shape", "Make a shape of this voicing", ActionKind.Extract, () =>
            {
                var name = Name(chosen.Piece);
                var same = chosen.Lesson.Whole.Piece.Events.Where(o => o is { Kind: EventKind.Struck, Repeated: false, Syntax.Sound: SlotsSound } && voicing.Equals(o.Voicing))
                    .Select(o => new TextEdit(tree.Absolute(o.Line, o.Syntax!.Sound.Span), name));
                return [Definition(chosen, $"shape {name} = {voicing}"), .. same.OrderBy(s => s.Span.Start)];
            })
            { Costly = true };
        if (e.Syntax.Sound is ShapeSound shape)
            yield return new("inline shape", $"Write {shape.Name} out as frets", ActionKind.Inline, () => [new(tree.Absolute(e.Line, shape.Span), $"{voicing}")]);
    }

    private static string Name(Piece piece)
    {
        for (var i = 1; ; i++)
            if (!piece.Shapes.ContainsKey($"grip-{i}"))
                return $"grip-{i}";
    }

    // Below the last shape, else above what the music begins with.
    private static TextEdit Definition(Selection chosen, string text)
    {
        var (tree, source) = (chosen.Piece.Tree, chosen.Lesson.Text);
        var end = FindingActions.LineEnd(source, 0);
        for (var i = tree.Lines.Length - 1; i >= 0; i--)
            if (tree.Lines[i] is ShapeLine)
                return source.Lines[i].EndLength > 0 ? new(new(source.Lines[i].End + source.Lines[i].EndLength, 0), text + end) : new(new(source.Lines[i].End, 0), end + text);
        var first = 0;
        while (first < tree.Lines.Length - 1 && tree.Lines[first] is not (SectionLine or ChartLine or FormLine))
            first++;
        // A comment right above belongs to what follows it.
        while (first > 0 && tree.Lines[first - 1] is CommentLine)
            first--;
        var skip = source[new(source.Lines[first].Start, source.Lines[first].Length)].StartsWith('\uFEFF') ? 1 : 0;
        return new(new(source.Lines[first].Start + skip, 0), text + end + end);
    }
}
