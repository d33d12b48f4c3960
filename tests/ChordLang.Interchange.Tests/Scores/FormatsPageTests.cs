// The page that says what each format carries is measured on the samples, not written by hand.
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Midi;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.Scores;
using ChordLang.Interchange.TabText;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.Scores;

public sealed class FormatsPageTests
{
    private const string Page = "server/ChordLang.Interchange/FORMATS.md", Table = "| what | of it in the samples | MusicXML | MIDI | tab text |\n|---|---|---|---|---|\n";

    private const string Places = "its string and fret";

    [Fact]
    public void The_table_is_what_comes_back()
    {
        var page = Repository.Text(Page).Replace("\r\n", "\n", StringComparison.Ordinal);
        var at = page.IndexOf(Table, StringComparison.Ordinal) + Table.Length;
        Assert.True(at >= Table.Length, $"{Page} has no table");
        var end = page.IndexOf("\n\n", at - 1, StringComparison.Ordinal) + 1;
        var wanted = page[..at] + Measured() + page[end..];
        if (Environment.GetEnvironmentVariable("CHORDLANG_UPDATE") == "1")
            File.WriteAllText(Repository.At(Page), wanted);
        Assert.True(wanted == page || Environment.GetEnvironmentVariable("CHORDLANG_UPDATE") == "1", $"{Page} is not what comes back of the samples; write it with: {Snapshots.UpdateCommand}\n{Measured()}");
    }

    private static string Measured()
    {
        var pieces = Repository.Samples("valid").Select(Sample.Bind).Where(p => !p.Bars.IsEmpty).ToList();
        // A MIDI file holds what is played: it is measured on the pieces that are played as they are written.
        var plain = pieces.Where(p => p.PlayOrder.SequenceEqual(Enumerable.Range(0, p.Bars.Length))).ToList();
        var played = pieces.Where(p => p.Events.Any(e => e.Kind == EventKind.Struck)).ToList();
        var columns = new[]
        {
            Compare(pieces, p => ScoreReader.Read(Encoding.UTF8.GetBytes(ScoreWriter.Write(p, PlacedPiece.Of(p, Hand.Medium)))).Score),
            Compare(plain, p => MidiReader.Read(MidiWriter.Write(p)).Score),
            Compare(played, p => TabReader.Read(TabWriter.Write(p, PlacedPiece.Of(p, Hand.Medium))).Score),
        };
        // A MIDI file has no strings: where a note agrees by chance, the placement chose the same.
        columns[1][Places] = (0, columns[1][Places].All);
        var table = new StringBuilder();
        foreach (var what in columns[0].Keys)
            table.Append($"| {what} | {columns[0][what].All} | {string.Join(" | ", columns.Select(c => Share(c.GetValueOrDefault(what))))} |\n");
        return table.ToString();
    }

    private static string Share((int Back, int All) count) => count.All == 0 ? "–" : count.Back == count.All ? "all" : count.Back == 0 ? "none" : $"{100.0 * count.Back / count.All:0} %";

    private static Dictionary<string, (int Back, int All)> Compare(List<Piece> pieces, Func<Piece, Score> through)
    {
        var counts = new Dictionary<string, (int Back, int All)>();
        foreach (var piece in pieces)
        {
            var back = Carried.Facts(Binder.Bind(SyntaxTree.Parse(LessonWriter.Write(through(piece)))));
            foreach (var (what, facts) in Carried.Facts(piece))
            {
                var left = back[what].GroupBy(f => f).ToDictionary(g => g.Key, g => g.Count());
                var found = facts.Count(f => left.TryGetValue(f, out var n) && n > 0 && (left[f] = n - 1) >= 0);
                var (b, a) = counts.GetValueOrDefault(what);
                counts[what] = (b + found, a + facts.Count);
            }
        }
        return counts;
    }
}
