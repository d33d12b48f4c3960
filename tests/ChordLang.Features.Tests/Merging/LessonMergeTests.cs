// What holds for every merge, over all samples: nothing changed is nothing lost, and what only one side changed is that side.
using ChordLang.Features.Merging;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Features.Tests.Merging;

public sealed class LessonMergeTests
{
    public static TheoryData<string> Samples => [.. Repository.Samples("valid")];

    [Theory, MemberData(nameof(Samples))]
    public void What_only_one_side_changed_is_that_side(string path)
    {
        var old = SourceText.From(Repository.Bytes(path));
        foreach (var now in Changed(old))
        {
            Assert.Equal(now.Text, Clean(old, now, old));
            Assert.Equal(now.Text, Clean(old, old, now));
            Assert.Equal(now.Text, Clean(old, now, now));
        }
    }

    [Theory, MemberData(nameof(Samples))]
    public void Two_changes_far_apart_are_both_there(string path)
    {
        var old = SourceText.From(Repository.Bytes(path));
        var changes = Changed(old).ToList();
        foreach (var (ours, theirs) in changes.Zip(changes.Skip(changes.Count / 2)).Where(p => p.First != p.Second))
        {
            var merged = SourceText.From(Clean(old, ours, theirs));
            foreach (var line in Lines(ours).Concat(Lines(theirs)).Except(Lines(old)))
                Assert.Contains(line.Trim(), merged.Text, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    public void Line_ends_stay_those_of_the_lesson(string end)
    {
        string With(string first, string second) => $"key     C major\n\n| Cmaj7\n    top:  1 {first}   3 {second}\n".Replace("\n", end, StringComparison.Ordinal);
        Assert.Equal(With("D4", "A4"), Clean(SourceText.From(With("E4", "G4")), SourceText.From(With("D4", "G4")), SourceText.From(With("E4", "A4"))));
    }

    [Fact]
    public void A_version_with_markers_of_an_older_merge_is_left_alone() =>
        Assert.Null(LessonMerge.Merge(SourceText.From("| C\n"), SourceText.From("<<<<<<< a\n| C\n"), SourceText.From("| D\n")));

    [Fact]
    public void Any_three_texts_merge_without_a_fall()
    {
        string[] texts = ["", "\n", "|", "| C", "| %\n    1 again\n", "    1 C4\n", "section A\nsection A again\n", "shape a = 1-x\n\0", "| C | D\n    1 E4\n", "repeat 2\n| C\nend\n"];
        foreach (var old in texts)
            foreach (var ours in texts)
                foreach (var theirs in texts)
                    Assert.NotNull((object?)LessonMerge.Merge(SourceText.From(old), SourceText.From(ours), SourceText.From(theirs)) ?? "left to git");
    }

    // A few bars, evenly over the lesson: before each a new one, or a remark on its first row.
    private static IEnumerable<SourceText> Changed(SourceText old)
    {
        var tree = SyntaxTree.Parse(old);
        var charts = Enumerable.Range(0, tree.Lines.Length).Where(i => tree.Lines[i] is ChartLine).ToList();
        foreach (var i in charts.Where((_, n) => n % Math.Max(1, charts.Count / 3) == 0))
        {
            yield return old.With([new(new(old.Lines[i].Start, 0), $"| F{(i % 2 == 0 ? "m7" : "maj7")}\n    1 F4\n\n")]);
            if (i + 1 < tree.Lines.Length && tree.Lines[i + 1] is RowLine)
                yield return old.With([new(new(old.Lines[i + 1].End, 0), $" \"bar on line {i}\"")]);
        }
    }

    private static string Clean(SourceText old, SourceText ours, SourceText theirs)
    {
        var merged = LessonMerge.Merge(old, ours, theirs);
        Assert.NotNull(merged);
        Assert.Empty(merged.Doubts);
        return merged.Text;
    }

    private static string[] Lines(SourceText text) => text.Text.Split('\n');
}
