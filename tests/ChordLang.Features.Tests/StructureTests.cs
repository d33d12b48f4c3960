// Outline, folds, selections, links, colours and hints, by short texts.
using ChordLang.Features.Choices;
using ChordLang.Features.Colours;
using ChordLang.Features.Hints;
using ChordLang.Features.Lessons;
using ChordLang.Features.Outlines;
using ChordLang.Features.Structure;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Features.Tests;

public sealed class StructureTests
{
    private const string Text = "title Ferry\nkey C major\n\nshape low-drop = 1-x-1-1-1-x\n\n| Fm7\n    1 low-drop\n\nsection A\n> One.\n> Two.\n\n| Dm7 3 G7\n    top: 1 F4 3 F4\n    low: 1 D3 3 G3\n\n| Cmaj7\n\nsection A again\n";

    [Fact]
    public void The_outline_reads_well_without_its_tree()
    {
        var parts = OutlineOf.Lesson(Of(Text));
        Assert.Equal(["Shape low-drop", "Bar 1: Fm7", "Section A", "Section A again"], parts.Select(p => p.Name));
        Assert.Equal(["1-x-1-1-1-x", "1 row", "bars 2 to 3", "bars 2 to 3"], parts.Select(p => p.Detail));
        Assert.Equal(["Bar 2: Dm7, then G7", "Bar 3: Cmaj7"], parts[2].Parts.Select(p => p.Name));
        foreach (var part in parts.Concat(parts[2].Parts))
            Assert.True(part.Selection.Start >= part.Span.Start && part.Selection.End <= part.Span.End, part.Name);
    }

    [Fact]
    public void A_fold_shows_the_skeleton_in_its_place()
    {
        var folds = FoldsOf.Lesson(Of(Text), shown: true);
        Assert.Equal([(FoldKind.Settings, 0, 1), (FoldKind.Bar, 5, 6), (FoldKind.Section, 8, 16), (FoldKind.Prose, 9, 10), (FoldKind.Bar, 12, 14)], folds.Select(f => (f.Kind, f.FirstLine, f.LastLine)));
        // Dm7 is the related two of G7, decoration; G7 and its goal remain (common practice of reduction).
        Assert.StartsWith("section A: ", folds[2].Shown, StringComparison.Ordinal);
        Assert.EndsWith("Cmaj7", folds[2].Shown, StringComparison.Ordinal);
        Assert.DoesNotContain("Dm7", folds[2].Shown, StringComparison.Ordinal);
        Assert.All(FoldsOf.Lesson(Of(Text), shown: false), f => Assert.Null(f.Shown));
    }

    [Theory]
    [InlineData("| C\n    1 x-3-¦5-4-5-x ring  3 C4\n", "5", "x-3-5-4-5-x", "x-3-5-4-5-x ring", "1 x-3-5-4-5-x ring", "    1 x-3-5-4-5-x ring  3 C4")]
    [InlineData("| F¦#m7 3 B7\n", "F#", "F#m7", "| F#m7 3 B7")]
    public void A_selection_grows_through_the_music(string marked, params string[] spans)
    {
        var (text, cursor) = Snippet.AtCursor(marked);
        var grown = SelectionsAt.Of(Of(text), cursor);
        Assert.Equal(spans, grown.Take(spans.Length).Select(s => text.Substring(s.Start, s.Length)));
        Assert.Equal(new Span(0, text.Length), grown[^1]);
        for (var i = 1; i < grown.Length; i++)
            Assert.True(grown[i].Start <= grown[i - 1].Start && grown[i].End >= grown[i - 1].End && grown[i].Length > grown[i - 1].Length);
    }

    [Fact]
    public void Links_lead_to_files_and_pages()
    {
        var lesson = Of("use \"more/shapes.chl\"\n// allow name-fret-slip: meant\n// allow no-such-check: meant\n| C\n");
        Assert.Equal([("more/shapes.chl", null), (null, "name-fret-slip")], LinksOf.Lesson(lesson).Select(l => (l.File, l.Check)));
        Assert.Equal(["more/shapes.chl", "name-fret-slip"], LinksOf.Lesson(lesson).Select(l => lesson.Text[l.Span]));
    }

    [Fact]
    public void Colours_are_in_order_and_none_overlap()
    {
        var tree = SyntaxTree.Parse(Text);
        var words = ColoursOf.Lines(tree, 0, tree.Lines.Length).ToList();
        for (var i = 1; i < words.Count; i++)
            Assert.True(words[i].Span.Start >= words[i - 1].Span.End);
        Assert.Single(words, w => w.Defines && tree.Source[w.Span] == "low-drop");
        Assert.Single(words, w => w.Defines && tree.Source[w.Span] == "A");
        Assert.Equal(["|", "Cmaj7"], ColoursOf.Lines(tree, 16, 16).Select(w => tree.Source[w.Span]));
    }

    [Theory]
    [InlineData("| Dm7 | G7 | C\n", HintKind.BarNumber, "1 2 3")]
    // Numerals by common practice.
    [InlineData("key C major\n| Dm7 | G7 | Cmaj7\n", HintKind.Numeral, "ii7 V7 Imaj7")]
    // Equal temperament on standard tuning.
    [InlineData("| Cmaj7\n    1 x-3-5-4-5-x\n", HintKind.Pitch, "C3 G3 B3 E4")]
    [InlineData("|\n    1 x-3-2-0-1-0\n", HintKind.Name, "C")]
    [InlineData("| Cmaj7\n    1 x-3-5-4-5-x\n", HintKind.Name, "")]
    [InlineData("| Cmaj7\n    1 E2\n", HintKind.Place, "0@6")]
    public void Hints_tell_what_is_not_written(string text, HintKind kind, string hints)
    {
        var lesson = Of(text);
        var all = HintsIn.Of(lesson, new(0, text.Length), new(true, true, true, true, true));
        Assert.Equal(hints, string.Join(' ', all.Where(h => h.Kind == kind).Select(h => h.Text)));
        Assert.All(all, h => Assert.EndsWith(".", h.Says, StringComparison.Ordinal));
        Assert.Empty(HintsIn.Of(lesson, new(0, text.Length), new HintChoices(false, false, false, false, false)));
    }

    private static Lesson Of(string text) => new(SyntaxTree.Parse(text));
}
