// Tablature text holds what the model holds: every struck note on its string, in its column, over its count.
using System.Text.RegularExpressions;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.TabText;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.TabText;

public sealed partial class TabWriterTests
{
    public static TheoryData<string, int> Samples
    {
        get
        {
            var data = new TheoryData<string, int>();
            foreach (var sample in Repository.Samples("valid"))
                foreach (var width in (int[])[40, 78, 1000])
                    data.Add(sample, width);
            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Every_note_is_read_back_from_its_column(string sample, int width)
    {
        var piece = Sample.Bind(sample);
        var placed = PlacedPiece.Of(piece, Hand.Medium);
        var read = Read(TabWriter.Write(piece, placed, width));
        Assert.Equal(piece.Bars.Length, read.Count);
        foreach (var bar in piece.Bars)
        {
            var wanted = placed.Events.Where(e => e.Event.Bar == bar.Index).GroupBy(e => e.Event.Onset).OrderBy(g => g.Key)
                .Select(g => string.Join(' ', g.SelectMany(e => e.Notes).Select(n => $"{n.String}:{n.Fret}").Order(StringComparer.Ordinal))).ToList();
            Assert.Equal(wanted, read[bar.Index]);
        }
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void No_line_is_wider_than_asked_but_for_a_single_bar(string sample, int width)
    {
        var piece = Sample.Bind(sample);
        foreach (var line in TabWriter.Write(piece, PlacedPiece.Of(piece, Hand.Medium), width).Split('\n'))
            Assert.True(line.Length <= width || line.Count(c => c == '|') <= 2, line);
    }

    [Fact]
    public void It_looks_as_players_paste_it() => Assert.Equal("""
        Two Bars

        4/4
           Gmaj7                     E7b9
        e|-------5--h7-8-----------|---------------|
        B|-3-----------------------|---------------|
        G|-4-----------------------|-7----x--<12>--|
        D|-4-----------------------|-6-------------|
        A|-------------------------|-7-------------|
        E|-3-----------------------|---------------|
           1     2  &  3             1    2  3

        """, Written("title Two Bars\n\n| Gmaj7\n    1 3-x-4-4-3-x   2 5@1   2& 7@1 hammer   3 8@1\n| E7b9\n    1 x-7-6-7-x-x   2 5@3 dead   3 12@3 harmonic\n"));

    // The stroke of a slide rises to a higher fret and falls to a lower one, also over a bar line and from a place that is only said (common practice).
    [Fact]
    public void The_stroke_of_a_slide_goes_the_way_of_the_sound()
    {
        var top = Written("| C\n    1 8@1   2 10@1 slide   3 7@1 slide   4 5@1\n| C\n    1 3@1 slide   2 8@1 slide from above   3 8@1 slide from below   4 8@1 slide from 12@1\n")
            .Split('\n').First(l => l.StartsWith("e|", StringComparison.Ordinal));
        Assert.Equal(["8", "/10", "\\7", "5", "\\3", "\\8", "/8", "\\8"], top[2..].Split('|').SelectMany(b => b.Split('-', StringSplitOptions.RemoveEmptyEntries)));
    }

    // Whoever has only the tablature must know what is played twice, and which ending when (common practice: a repeat with two endings).
    [Fact]
    public void The_order_of_the_bars_is_said_where_it_is_not_theirs()
    {
        const string bars = "| C\n    1 3@5\n";
        Assert.StartsWith("Play bars 1 to 3, 2, 4 to 5.\n", Written($"{bars}repeat 2\n{bars}ending 1\n{bars}ending 2\n{bars}end\n{bars}"), StringComparison.Ordinal);
        Assert.DoesNotContain("Play", Written(bars + bars), StringComparison.Ordinal);
        Assert.Null(TabReader.Read(Written($"repeat 2\n{bars}end\n")).Score.Title);
    }

    private static string Written(string text)
    {
        var piece = Binder.Bind(SyntaxTree.Parse(text));
        return TabWriter.Write(piece, PlacedPiece.Of(piece, Hand.Medium));
    }

    // A reader of its own: systems of string lines, bars between bar lines, columns by where a number begins.
    private static List<List<string>> Read(string text)
    {
        var bars = new List<List<string>>();
        var system = new List<string>();
        foreach (var line in text.Split('\n').Append(""))
            if (StringLine().IsMatch(line))
                system.Add(line[(line.IndexOf('|', StringComparison.Ordinal) + 1)..]);
            else if (system.Count > 0)
            {
                var cut = system.Select(s => s.Split('|')[..^1]).ToList();
                for (var b = 0; b < cut[0].Length; b++)
                {
                    var columns = new SortedDictionary<int, List<string>>();
                    for (var s = 0; s < cut.Count; s++)
                        foreach (var m in Sound().Matches(cut[s][b]).Where(m => m.Groups["fret"].Success))
                        {
                            if (!columns.TryGetValue(m.Index, out var notes))
                                columns[m.Index] = notes = [];
                            notes.Add($"{s + 1}:{m.Groups["fret"].Value}");
                        }
                    bars.Add([.. columns.Values.Select(n => string.Join(' ', n.Order(StringComparer.Ordinal)))]);
                }
                system.Clear();
            }
        return bars;
    }

    [GeneratedRegex("^[A-Ga-g][b#]? *\\|-")]
    private static partial Regex StringLine();

    [GeneratedRegex("[hp/]?<?(?<fret>[0-9]+)>?(b[0-9]+)?~?|x")]
    private static partial Regex Sound();
}
