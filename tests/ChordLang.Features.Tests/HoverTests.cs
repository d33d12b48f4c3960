// Hovers, by short texts with a cursor: the first sentence says what stands there.
using ChordLang.Features.Hovers;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Testing;

namespace ChordLang.Features.Tests;

public sealed class HoverTests
{
    private const string Head = "key C major\nshape low-drop = 1-x-1-1-1-x\nsection A\n";

    [Theory]
    // Tones and degrees by common practice; Dm7 is the related two of G7 in C.
    [InlineData("| D¦m7 | G7", "Dm7 has the tones D, the root, F, the minor third, A, the fifth and C, the minor seventh.", "In C major it is ii7, a preparation of a dominant.", "Dm7 prepares G7: it is the related two, a fifth above.")]
    [InlineData("| ¦Cmajq7", "Cmajq7 is no chord symbol that can be read.")]
    [InlineData("¦| Cmaj7 3 A7", "Bar 1, the first bar of section A: Cmaj7, then A7.", "It has four counts of 4/4 in C major.")]
    [InlineData("| Cmaj7 ¦3 A7", "Say \"three\": there the chord behind it begins, on count 3 of bar 1.")]
    [InlineData("| C | ¦%", "This bar plays bar 1 again: C.")]
    // Fret 3 of the A string is C3, fret 5 of the D string G3: equal temperament from the open strings of standard tuning.
    [InlineData("| Cmaj7\n    1 x-¦3-5-4-5-x", "Fret 3 on string 5 sounds C3, the root of Cmaj7.", "x-3-5-4-5-x sounds C3, G3, B3 and E4: root, fifth, major seventh and major third of Cmaj7.", "A drop-2 voicing, root lowest.")]
    [InlineData("| Cmaj7\n    1 ¦x-3-5-4-5-x", "x-3-5-4-5-x sounds C3, G3, B3 and E4")]
    [InlineData("| Cmaj7\n    1 E¦4@1", "Open string 1 sounds E4, the major third of Cmaj7.", "In C major it is degree 3.")]
    [InlineData("| Cmaj7\n    1 E4   ¦2& G4", "Say \"two and\": there the sound behind it is struck, on half a count behind count 2 of bar 1.", "The whole bar is counted: 1 and 2 and 3 and 4 and.")]
    [InlineData("| Cmaj7\n    1 r¦est", "This voice rests for four counts.")]
    [InlineData("| Cmaj7\n    1 E4 ri¦ng", "Let it ring to the end of the bar.")]
    [InlineData("| Cmaj7\n    to¦p: 1 E4", "This row is the voice top; it plays in 1 bar of the piece.")]
    [InlineData("| Cmaj7\n    1 low-¦drop at 8", "low-drop at 8 sounds C3, ")]
    // Shells of a two-five: the seventh of the first falls to the third of the second, its third stays (common practice).
    [InlineData("| Dm7 3 G7\n    1 ¦10-x-10-10-x-x   3 x-10-9-10-x-x", "", "A shell voicing, root lowest.", "To the next: F4 stays; the outer voices go in oblique motion; from the lowest voice up: up 5 semitones, down a semitone, stays.")]
    // A diminished seventh comes round every three frets (common practice).
    [InlineData("| Bdim7\n    1 x-x-¦0-1-0-1", "", "Moved 3 frets it stays in its family")]
    public void A_place_is_explained(string marked, string first, params string[] more)
    {
        var hover = Of(Head + marked + "\n")!;
        Assert.StartsWith(first, hover.First, StringComparison.Ordinal);
        Assert.All(more, m => Assert.Contains(hover.More.Prepend(hover.First), line => line.Contains(m, StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("k¦ey Eb major\n", "The key is Eb major, with 3 flats.")]
    [InlineData("meter ¦6/8\n", "Each bar has 6 counts, and each count is an eighth note.")]
    [InlineData("shape l¦ow-drop = 1-x-1-1-1-x\n", "low-drop is the grip 1-x-1-1-1-x, which sounds Fm7 where it is written.")]
    [InlineData("section ¦A\n| C | F\n", "Section A holds 2 bars, from bar 1 to bar 2.")]
    [InlineData("repeat¦ 2\n| C\nend\n", "What follows, up to the word end, is played twice.")]
    [InlineData("// allow name-fret-¦slip: on purpose\n| C\n", "Here the check name-fret-slip is silenced")]
    public void Lines_of_other_kinds_are_explained(string marked, string first) =>
        Assert.StartsWith(first, Of(marked)!.First, StringComparison.Ordinal);

    [Fact]
    public void A_grip_is_drawn_with_its_degrees()
    {
        // Degrees of Cmaj7 on standard tuning: C3 G3 B3 E4.
        var hover = Of("| Cmaj7\n    1 ¦x-3-5-4-5-x\n")!;
        Assert.Equal(
            """
            fret       3     4     5     6
            1 x     |-----|-----|-----|-----|
            2       |-----|-----|-(3)-|-----|  E4
            3       |-----|-(7)-|-----|-----|  B3
            4       |-----|-----|-(5)-|-----|  G3
            5       |-(R)-|-----|-----|-----|  C3
            6 x     |-----|-----|-----|-----|
            """, hover.Diagram?.Signs());
    }

    [Theory]
    [InlineData("| Cmaj7\n    1 ¦x-3-5-4-5-x\n")]
    [InlineData("| Am7\n    1 ¦x-0-2-0-1-0\n")]
    [InlineData("strings B0 E1 A1 D2 G2 C3 F3 A3 D4\n| N.C.\n    1 ¦x-x-x-x-3-3-3-3-x\n")]
    public void A_picture_of_a_grip_holds_its_degrees_and_stays_low(string marked)
    {
        var grip = Of(marked)!.Diagram!;
        var svg = System.Xml.Linq.XDocument.Parse(FretPicture.Svg(grip)).Root!;
        var words = svg.Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value).ToList();
        Assert.All(grip.Degrees.Where(d => d.Length > 0), d => Assert.Contains(d, words));
        Assert.All(grip.Pitches.OfType<Theory.Pitches.Pitch>(), p => Assert.Contains($"{p}", words));
        Assert.InRange(double.Parse(svg.Attribute("height")!.Value), 60, FretPicture.Highest);
        // An opaque ground lies under all else, as themes are dark or light.
        Assert.Equal("#fffdf7", svg.Elements().First().Attribute("fill")!.Value);
        Assert.Equal("100%", svg.Elements().First().Attribute("width")!.Value);
    }

    [Fact]
    public void A_picture_stands_behind_the_first_sentence_for_those_who_ask()
    {
        var hover = Of("| Cmaj7\n    1 ¦x-3-5-4-5-x\n")!;
        var parts = hover.Markdown(true).Split("\n\n");
        Assert.StartsWith("![The grip x-3-5-4-5-x](data:image/svg+xml;base64,", parts[1], StringComparison.Ordinal);
        Assert.DoesNotContain("```", hover.Markdown(true), StringComparison.Ordinal);
        Assert.DoesNotContain("data:", hover.Markdown(), StringComparison.Ordinal);
    }

    private static HoverText? Of(string marked)
    {
        var (text, cursor) = Snippet.AtCursor(marked);
        return HoverAt.Of(new Lesson(SyntaxTree.Parse(text)), cursor);
    }
}
