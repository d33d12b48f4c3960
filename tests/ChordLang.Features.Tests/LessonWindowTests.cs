// What is said of a long piece before all of it is bound is what the whole says.
using ChordLang.Features.Actions;
using ChordLang.Features.Choices;
using ChordLang.Features.Completions;
using ChordLang.Features.Hints;
using ChordLang.Features.Hovers;
using ChordLang.Features.Lessons;
using ChordLang.Features.Outlines;
using ChordLang.Features.Structure;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Features.Tests;

public sealed class LessonWindowTests
{
    public static TheoryData<string> Valid => [.. Repository.Samples("valid")];

    [Theory]
    [MemberData(nameof(Valid))]
    public void The_outline_and_the_folds_of_the_chart_are_those_of_the_whole(string path)
    {
        var lesson = Of(path);
        var chart = lesson.Chart;
        Assert.False(lesson.IsBound);
        Assert.Equal(Flat(OutlineOf.Lesson(Of(path))), Flat(OutlineOf.Lesson(chart)));
        Assert.Equal(FoldsOf.Lesson(Of(path), true).AsEnumerable(), FoldsOf.Lesson(chart, true).AsEnumerable());
    }

    [Fact]
    public void Folds_that_show_nothing_are_those_that_do()
    {
        foreach (var path in Repository.Samples())
        {
            var lesson = Of(path);
            Assert.Equal(FoldsOf.Lesson(lesson, true).Select(f => f with { Shown = null }), FoldsOf.Lesson(lesson, false).AsEnumerable());
            Assert.False(new Lesson(lesson.Tree) is var bare && FoldsOf.Lesson(bare, false).Length >= 0 && bare.IsBound);
        }
    }

    [Theory]
    [MemberData(nameof(Valid))]
    public void Hovers_completions_and_bar_hints_of_a_window_are_those_of_the_whole(string path)
    {
        var lesson = Of(path);
        for (var line = 0; line < lesson.Tree.Lines.Length; line += 7)
        {
            if (lesson.Tree.Lines[line] is not (RowLine or ChartLine))
                continue;
            var window = LessonWindow.Of(lesson, new(line, line));
            foreach (var token in lesson.Tree.Lines[line].Tokens)
            {
                var offset = lesson.Tree.Absolute(line, token.Span).Start;
                Assert.Equal(HoverAt.Of(lesson, offset)?.Plain(), HoverAt.Of(window, offset)?.Plain());
                Assert.Equal(CompletionsAt.Of(lesson, offset, new()).Select(p => (p.Text, p.Detail)), CompletionsAt.Of(window, offset, new()).Select(p => (p.Text, p.Detail)));
            }
            var span = new Span(lesson.Text.Lines[line].Start, lesson.Text.Lines[line].Length);
            Assert.Equal(HintsIn.Of(lesson, span, new HintChoices()).Where(h => h.Kind != HintKind.Place), HintsIn.Of(window, span, new HintChoices()).Where(h => h.Kind != HintKind.Place));
        }
    }

    [Theory]
    [MemberData(nameof(Valid))]
    public void What_a_window_says_of_settings_sections_shapes_and_form_is_what_the_whole_says(string path)
    {
        var lesson = Of(path);
        for (var line = 0; line < lesson.Tree.Lines.Length; line++)
            if (lesson.Tree.Lines[line] is not (RowLine or ChartLine))
                foreach (var token in lesson.Tree.Lines[line].Tokens)
                {
                    var offset = lesson.Tree.Absolute(line, token.Span).Start;
                    var window = LessonWindow.Of(lesson, new(line, line));
                    Assert.Equal(HoverAt.Of(lesson, offset)?.Plain(), HoverAt.Of(window, offset)?.Plain());
                    Assert.Equal(SelectionsAt.Of(lesson, offset).AsEnumerable(), SelectionsAt.Of(window, offset));
                    if (lesson.Tree.Lines[line] is not CommentLine)
                        Assert.Equal(CompletionsAt.Of(lesson, offset, new()).Select(p => (p.Text, p.Detail)), CompletionsAt.Of(window, offset, new()).Select(p => (p.Text, p.Detail)));
                }
    }

    // What waits until it is chosen is worked out from the whole; all else from the bars around.
    [Theory]
    [MemberData(nameof(Valid))]
    public void Actions_that_a_window_offers_are_those_of_the_whole(string path)
    {
        var lesson = Of(path);
        for (var line = 3; line < lesson.Tree.Lines.Length; line += 11)
        {
            if (lesson.Tree.Lines[line] is not (RowLine or ChartLine) || lesson.Text.Lines[line].Length == 0)
                continue;
            var window = LessonWindow.Of(lesson, new(line, line));
            var at = new Span(lesson.Text.Lines[line].Start + lesson.Text.Lines[line].Length * 2 / 3, 0);
            Assert.Equal(ActionsAt.Of(lesson, at).Select(Offered), ActionsAt.Of(window, at, () => lesson.Findings).Select(Offered));
        }
    }

