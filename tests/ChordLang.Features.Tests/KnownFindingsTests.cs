// What is said right after an edit of a long piece is what a fresh check says.
using System.Collections.Immutable;
using ChordLang.Checks.Catalogue;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Features.Tests;

public sealed class KnownFindingsTests
{
    private static readonly string[] Put = ["", " ", "5", "x", "@", " ring", " fermata", "7", "-", "b", "#"];

    // Edits in rows and chords, one after the other, as one types. Checked against a fresh lesson after each.
    [Fact]
    public void Quick_findings_are_the_findings_of_a_fresh_check()
    {
        var (wrong, tried) = (new List<string>(), 0);
        foreach (var path in Repository.Samples("valid"))
        {
            var dice = new Dice(path.Length);
            var lesson = new Lesson(SyntaxTree.Parse(SourceText.From(Repository.Bytes(path))));
            for (var i = 0; i < 12; i++)
            {
                var known = KnownFindings.Of(lesson.Findings);
                var line = dice.Next(lesson.Tree.Lines.Length);
                if (lesson.Tree.Lines[line] is not (RowLine or ChartLine) || lesson.Text.Lines[line].Length == 0)
                    continue;
                var at = lesson.Text.Lines[line].Start + dice.Next(lesson.Text.Lines[line].Length);
                var edit = new TextEdit(new(at, dice.Next(2)), Put[dice.Next(Put.Length)]);
                var tree = lesson.Tree.With(edit, out var changed);
                known = known.After(edit, changed, lesson.Tree, tree);
                lesson = new(tree);
                var (now, fresh) = (Said(known.Now(lesson, l => LessonWindow.Of(lesson, l))), Said(lesson.Findings));
                tried++;
                if (!now.SequenceEqual(fresh))
                    wrong.Add($"{path} line {line + 1}: said {string.Join(" / ", now.Except(fresh))}, not {string.Join(" / ", fresh.Except(now))}");
            }
        }
        // Spelling weighs the whole piece, so a far note may turn by a hair; the whole truth follows when one stops typing.
        Assert.True(tried > 80 && wrong.Count <= tried / 25, $"{wrong.Count} of {tried}:\n{string.Join('\n', wrong)}");
    }

    // Edits far apart before anybody asks: each is checked around its own lines, however long the way between them.
    [Fact]
    public void Edits_far_apart_are_each_checked_in_their_place()
    {
        var text = "key C major\n" + string.Concat(Enumerable.Range(0, 300).Select(i => i % 60 == 20 ? "| Cmaj7\n    1 x-3-5-4-5-x  9 D4\n" : "| Dm7 3 G7\n    1 x-5-7-5-6-x\n    3 x-10-9-10-8-x\n"));
        var dice = new Dice(5);
        var lesson = new Lesson(SyntaxTree.Parse(text));
        for (var round = 0; round < 12; round++)
        {
            var (known, tree) = (KnownFindings.Of(lesson.Findings), lesson.Tree);
            for (var i = 0; i <= dice.Next(9); i++)
            {
                var line = dice.Next(tree.Lines.Length - 1);
                var edit = dice.Next(4) switch
                {
                    0 => new TextEdit(new(tree.Source.Lines[line].Start, 0), "// said\n"),
                    1 when tree.Lines[line] is CommentLine => new(new(tree.Source.Lines[line].Start, tree.Source.Lines[line].Length + 1), ""),
                    _ => new(new(tree.Source.Lines[line].End, 0), Put[dice.Next(Put.Length)]),
                };
                var before = tree;
                tree = tree.With(edit, out var changed);
                known = known.After(edit, changed, before, tree);
            }
            lesson = new(tree);
            var windows = 0;
            Assert.Equal(Said(lesson.Findings), Said(known.Now(lesson, l =>
            {
                windows += l.Last - l.First;
                return LessonWindow.Of(lesson, l);
            })));
            Assert.True(known.Lines.Length <= 6 && (known.Edits.Count > 6 || windows < 200), $"{windows}");
        }
    }

    private static List<string> Said(ImmutableArray<Finding> findings) => [.. findings.Where(f => f.Code is not ("text-unused-shape" or "text-unused-allow" or "text-unmet-expectation") && !f.Code.StartsWith("form-", StringComparison.Ordinal)).Select(f => $"{f.Code} {f.Bar} {f.Count} {f.Span.Start} {f.Span.Length}")];
}
