// A part of a long lesson, bound at once while the whole still waits: the bars around some lines, or all the chart without its rows.
using ChordLang.Arrangement.Binding;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Features.Lessons;

/// <summary>
/// How a snapshot answers right after an edit: lines far from the place in question are passed over, so that only the bars around it are bound,
/// while every line keeps its place. Settings, shapes, bar numbers and all offsets are those of the whole.
/// </summary>
public static class LessonWindow
{
    // Ties, rings and shifts of the hand reach into the bar beside; names and spelling look a little farther.
    private const int BarsAround = 4;

    /// <summary>The lines of so many bars around some lines, rows included.</summary>
    /// <param name="tree">The syntax.</param>
    /// <param name="lines">The lines in the middle.</param>
    /// <param name="bars">How many bars on each side.</param>
    public static TypedLines Widened(SyntaxTree tree, TypedLines lines, int bars)
    {
        var (first, last) = (Math.Clamp(lines.First, 0, tree.Lines.Length - 1), Math.Clamp(lines.Last, 0, tree.Lines.Length - 1));
        for (var left = bars + 1; first > 0; first--)
            if (IsBar(tree.Lines[first]) && --left <= 0)
                break;
        for (var left = bars + 1; last < tree.Lines.Length - 1; last++)
            if (IsBar(tree.Lines[last + 1]) && --left <= 0)
                break;
        return new(first, last);
    }

    /// <summary>All the chart, and of the rows only their lines: enough for an outline, and for the harmony.</summary>
    internal static Lesson Chart(Lesson whole) => new(whole, whole.Tree, () => Binder.Bind(whole.Tree, whole.Library, rows: (0, -1)));

    /// <summary>The bars around some lines and nothing of the others but settings, shapes and names: what is said of a place in them is what the whole would say. Its findings are sure in the bars beside these lines.</summary>
    public static Lesson Of(Lesson lesson, TypedLines lines)
    {
        var whole = lesson.Whole;
        var (first, last) = Widened(whole.Tree, lines, BarsAround);
        // A bare bar takes its chord from before.
        while (first > 0 && whole.Tree.Lines[first] is not ChartLine { Bars: [{ Items: [{ Kind: ChartItemKind.Chord }, ..] }, ..] })
            first--;
        var part = whole.Tree.Part(first, last);
        return new(whole, part, () => Binder.Bind(part, whole.Library, whole.Tree.Lines.BarsBefore(first)));
    }

    // A bar that repeats the one before has its rows, so that one is needed too.
    private static bool IsBar(LineSyntax line) => line is ChartLine { Bars: var bars } && bars.Any(b => b.Items.All(i => i.Kind != ChartItemKind.BarAgain));
}
