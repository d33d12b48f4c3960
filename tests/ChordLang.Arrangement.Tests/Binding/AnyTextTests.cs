// What holds for every text: binding never fails, events of a row do not overlap, and formatting keeps the music.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
using CsCheck;

namespace ChordLang.Arrangement.Tests.Binding;

public class AnyTextTests
{
    private static readonly string[] Words =
    [
        "|", "| C", "| Am7 D7", "| Am7 / / D7b9", "| %", "| N.C.", "| C | F | %", "| 3 G7 5 C", "    ", "    top: ", "    low: ", "1 ", "2& ", "3trip ", "4a ", "1 to 3& ", "7 ", "3+2/5 ",
        "C4 ", "Eb4+G ", "x-3-5-4-5-x ", "x35453 ", "8@2 ", "40@9 ", "G4@2 ", "C4 = 1@2 ", "C4+E4 = x-x-x-5-5-5 ", "low-drop+7 ", "low-drop at 3 ", "rest ", "tied ", "again ", "ring ",
        "ring over ", "ring until 2& ", "ring@1 ", "dead ", "harmonic ", "grace D4 ", "bend full ", "is C13 ", "fingers x-1-2-3-4-x ", "finger 3 ", "shape low-drop = 1-x-1-1-1-x", "use \"a.chl\"",
        "meter 3/4", "meter 7/8", "meter 31/16", "key G major", "key 2 flats", "capo 3", "capo 24", "frets 1", "strings D2 A2 D3 G3", "strings B1 E2 A2 D3 G3 B3 E4", "section A", "section A again",
        "repeat 2", "repeat 99", "ending 1", "ending 2", "end", "pickup from 4&", "segno", "coda", "to coda", "fine", "da capo al fine", "dal segno al coda", "da capo", "> words", "// allow fret-slots: why",
        "expect only shapes low-drop", "\n", "\n", "\n", "\n", "\n",
    ];

    internal static readonly Gen<string> Text = Gen.Select(Gen.Int[0, Words.Length - 1].Select(i => Words[i]).Array[0, 60], Gen.Char[' ', 'z'].Array[0, 3], (w, noise) => string.Concat(w).Insert(0, new string(noise)));

    [Fact]
    public void Any_text_binds_and_the_events_of_a_row_do_not_overlap() => Text.Sample(text =>
    {
        var piece = Dump.Bind(text);
        foreach (var bar in piece.Bars)
            foreach (var row in bar.Rows)
                for (var i = 0; i < row.Events.Length; i++)
                {
                    var e = row.Events[i];
                    Assert.True(e.Onset >= bar.Start && e.End <= bar.End && e.Onset <= e.End, text);
                    Assert.True(e.Kind == EventKind.Unbound || e.Onset < e.End, text);
                    if (i + 1 < row.Events.Length && row.Events[i + 1].Kind != EventKind.Unbound)
                        Assert.True(e.End <= row.Events[i + 1].Onset, text);
                }
        Holds(piece, text);
    }, iter: 3000);

    [Fact]
    public void Any_characters_bind() => Gen.String.Sample(text => Holds(Dump.Bind(text), text), iter: 500);

    [Fact]
    public void Formatting_keeps_the_music() => Text.Sample(text =>
    {
        var tree = SyntaxTree.Parse(text);
        if (tree.Lines.Any(l => l.Findings.Length > 0))
            return;
        var formatted = Formatter.Formatted(tree.Source).Text;
        Assert.Equal(Dump.Print(Dump.Bind(text)), Dump.Print(Dump.Bind(formatted)));
    }, iter: 3000);

    private static void Holds(Piece piece, string text)
    {
        for (var i = 1; i < piece.Bars.Length; i++)
            Assert.True(piece.Bars[i].Start == piece.Bars[i - 1].End, text);
        foreach (var bar in piece.Bars)
            for (var i = 0; i < bar.Chords.Length; i++)
                Assert.True(bar.Chords[i].Start < bar.Chords[i].End && bar.Chords[i].End == (i + 1 < bar.Chords.Length ? bar.Chords[i + 1].Start : bar.End), text);
        foreach (var e in piece.Events)
            foreach (var n in e.Notes)
            {
                Assert.True(n.Onset <= e.Onset && n.End <= n.WantedEnd, text);
                Assert.True(n.Span.Start >= 0 && n.Span.End <= piece.Tree.Source.Text.Length, text);
            }
        // What sounds, found from the moments, is what a plain search through all notes finds.
        foreach (var m in piece.Moments.Take(20))
            Assert.Equal(piece.Events.Where(e => e.Kind == EventKind.Struck).SelectMany(e => e.Notes).Count(n => !n.Dead && n.Onset <= m.Time && m.Time < n.End), m.Sounding.Length);
        foreach (var t in piece.Troubles)
            Assert.True(t.Span.Start >= 0 && t.Span.End <= piece.Tree.Source.Text.Length && t.Fixes.All(f => f.Edits.All(x => x.Span.End <= piece.Tree.Source.Text.Length)), text);
    }
}
