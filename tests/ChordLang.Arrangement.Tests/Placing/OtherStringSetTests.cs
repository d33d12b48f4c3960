// An event on the neighbouring strings, written as its sound is written.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Tests.Placing;

public class OtherStringSetTests
{
    [Theory]
    [InlineData("x-x-10-9-8-8", "x-15-14-12-13-x")]
    [InlineData("x-x-5-5-5-5 fingers x-x-1-1-1-1 ring@1", "x-10-10-9-10-x fingers x-2-3-1-4-x ring@2")]
    [InlineData("5@1", "10@2")]
    [InlineData("A4@1 finger 1", "A4@2 finger 1")]
    [InlineData("E4+A4 = x-x-x-x-5-5", "E4@3+A4@2 = x-x-x-9-10-x")]
    [InlineData("block at 5", "x-10-10-9-10-x")]
    public void It_is_written_in_the_form_of_the_sound(string written, string moved) =>
        Assert.Equal(moved, After(written, Across.ToLowerStrings));

    [Theory]
    [InlineData("x-3-2-0-1-0", Across.ToHigherStrings)]
    [InlineData("12@1 harmonic", Across.ToLowerStrings)]
    [InlineData("A4", Across.ToLowerStrings)]
    [InlineData("5@1 slide from 3@1", Across.ToLowerStrings)]
    public void Where_it_cannot_be_said_nothing_is_offered(string written, Across across) => Assert.Null(After(written, across));

    [Fact]
    public void A_note_left_open_moves_from_where_it_is_placed()
    {
        var piece = Binder.Bind(SyntaxTree.Parse("|\n    1 A4\n"));
        var placed = PlacedPiece.Of(piece, Hand.Medium);
        var at = Assert.Single(Assert.Single(placed.Events).Notes).String!.Value;
        Assert.Equal([$"@{at + 1}"], OtherStringSet.Of(piece, piece.Events[0], Across.ToLowerStrings, placed)!.Edits.Select(e => e.NewText));
    }

    private static string? After(string written, Across across)
    {
        var text = $"shape block = x-x-1-1-1-1\n\n| N.C.\n    1 {written}\n";
        var piece = Binder.Bind(SyntaxTree.Parse(text));
        return OtherStringSet.Of(piece, Assert.Single(piece.Events), across) is { } other
            ? piece.Tree.Source.With(other.Edits).Text.TrimEnd().Split("    1 ")[1] : null;
    }
}
