// What is said of two versions of a piece: each kind of change by itself, and several at once.
using ChordLang.Arrangement.Binding;
using ChordLang.Features.Comparing;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Tests.Comparing;

public sealed class PieceComparisonTests
{
    private const string Piece = """
        title   Two Lamps
        key     C major
        meter   4/4

        shape low = x-3-2-3-3-x

        section Opening

        | Cmaj7
            top:  1 E4   3 G4
            low:  1 x-3-2-4-x-x
        | Am7
            top:  1 C5   2& A4
        | Dm7
            top:  1 F4   3 A4@2

        section Bridge

        | G7
            top:  1 B4
        | C9
            1 low
        | C9
            1 low   3 again
        """;

    [Theory]
    [InlineData("| G7", "| Db7", "Bridge, bar 4: G7 became Db7, its tritone substitute.")]
    [InlineData("| Am7", "| A7", "Opening, bar 2: Am7 became A7, with a major third.")]
    [InlineData("| Am7", "| Cmaj7", "Opening, bar 2: Am7 became Cmaj7, its relative major.")]
    [InlineData("| Cmaj7", "| Am7", "Opening, bar 1: Cmaj7 became Am7, its relative minor.")]
    [InlineData("| Am7", "| C6", "Opening, bar 2: Am7 became C6, the same tones from another root.")]
    [InlineData("| G7", "| G13", "Bridge, bar 4: G7 became G13, a fuller name.")]
    [InlineData("| G7", "| G7/B", "Bridge, bar 4: G7 became G7/B, over B.")]
    [InlineData("| G7", "| Dm7", "Bridge, bar 4: G7 became Dm7, the two of the same two-five.")]
    [InlineData("| G7", "| Ebmaj7", "Bridge, bar 4: G7 became Ebmaj7.")]
    [InlineData("| G7", "| 1 Dm7 3 G7", "Bridge, bar 4: G7 became Dm7, the two of the same two-five; G7 put in on 3.")]
    [InlineData("A4@2", "A4@3", "Opening, bar 3: same notes, other strings.")]
    [InlineData("A4@2", "A4@2 finger 3", "Opening, bar 3: same notes, other fingers.")]
    [InlineData("1 C5   2& A4", "1 D5   2& B4", "Opening, bar 2: transposed up a whole tone.")]
    [InlineData("1 C5   2& A4", "1 C4   2& A3", "Opening, bar 2: transposed down an octave.")]
    [InlineData("1 C5   2& A4", "1 C5   2& G4", "Opening, bar 2: A4 became G4 on 2&.")]
    [InlineData("1 C5   2& A4", "1 C5   3 A4", "Opening, bar 2: A4 taken out on 2&; A4 put in on 3.")]
    [InlineData("1 x-3-2-4-x-x", "1 x-3-2-2-x-x", "Opening, bar 1: x-3-2-4-x-x became x-3-2-2-x-x on 1.")]
    [InlineData("1 B4", "1 B4 accent", "Bridge, bar 4: same notes, other marks.")]
    [InlineData("1 B4", "1 Cb5", "Bridge, bar 4: same notes, spelled otherwise.")]
    [InlineData("1 B4", "1 B4   3 rest", "Bridge, bar 4: same notes, other lengths.")]
    [InlineData("section Bridge\n", "section Bridge\nrepeat 2\n", "Bridge, bar 4: repeat 2 put in before it.")]
    [InlineData("title   Two Lamps", "title   Three Lamps", "Title Two Lamps became Three Lamps.")]
    [InlineData("\n| G7", "\nkey G major\n| G7", "Bridge, bar 4: from here on key C major became G major.")]
    [InlineData("\n| G7", "\n> Slowly.\n| G7", "Teaching text changed.")]
    [InlineData("\n| G7", "\n// slowly\n| G7", "Comments changed.")]
    [InlineData("1 E4   3 G4", "1 E4  3 G4", "Formatting only: the same music.")]
    [InlineData("meter   4/4", "meter  4/4", "Formatting only: the same music.")]
    public void One_change_is_one_sentence(string old, string now, string says) => Assert.Equal([says], Compare(Piece, Piece.Replace(old, now, StringComparison.Ordinal)).Sentences.ToArray());

    [Fact]
    public void The_same_text_has_no_change() => Assert.Equal(("No change", 0, true), Compare(Piece, Piece) is var c ? (c.Summary, c.Changes.Length, c.SameMusic) : default);

