// Which bar is likely the harder: planted pairs, and that nothing that makes a bar harder lowers its score.
using ChordLang.Checks.Practice;
using ChordLang.Checks.Tests.Catalogue;
using CsCheck;

namespace ChordLang.Checks.Tests.Practice;

public sealed class PracticeTests
{
    public static TheoryData<string> Names => [.. PracticePairs.All.Select(p => p.Name)];

    [Fact]
    public void There_are_twenty_pairs() => Assert.Equal((20, 20), (PracticePairs.All.Length, PracticePairs.All.Select(p => p.Name).Distinct().Count()));

    [Theory, MemberData(nameof(Names))]
    public void The_harder_bar_comes_first_wherever_it_stands(string name)
    {
        var pair = PracticePairs.All.Single(p => p.Name == name);
        // A bar of silence between, so that neither bar is the way into the other.
        string Text(string one, string other) => $"{pair.Head}\n| N.C.\n    {one}\n\n| N.C.\n    1 rest\n\n| N.C.\n    {other}\n";
        Assert.Equal(1, Spots(Text(pair.Harder, pair.Easier))[0].Bars[0]);
        Assert.Equal(3, Spots(Text(pair.Easier, pair.Harder))[0].Bars[0]);
        Assert.True(Score(pair.Head + Bar(pair.Harder)) > Score(pair.Head + Bar(pair.Easier)));
    }

    [Fact]
    public void Faster_never_lowers_a_score() =>
        (from rows in Rows
         from tempo in Gen.Int[30, 200]
         from more in Gen.Int[1, 60]
         select (rows, tempo, more)).Sample(x => Score($"tempo {x.tempo + x.more}\n" + Bar(x.rows)) >= Score($"tempo {x.tempo}\n" + Bar(x.rows)), iter: 400);

    // The grip's highest fretted note goes up a fret, all else stays; the line beside it keeps to two strings of its own.
    [Fact]
    public void Wider_never_lowers_a_score() =>
        (from grip in Gen.Select(Gen.Int[-1, 7].Array[4], Gen.Int[1, 8], (slots, low) => slots.Select(s => s < 0 ? -1 : s > 4 ? low : low + s).ToArray())
         from line in Line
         select (grip, line)).Sample(x =>
        {
            if (x.grip.Count(f => f > 0) < 2)
                return true; // a single note is not wide wherever it lies
            var top = Array.LastIndexOf(x.grip, x.grip.Max());
            var wider = x.grip.Select((f, i) => i == top && f >= 0 ? f + 1 : f).ToArray();
            return Score(Bar(Both(wider, x.line))) >= Score(Bar(Both(x.grip, x.line)));
        }, iter: 600);

    [Fact]
    public void Longer_held_never_lowers_a_score() =>
        (from fret in Gen.Int[0, 12]
         from line in Line
         from until in Gen.Int[2, 4]
         select (fret, line, until)).Sample(x =>
        {
            string Held(string ring) => Bar($"top: 1 {x.fret}@5 {ring}\n    low: {x.line}");
            var (none, some, all) = (Score(Held("")), Score(Held($"ring until {x.until}")), Score(Held("ring")));
            return none <= some && some <= all;
        }, iter: 400);

    [Fact]
    public void Every_number_is_in_the_reasons_and_bars_alike_share_a_spot()
    {
        var spots = Spots("tempo 100\n\n| N.C.\n    top: 1 8@1 ring\n    low: 1& 7@4   2& 12@4\n\n| %\n\n| N.C.\n    1 0@1\n");
        Assert.Equal([1, 2], spots[0].Bars.Select(b => b));
        Assert.Equal(["changes", "holds", "shift", "stretch", "tempo"], spots[0].Reasons.Select(r => r.Split(':')[0].Split(' ')[^1]).Order());
        Assert.Equal(spots[0].Score, spots[0].Shares.Sum(s => s.Score), 9);
        Assert.Equal(spots.OrderByDescending(s => s.Score).Select(s => s.Score), spots.Select(s => s.Score));
    }

    // Nobody should train what no hand holds (common practice: stop when it hurts).
    [Fact]
    public void What_no_fingering_reaches_is_to_be_changed_not_trained()
    {
        Assert.StartsWith("No fingering reaches what is held on count 3. Do not train it", Spots("| N.C.\n    top: 1 3@1   3 11@1\n    low: 1 x-3-x-3-4-x   3 3@6\n")[0].Hint, StringComparison.Ordinal);
        Assert.DoesNotContain("No fingering", Spots("| N.C.\n    1 x-3-5-4-5-x\n")[0].Hint, StringComparison.Ordinal);
    }

    // A barre at ease, then a line far above it: the way there is the work, not the barre.
    [Fact]
    public void A_grip_at_ease_is_no_stretch_to_train()
    {
        var spot = Spots("tempo 112\n| N.C.\n    top: 1 4@1   2 8@1   3 7@1   4 4@1\n    low: 1 1-x-1-1-1-x   3 0-5-6-x-x-x\n")[0];
        Assert.True(spot.Numbers.Span <= spot.Numbers.AtEase);
        Assert.DoesNotContain("outer fingers", spot.Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void Notes_without_strings_are_placed_first() => Assert.NotEmpty(Spots("| N.C.\n    1 Eb4   2 F4   3 G4\n"));

    [Fact]
    public void Nothing_played_gives_no_spots() => Assert.Empty(Spots("| Cmaj7\n"));

    [Fact]
    public void No_weight_rewards() => Assert.All(PracticeTerm.Table, t => Assert.True(t.Weight >= 0));

    private static readonly Gen<string> Line = Gen.Select(Gen.Int[0, 12], Gen.Int[1, 2], (fret, s) => $"{fret}@{s}").Array[3].Select(n => $"2 {n[0]}   3 {n[1]}   4 {n[2]}");

    private static readonly Gen<string> Rows = Gen.Select(Gen.Int[0, 14], Gen.Int[1, 6], (fret, s) => $"{fret}@{s}").Array[4].Select(n => $"1 {n[0]} ring   2 {n[1]}   3 {n[2]}   4 {n[3]}");

    private static string Both(int[] grip, string line) =>
        grip.All(f => f < 0) ? $"top: {line}" : $"top: {line}\n    low: 1 {string.Join('-', grip.Select(f => f < 0 ? "x" : $"{f}"))}-x-x";

    private static string Bar(string rows) => $"\n| N.C.\n    {rows}\n";

    private static double Score(string text) => Assert.Single(Spots(text)).Score;

    private static System.Collections.Immutable.ImmutableArray<PracticeSpot> Spots(string text) => PracticeSpots.Of(Checked.Bind(text));
}
