// What holds for every text, also a broken one: it is moved without a fault, and what is no music stays as typed.
using ChordLang.Arrangement.Transposing;
using ChordLang.Grammar.Syntax;
using CsCheck;

namespace ChordLang.Arrangement.Tests.Transposing;

public class AnyTextTests
{
    [Fact]
    public void Any_text_moves_and_keeps_its_lines() => Gen.Select(Binding.AnyTextTests.Text, Gen.Int[-24, 24]).Sample((text, by) =>
    {
        var piece = Moved.Bind(text);
        var moved = Transposition.Of(piece, IntervalChoice.By(piece, by));
        Assert.Equal(piece.Tree.Lines.Length, moved.Piece.Tree.Lines.Length);
        for (var i = 0; i < piece.Tree.Lines.Length; i++)
            if (piece.Tree.Lines[i] is ProseLine or CommentLine or SectionLine or FormLine or UseLine or UnreadableLine)
                Assert.Equal(piece.Tree.Lines[i].Text, moved.Piece.Tree.Lines[i].Text);
        Assert.All(moved.Losses, l => Assert.True(l.Span.Start >= 0 && l.Span.End <= moved.Text.Text.Length));
    }, iter: 2000);

    [Fact]
    public void By_nothing_nothing_changes() => Binding.AnyTextTests.Text.Sample(text =>
    {
        var piece = Moved.Bind(text);
        var moved = Transposition.Of(piece, IntervalChoice.By(piece, 0));
        Assert.Equal((text, 0), (moved.Text.Text, moved.Losses.Length));
    }, iter: 1000);

    // Found by chance in a run of the properties: a shape that nobody knows, named as the same sound as a pitch.
    [Theory]
    [InlineData("| C\n    1 C4 = low-drop\n", 0), InlineData("| C\n    1 low-drop = 1@2\n", 2), InlineData("| C\n    1 C4 = low-drop+3\n", -2), InlineData("| C\n    1 low-drop = x-3-2-0-1-0\n", 5)]
    public void An_unknown_shape_is_no_fault(string text, int by)
    {
        var piece = Moved.Bind(text);
        var moved = Transposition.Of(piece, IntervalChoice.By(piece, by));
        Assert.Equal(piece.Tree.Lines.Length, moved.Piece.Tree.Lines.Length);
        if (by == 0)
            Assert.Equal(text, moved.Text.Text);
    }

    [Fact]
    public void Where_nothing_is_lost_the_music_comes_back() => Gen.Select(Binding.AnyTextTests.Text, Gen.Int[-7, 7]).Sample((text, by) =>
    {
        var piece = Moved.Bind(text);
        // What is wrong in a text may become right in another place of the neck, and the other way round.
        if (piece.Troubles.Length > 0 || piece.Tree.Lines.Any(l => l.Findings.Length > 0))
            return;
        var there = Transposition.Of(piece, IntervalChoice.By(piece, by));
        if (there.Losses.Length > 0)
            return;
        Assert.Equal(Moved.Music(piece, by), Moved.Music(there.Piece));
        var back = Transposition.Of(there.Piece, there.Interval.Inverse);
        Assert.Equal(Moved.Music(piece), Moved.Music(back.Piece));
    }, iter: 3000);
}
