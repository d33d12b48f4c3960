// A part of a long lesson, bound at once while the whole still waits: all its chart, and the rows around some lines.
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

    /// <summary>All the chart and the rows around some lines: what is said of a place in them is what the whole would say. Rows far away are there, without their events.</summary>
    /// <param name="lesson">The whole.</param>
    /// <param name="lines">The lines; null for the chart alone.</param>
    public static Lesson Of(Lesson lesson, TypedLines? lines) =>
        new(lesson.Tree, lesson.Library, lesson.Configuration, 0, lines is { } l ? Widened(lesson.Tree, l, BarsAround) : new(0, -1), lesson.Memory);

    /// <summary>The bars around some lines and nothing of the others but settings, shapes and names; its findings are sure in the bars beside these lines.</summary>
    public static Lesson Tight(Lesson lesson, TypedLines lines)
    {
        var (first, last) = Widened(lesson.Tree, lines, BarsAround);
        // A bare bar takes its chord from before.
        while (first > 0 && lesson.Tree.Lines[first] is not ChartLine { Bars: [{ Items: [{ Kind: ChartItemKind.Chord }, ..] }, ..] })
            first--;
        var before = BarsIn(lesson.Tree, 0, first);
        return new(lesson.Tree.Part(first, last), lesson.Library, lesson.Configuration, before);
    }

    /// <summary>By how many some lines raise the numbers of the bars below them; a pickup raises none.</summary>
    /// <param name="tree">The syntax.</param>
    /// <param name="first">The first line.</param>
    /// <param name="count">How many lines.</param>
    public static int BarsIn(SyntaxTree tree, int first, int count)
    {
        var bars = 0;
        for (var i = first; i < first + count; i++)
            bars += tree.Lines[i] switch { ChartLine chart => chart.Bars.Length, FormLine { Kind: FormKind.Pickup } => -1, _ => 0 };
        return bars;
    }

    // A bar that repeats the one before has its rows, so that one is needed too.
    private static bool IsBar(LineSyntax line) => line is ChartLine { Bars: var bars } && bars.Any(b => b.Items.All(i => i.Kind != ChartItemKind.BarAgain));
}
