// The sheet of a text that is being written: drawn from what is known, it is what a fresh drawing would be.
using System.Globalization;
using System.Text.RegularExpressions;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Interchange.Sheet;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.Sheet;

public sealed partial class LiveSheetTests
{
    private const int Edits = 24;

    public static TheoryData<string> Names => [.. Drawn.Samples];

    [Theory]
    [MemberData(nameof(Names))]
    public void After_any_edit_it_is_what_a_fresh_drawing_would_be(string sample)
    {
        var dice = new Dice(sample.Length * 31 + sample[^5]);
        var text = File.ReadAllText(Repository.At(sample));
        LiveSheet? before = null;
        for (var i = 0; i < Edits; i++)
        {
            var music = Drawn.Text(text);
            var options = Options(music.Piece, i / 6);
            var live = LiveSheet.Of(music.Piece, music.Placed, options, before);
            Same(LiveSheet.Of(music.Piece, music.Placed, options), live);
            Same(music.Piece, music.Placed, options, live);
            before = live;
            text = Edited(text, dice);
        }
    }

    [Fact]
    public void A_bar_that_changes_costs_the_drawing_of_its_line_alone()
    {
        string Text(string note) => "key C major\n\n" + string.Concat(Enumerable.Range(0, 40).Select(i => $"{(i % 4 == 0 ? $"section S{i}\n\n" : "")}| C\n    1 C4  2 {(i == 21 ? note : "E4")}  3 G4\n\n"));
        var (one, other) = (Drawn.Text(Text("E4")), Drawn.Text("// a line more\n" + Text("F4")));
        var before = LiveSheet.Of(one.Piece, one.Placed, new());
        var after = LiveSheet.Of(other.Piece, other.Placed, new(), before);
        Assert.Equal(10, before.Redrawn);
        Assert.Equal(1, after.Redrawn);
        var lines = after.Parts.Where(p => p.Line is not null).ToList();
        Assert.Equal(9, lines.Count(l => before.Parts.Any(b => b.Id == l.Id)));
        Assert.Equal("| C", other.Piece.Tree.Source.Text[lines[5].Line!.From..].Split('\n')[0]);
    }

    // What reaches over the end of a line: the bar that changes stands on the other side of it.
    [Theory]
    [InlineData("4 G4", "1 C4", "4 G4", "1 tied")]
    [InlineData("4 C4@2", "1 D4@2 slide", "4 C4@3", "1 D4@2 slide")]
    [InlineData("4 C4@2", "1 D4@2 hammer", "4 rest", "1 D4@2 hammer")]
    [InlineData("4 C4@2 ring over", "1 D4@3", "4 C4@2", "1 D4@3")]
    [InlineData("4 G4", "1 tied", "4 A4", "1 tied")]
    public void What_reaches_over_the_end_of_a_line_is_drawn_on_both_sides(string last, string first, string lastThen, string firstThen)
    {
        string Text(string end, string begin) => $"key C major\n\nsection One\n\n| C\n    1 C4  {end}\n\nsection Two\n\n| C\n    {begin}  2 E4\n\n| F\n    1 F4\n";
        var (one, other) = (Drawn.Text(Text(last, first)), Drawn.Text(Text(lastThen, firstThen)));
        var live = LiveSheet.Of(other.Piece, other.Placed, new(), LiveSheet.Of(one.Piece, one.Placed, new()));
        Same(LiveSheet.Of(other.Piece, other.Placed, new()), live);
    }