    private static string Offered(LessonAction action) => $"{action.Id} {action.Title} {action.Kind} {(action.Costly ? "" : string.Join(' ', action.Edits))}";

    // Rows, chords, keys and meters are edited; what is handed on must never be that of another chart.
    [Fact]
    public void Harmony_that_is_handed_on_is_that_of_a_fresh_reading()
    {
        var reused = 0;
        foreach (var path in Repository.Samples("valid"))
        {
            var (memory, dice) = (new LessonMemory(), new Dice(path.Length));
            var tree = SyntaxTree.Parse(Repository.Text(path));
            var before = new Lesson(tree, memory: memory).Harmony;
            for (var i = 0; i < 20; i++)
            {
                var at = dice.Next(tree.Source.Text.Length);
                tree = tree.With(new(new(at, dice.Next(2)), "7m#| x\n"[dice.Next(7)].ToString()), out _);
                var (handed, fresh) = (new Lesson(tree, memory: memory).Harmony, new Lesson(tree).Harmony);
                reused += handed.Keys == before.Keys ? 1 : 0;
                Assert.Equal(Said(fresh), Said(handed));
                before = handed;
            }
        }
        Assert.True(reused > 100, $"{reused}");
    }

    // A long piece under many edits of rows: its chart is never bound again, and its places are where a fresh reading has them.
    [Fact]
    public void Harmony_goes_along_with_edits_of_rows()
    {
        var text = string.Concat(Enumerable.Range(0, 40).Select(i => $"section {i}\n| Dm7 | G7\n| Cmaj7 3 A7\n    1 x-3-5-4-5-x\n// words\n> More words.\n| %\n\n"));
        var (memory, dice, tree) = (new LessonMemory(), new Dice(3), SyntaxTree.Parse("key C major\n" + text));
        var first = new Lesson(tree, memory: memory).Harmony;
        for (var i = 0; i < 60; i++)
        {
            var line = dice.Next(tree.Lines.Length);
            var put = tree.Lines[line] switch { RowLine => "  3 D4", ProseLine => "\n> Others.", CommentLine => " more", BlankLine => "// said\n", _ => null };
            if (put is null)
                continue;
            tree = tree.With(new(new(tree.Source.Lines[line].End, 0), put), out _);
            var handed = new Lesson(tree, memory: memory);
            Assert.Same(first.Functions[0], handed.Harmony.Functions[0]);
            Assert.Equal(Said(new Lesson(tree).Harmony), Said(handed.Harmony));
        }
    }

    // A long chart under edits of its chords: weights that are handed on are those of a fresh reading.
    [Theory]
    [InlineData("key C major\n", 1)]
    [InlineData("key A minor\n", 2)]
    [InlineData("", 3)]
    public void Functions_after_edits_of_the_chart_are_those_of_a_fresh_reading(string key, int seed)
    {
        string[] chords = ["Dm7", "G7", "Cmaj7", "A7", "Fmaj7", "Bm7b5", "E7", "Am7", "Db7", "C7", "Ebdim7", "Em7", "Bb7"];
        var dice = new Dice(seed);
        var tree = SyntaxTree.Parse(key + string.Concat(Enumerable.Range(0, 60).Select(_ => $"| {chords[dice.Next(chords.Length)]} | {chords[dice.Next(chords.Length)]} 3 {chords[dice.Next(chords.Length)]}\n")));
        var memory = new LessonMemory();
        for (var i = 0; i < 60; i++)
        {
            var line = dice.Next(tree.Lines.Length);
            if (tree.Lines[line] is not ChartLine { Bars: [{ Items: [{ Symbol: { } symbol }] }, ..] })
                continue;
            var start = tree.Source.Lines[line].Start;
            tree = tree.With(dice.Next(5) switch
            {
                0 => new(new(start, 0), $"| {chords[dice.Next(chords.Length)]}\n"),
                1 => new(new(start, tree.Source.Lines[line].Length), "| %"),
                _ => new(symbol.Span.Shift(start), chords[dice.Next(chords.Length)]),
            }, out _);
            Assert.Equal(Said(new Lesson(tree).Harmony), Said(new Lesson(tree, memory: memory).Harmony));
        }
    }

    private static string Said(LessonHarmony h) => string.Join('\n',
    [
        .. h.Keys.Spans.Select(s => $"{s.FromBar} {s.Key} {s.Given} {s.Confidence:R}"),
        .. h.Written.Places.Select((p, i) => $"{p} {h.Functions[i].Numeral} {h.Functions[i].Function} {h.Functions[i].Confidence} {h.Functions[i].Reason}"),
        .. h.Skeleton.Levels.Select(l => string.Join(' ', l.Indices)),
    ]);

    private static Lesson Of(string path) => new(SyntaxTree.Parse(SourceText.From(Repository.Bytes(path))));

    private static IEnumerable<string> Flat(IEnumerable<OutlinePart> parts) => parts.SelectMany(p => Flat(p.Parts).Prepend($"{p.Kind} {p.Name} {p.Detail} {p.Span} {p.Selection}"));
}
