// Tablature as people type it, and our own read back.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Scores;
using ChordLang.Interchange.TabText;
using ChordLang.Interchange.Tests.Scores;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.TabText;

public sealed class TabReaderTests
{
    public static TheoryData<string> Samples => [.. Repository.Samples("valid")];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Onsets_strings_and_frets_of_our_own_come_back(string sample)
    {
        var piece = Sample.Bind(sample);
        if (piece.Events.IsEmpty)
            return;
        var text = TabWriter.Write(piece, PlacedPiece.Of(piece, Hand.Medium));
        var back = Binder.Bind(SyntaxTree.Parse(LessonWriter.Write(TabReader.Read(text).Score)));
        var (wanted, got) = (Carried.Places(piece), Carried.Places(back));
        Assert.True(wanted.SequenceEqual(got), $"missing:\n{string.Join('\n', wanted.Except(got).Take(8))}\ninvented:\n{string.Join('\n', got.Except(wanted).Take(8))}\n{text}");
    }

    [Fact]
    public void Uneven_lines_letters_and_no_counts()
    {
        var (score, losses) = Read("""
            Am7            D7
            e---------------|------5h7p5---|
            B---5---8-------|--7-----------|
            G|--5-----5-----|--5---------x-|
            D-5-------------|4-----------|
            A---------------|-5------------|
            E5--------------|--------/3~~--|
            """);
        Assert.Equal(2, score.Bars.Length);
        Assert.Equal(["Am7", "D7"], score.Bars.SelectMany(b => b.Chords).Select(c => c.Symbol));
        var marks = score.Bars[1].Voices.SelectMany(v => v.Events).SelectMany(e => e.Marks).Select(m => m.Word).ToList();
        Assert.Contains("hammer", marks);
        Assert.Contains("pull", marks);
        Assert.Contains("slide", marks);
        Assert.Contains("vibrato", marks);
        Assert.Contains("dead", marks);
        Assert.Equal([1, 2], losses.Where(l => l.Bar is not null).Select(l => l.Bar!.Value));
        Assert.Contains("rhythm is guessed", losses.First(l => l.Bar == 1).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_bar_lines_the_line_is_cut_and_that_is_told()
    {
        var (score, losses) = Read("""
            e -0-1-3-5-3-1-0-3-1-0---
            B -----------------------
            G -----------------------
            D -----------------------
            A -----------------------
            E -----------------------
            """);
        Assert.Equal(2, score.Bars.Length);
        Assert.Contains("no bar line is written", losses.First(l => l.Bar == 1).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_tuning_is_read_from_its_labels()
    {
        var (score, _) = Read("E|-0--|\nB|-0--|\nG|-2--|\nD|-2--|\nA|-0--|\nD|-0--|\n");
        Assert.Equal("D2 A2 D3 G3 B3 E4", score.Tuning.ToString());
        Assert.Equal("| \n    1 0-0-2-2-0-0\n".Trim().Split('\n')[1].Trim(), LessonWriter.Write(score).Split('\n').First(l => l.Contains("0-0-2", StringComparison.Ordinal)).Trim());
    }

    [Fact]
    public void One_finding_a_bar_at_most()
    {
        var (_, losses) = Read("e|-0-^--t3-\nB|-1----\nG|-----r---------\nD|---|\n\n");
        Assert.All(losses.Where(l => l.Bar is not null).GroupBy(l => l.Bar), g => Assert.Single(g));
    }

    private static Imported Read(string text) => TabReader.Read(text);
}
