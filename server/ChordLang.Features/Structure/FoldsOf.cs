// What can be folded away, and what is shown in its place: the skeleton of the chords.
using System.Collections.Immutable;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Features.Structure;

/// <summary>What a fold holds.</summary>
public enum FoldKind { Section, Bar, Prose, Comment, Settings, Shapes }

/// <summary>Lines that can be folded away under the first of them.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="FirstLine">The line that stays, from 0.</param>
/// <param name="LastLine">The last line that goes.</param>
/// <param name="Shown">What stands for it, or null.</param>
public sealed record Fold(FoldKind Kind, int FirstLine, int LastLine, string? Shown);

/// <summary>Finds folds.</summary>
public static class FoldsOf
{
    private const int MostShown = 12;

    /// <summary>The folds of a lesson, by their first lines, larger ones first.</summary>
    /// <param name="lesson">The lesson.</param>
    /// <param name="shown">False where nobody will see what stands for a fold, so that it need not be worked out.</param>
    public static ImmutableArray<Fold> Lesson(Lesson lesson, bool shown)
    {
        var folds = new List<Fold>();
        if (shown)
        {
            Sections(lesson, folds);
            Bars(lesson, folds);
        }
        else
            Lines(lesson.Tree, folds);
        Blocks(lesson.Tree, folds);
        return [.. folds.OrderBy(f => f.FirstLine).ThenByDescending(f => f.LastLine)];
    }

    private static void Sections(Lesson lesson, List<Fold> folds)
    {
        var sections = lesson.Piece.Sections;
        for (var i = 0; i < sections.Length; i++)
        {
            var last = LastFilled(lesson.Tree, (i + 1 < sections.Length ? sections[i + 1].Line : lesson.Tree.Lines.Length) - 1);
            if (last > sections[i].Line)
                folds.Add(new(FoldKind.Section, sections[i].Line, last, $"section {sections[i].Name}: {Skeleton(lesson, sections[i].FirstBar, sections[i].BarCount)}"));
        }
    }

    private static void Bars(Lesson lesson, List<Fold> folds)
    {
        foreach (var bar in lesson.Piece.Bars)
            if (bar.Rows.Where(r => !r.Borrowed).Select(r => r.Line).DefaultIfEmpty(-1).Max() is var last && last > bar.Line)
                folds.Add(new(FoldKind.Bar, bar.Line, last, $"{lesson.Tree.Lines[bar.Line].Text.Trim()} … {(bar.Rows.Length == 1 ? "1 row" : $"{bar.Rows.Length} rows")}"));
    }

    // The same from the lines alone, where nothing has to be said: no music is bound for it. Rows belong to a bar that has its chart line for itself.
    private static void Lines(SyntaxTree tree, List<Fold> folds)
    {
        var (section, bar, row) = (-1, -1, -1);
        for (var i = 0; i < tree.Lines.Length; i++)
            switch (tree.Lines[i])
            {
                case RowLine when bar >= 0:
                    row = i;
                    break;
                case ChartLine chart:
                    CloseBar();
                    bar = chart.Bars.Length == 1 ? i : -1;
                    break;
                case FormLine:
                    CloseBar();
                    break;
                case SectionLine:
                    CloseBar();
                    CloseSection(i);
                    section = i;
                    break;
            }
        CloseBar();
        CloseSection(tree.Lines.Length);

        void CloseBar()
        {
            if (row > bar && bar >= 0)
                folds.Add(new(FoldKind.Bar, bar, row, null));
            (bar, row) = (-1, -1);
        }

        void CloseSection(int next)
        {
            if (section >= 0 && LastFilled(tree, next - 1) is var last && last > section)
                folds.Add(new(FoldKind.Section, section, last, null));
        }
    }

    // The chords that remain without decoration; where all is decoration, the chords themselves.
    private static string Skeleton(Lesson lesson, int firstBar, int bars)
    {
        var (places, levels) = (lesson.Harmony.Written.Places, lesson.Harmony.Skeleton.Levels);
        bool Mine(int chord) => places[chord].Bar >= firstBar && places[chord].Bar < firstBar + bars;
        var kept = levels.Length > 1 ? levels[1].Indices.Where(Mine).ToList() : [];
        if (kept.Count == 0)
            kept = [.. Enumerable.Range(0, places.Length).Where(Mine)];
        return kept.Count == 0 ? "no chords" : string.Join(' ', kept.Take(MostShown).Select(k => places[k].Symbol)) + (kept.Count > MostShown ? " …" : "");
    }

    // Lines of one kind that stand together.
    private static void Blocks(SyntaxTree tree, List<Fold> folds)
    {
        for (int first = 0, next; first < tree.Lines.Length; first = next)
        {
            var kind = Kind(tree.Lines[first]);
            for (next = first + 1; kind is not null && next < tree.Lines.Length && Kind(tree.Lines[next]) == kind;)
                next++;
            if (next - first > 1)
                folds.Add(new(kind!.Value, first, next - 1, null));
        }
    }

    private static FoldKind? Kind(LineSyntax line) => line switch
    {
        ProseLine => FoldKind.Prose,
        CommentLine => FoldKind.Comment,
        SettingLine => FoldKind.Settings,
        ShapeLine or UseLine => FoldKind.Shapes,
        _ => null,
    };

    private static int LastFilled(SyntaxTree tree, int line)
    {
        while (line > 0 && tree.Lines[line] is BlankLine)
            line--;
        return line;
    }
}
