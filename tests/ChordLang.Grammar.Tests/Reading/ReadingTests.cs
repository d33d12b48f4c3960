// Octaves, chart sharing and runs: what is worked out where something was left out.
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Grammar.Tests.Reading;

public class ReadingTests
{
    [Theory]
    [InlineData("1 C4 2 D 3 B 4 A", "4 4 3 3")]
    [InlineData("1 C4 2 F# 3 C 4 Gb", "4 4 4 3")]
    [InlineData("1 C4+E+G+C 2 B", "4 4 4 5 3")]
    [InlineData("1 Cb4 2 B", "4 3")]
    [InlineData("1 B3 2 C", "3 4")]
    [InlineData("1 8@2 2 D4 grace C 3 E", "4 4 4")]
    [InlineData("1 D4 grace A5 2 E", "4 5 4")]
    [InlineData("1 G4 = G@2", "4 4")]
    public void An_octave_left_out_is_the_nearest(string text, string octaves)
    {
        var row = (RowLine)SyntaxTree.Parse(text).Lines[0];
        var reading = OctaveReading.Of(row);
        var pitches = row.Events.SelectMany(e => e.Sounds).SelectMany(p => Pitches(p.Sound).Concat(p.Marks.SelectMany(m => m.Operand is NotesOperand n ? Pitches(n.Notes) : [])));
        Assert.Equal(octaves, string.Join(' ', pitches.Select(p => reading[p])));
    }

    [Theory]
    [InlineData("| C", 4, "0")]
    [InlineData("| C D", 4, "0 2")]
    [InlineData("| C D E", 3, "0 1 2")]
    [InlineData("| C D E", 4, "- - -")]
    [InlineData("| C D", 3, "- -")]
    [InlineData("| C / / D", 4, "0 1 2 3")]
    [InlineData("| C / D", 4, "- - -")]
    [InlineData("| C / D", 3, "0 1 2")]
    [InlineData("| C 3 D", 4, "0 2")]
    [InlineData("| C D 3 E", 4, "0 1 2")]
    [InlineData("| 2& C 4 D", 4, "3/2 3")]
    public void Chords_share_the_bar(string text, int counts, string offsets)
    {
        var reading = ChartReading.Of(((ChartLine)SyntaxTree.Parse(text).Lines[0]).Bars[0], counts);
        Assert.Equal(offsets, string.Join(' ', reading.Offsets.Select(o => o?.ToString() ?? "-")));
        Assert.Equal(offsets.Contains('-'), reading.Blame is not null);
    }

    [Theory]
    [InlineData("1 to 4& C4 D E F G A B C", "0 1/2 1 3/2 2 5/2 3 7/2")]
    [InlineData("1 to 4 C4 D E F", "0 1 2 3")]
    [InlineData("1 to 2 C4 D E F", "0 1/3 2/3 1")]
    [InlineData("1 to 4& C4 D E F G A B", "-")]
    [InlineData("1 to 4& C4 D E F G A B C D", "-")]
    [InlineData("4 to 1 C4 D", "-")]
    [InlineData("1 to 2 C4", "-")]
    public void A_run_stands_evenly_or_does_not_fit(string text, string offsets)
    {
        var e = ((RowLine)SyntaxTree.Parse(text).Lines[0]).Events[0];
        Assert.Equal(offsets, RunReading.Offsets(e) is { } o ? string.Join(' ', o) : "-");
    }

    [Fact]
    public void What_would_fit_a_run_is_told()
    {
        var e = ((RowLine)SyntaxTree.Parse("1 to 4& C4 D E").Lines[0]).Events[0];
        Assert.Equal("8 15 22 29", string.Join(' ', RunReading.Fitting(e)));
    }

    private static IEnumerable<PitchSyntax> Pitches(SoundSyntax sound) => sound switch
    {
        NotesSound notes => notes.Notes.Where(n => n.Pitch is not null).Select(n => n.Pitch!),
        EqualSound equal => Pitches(equal.Left).Concat(Pitches(equal.Right)),
        _ => [],
    };
}