    [Fact]
    public void An_inserted_bar_is_one_insertion()
    {
        var many = Piece + string.Concat(Enumerable.Range(0, 40).Select(i => $"\n| {"CDEFGAB"[i % 7]}7\n    1 {"CDEFGAB"[i % 7]}4   3 E4\n"));
        var comparison = Compare(many, many.Replace("| Am7\n", "| Em7\n    1 B4\n| Am7\n", StringComparison.Ordinal));
        Assert.Equal((2, "Opening", ChangeKind.Inserted), Assert.Single(comparison.Changes) is var c ? (c.Bar!.Value, c.Section!, c.Kind) : default);
        Assert.Equal("Opening, bar 2: put in (Em7)", comparison.Summary);
    }

    [Fact]
    public void A_bar_that_was_taken_out_is_named_by_its_old_number() =>
        Assert.Equal(["Opening, old bar 2: taken out (Am7)."], Compare(Piece, Piece.Replace("| Am7\n    top:  1 C5   2& A4\n", "", StringComparison.Ordinal)).Sentences.ToArray());

    [Fact]
    public void Bars_that_moved_are_found_again_and_told_together()
    {
        const string Moved = "| Am7\n    top:  1 C5   2& A4\n| Dm7\n    top:  1 F4   3 A4@2\n";
        var comparison = Compare(Piece, Piece.Replace(Moved, "", StringComparison.Ordinal) + "\n" + Moved);
        Assert.All(comparison.Changes, c => Assert.Equal(ChangeKind.Moved, c.Kind));
        Assert.Equal(2, comparison.Changes.Length);
        Assert.Equal(["Bridge, bars 5–6: moved here from bars 2–3."], comparison.Sentences.ToArray());
    }

    [Fact]
    public void Two_like_bars_that_changed_places_are_a_move_and_not_two_transpositions() =>
        Assert.Equal(["Bar 3: moved here from bar 2."], Compare("| C\n    1 C4\n| D\n    1 D4\n| E\n    1 E4\n", "| C\n    1 C4\n| E\n    1 E4\n| D\n    1 D4\n").Sentences.ToArray());

    [Fact]
    public void A_changed_shape_tells_the_bars_whose_text_is_unchanged()
    {
        var comparison = Compare(Piece, Piece.Replace("x-3-2-3-3-x", "x-3-2-3-5-x", StringComparison.Ordinal));
        Assert.Equal(["Bridge, bars 5–6: text unchanged, but shape low changed, so they sound different."], comparison.Sentences.ToArray());
        Assert.Equal("Shape low changed: 2 bars sound different, 1 bar with other notes",
            Compare(Piece + "\n| Cmaj7\n    1 D4\n", Piece.Replace("x-3-2-3-3-x", "x-3-2-3-5-x", StringComparison.Ordinal) + "\n| Cmaj7\n    1 E4   2 D4\n").Summary);
    }

    [Fact]
    public void A_bar_that_repeats_a_changed_one_is_told_too() =>
        Assert.Equal(["Bar 1: G4 became A4 on 3.", "Bar 2: text unchanged, but the bar that it repeats changed, so it sounds different."],
            Compare("| C\n    1 E4  3 G4\n| %\n", "| C\n    1 E4  3 A4\n| %\n").Sentences.ToArray());

    [Fact]
    public void Changes_of_several_kinds_are_counted_in_one_line()
    {
        var now = Piece.Replace("| G7", "| Db7", StringComparison.Ordinal).Replace("A4@2", "A4@3", StringComparison.Ordinal).Replace("| Am7\n", "| Em7\n    1 B4\n| Am7\n", StringComparison.Ordinal);
        var comparison = Compare(Piece, now);
        Assert.Equal("1 bar put in, 1 bar on other strings, 1 chord changed", comparison.Summary);
        Assert.True(comparison.Summary.Length <= 72);
        Assert.False(comparison.SameMusic);
    }

    [Fact]
    public void Every_sample_equals_itself_formatted_and_differs_from_nothing()
    {
        foreach (var path in Testing.Repository.Samples())
        {
            var text = SourceText.From(Testing.Repository.Bytes(path));
            Assert.True(PieceComparison.Of(Bind(text.Text), Bind(Formatter.Formatted(text).Text)).SameMusic, path);
            Assert.Empty(PieceComparison.Of(Bind(text.Text), Bind(text.Text)).Changes);
            Assert.All(PieceComparison.Of(Bind(""), Bind(text.Text)).Changes, c => Assert.NotEmpty(c.Text));
        }
    }

    private static Comparison Compare(string old, string now) => PieceComparison.Of(Bind(old), Bind(now));

    private static Arrangement.Music.Piece Bind(string text) => Binder.Bind(SyntaxTree.Parse(text));
}