    [Fact]
    public void It_holds_the_words_of_the_page_to_hand_out_in_their_places()
    {
        var (piece, placed) = Drawn.Text("title <b>\nby A & B\nkey C major\n> First *of all*.\n\nsection One\n> Of this part.\n\n| C\n    1 C4\n> Under it.\n\n| F\n    1 F4\n\nsection Two\n\n| G\n    1 G4\n\nsection One again\n");
        var options = new SheetOptions { Sound = true };
        var page = SheetPage.Html(piece, placed, options);
        var at = 0;
        foreach (var part in LiveSheet.Of(piece, placed, options).Parts)
        {
            var words = part.Line is { } line ? line.Margin : part.Html;
            at = page.IndexOf(words, at, StringComparison.Ordinal);
            Assert.True(at > 0, $"not on the page, or not there: {words}");
            at += words.Length;
        }
        Assert.Equal("</main>", page[at..].TrimStart()[..7]);
    }

    private static SheetOptions Options(Piece piece, int which) => new()
    {
        Large = which == 1,
        Diagrams = which == 3 ? Diagrams.Every : Diagrams.First,
        UnderChords = which < 2 ? new Dictionary<int, string>() : piece.Bars.SelectMany(b => b.Chords).Where((_, i) => i % 3 == 0).DistinctBy(c => c.Span.Start).ToDictionary(c => c.Span.Start, _ => "V7"),
        Skeleton = which < 2 ? new HashSet<int>() : piece.Bars.SelectMany(b => b.Chords).Where((_, i) => i % 2 == 0).Select(c => c.Span.Start).ToHashSet(),
    };

    private static void Same(LiveSheet wanted, LiveSheet live)
    {
        Assert.Equal((wanted.Signs, wanted.Style), (live.Signs, live.Style));
        Assert.Equal(wanted.Parts.Select(Told), live.Parts.Select(Told));

        static string Told(LivePart p) => p.Line is { } l ? $"{p.Id} {l.Name} {l.From} {l.To} {l.Svg} {string.Join(' ', l.Spoken)} {l.Margin}" : $"{p.Id} {p.Html}";
    }

    private static void Same(Piece piece, PlacedPiece placed, SheetOptions options, LiveSheet live)
    {
        var systems = SheetWriter.Systems(piece, placed, options);
        Assert.Equal(systems.Select(s => $"{s.From} {s.To} {Place().Replace(s.Svg, m => $"\"{int.Parse(m.Groups[1].ValueSpan, CultureInfo.InvariantCulture) - s.From}\"")} {string.Join(' ', s.Spoken)}"),
            live.Parts.Where(p => p.Line is not null).Select(p => $"{p.Line!.From} {p.Line.To} {p.Line.Svg} {string.Join(' ', p.Line.Spoken)}"));
    }

    // What happens to a text while it is written: a line goes, comes twice or is moved, a word is another, a sign more or less.
    private static string Edited(string text, Dice dice)
    {
        var lines = text.Split('\n').ToList();
        var at = dice.Next(lines.Count);
        switch (dice.Next(6))
        {
            case 0: lines.RemoveAt(at); break;
            case 1: lines.Insert(at, lines[dice.Next(lines.Count)]); break;
            case 2: lines.Insert(at, ((string[])["key Eb major", "meter 3/4", "| %", "capo 2", "section More", "> A word.", "repeat 2", "tempo 90", "naming strict", "| Am7 | D7"])[dice.Next(10)]); break;
            case 3: lines[at] = Word().Replace(lines[at], m => dice.Next(3) == 0 ? ((string[])["F#4", "ring", "C7b9", "3&", "tied", "x-3-2-0-1-0", "accent"])[dice.Next(7)] : m.Value); break;
            case 4: lines[at] = lines[at].Length == 0 ? "| C" : lines[at].Remove(dice.Next(lines[at].Length), 1); break;
            default: lines[at] = lines[at].Insert(dice.Next(lines[at].Length + 1), ((string[])["#", " ", "b", "7", "-", "&", "x"])[dice.Next(7)]); break;
        }
        return string.Join('\n', lines);
    }

    [GeneratedRegex("(?<=data-(?:from|to)=)\"(\\d+)\"")]
    private static partial Regex Place();

    [GeneratedRegex("\\S+")]
    private static partial Regex Word();
}
