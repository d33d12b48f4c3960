// A long text is kept in blocks: under any edits it stays the text, the lines and the sums that a fresh reading has.
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Grammar.Tests.Properties;

public class LongTextTests
{
    private static readonly string[] Put = ["", "x", "\n", "\r", "\r\n", "| Dm7 | G7\n    1 D4\n", "key C major\n", "pickup from 4\n", "shape low = x-1-2-1-2-x\n", "section A\n", "> words"];

    [Theory]
    [InlineData(1, 40)]
    [InlineData(2, 900)]
    [InlineData(3, 5000)]
    public void After_many_edits_it_is_the_text_read_afresh(int seed, int bars)
    {
        var dice = new Dice(seed);
        var cache = new LineCache();
        var text = string.Concat(Enumerable.Range(0, bars).Select(i => i % 50 == 7 ? "meter 3/4\r\n| C7\r" : "| Dm7 3 G7\n    1 x-5-7-5-6-x\n"));
        var tree = SyntaxTree.Parse(SourceText.From(text), cache);
        for (var i = 0; i < 120; i++)
        {
            var from = dice.Next(text.Length + 1);
            // Now and then many lines go at once, or come.
            var length = Math.Min(text.Length - from, dice.Next(8) == 0 ? dice.Next(text.Length / 3 + 1) : dice.Next(5));
            var put = dice.Next(12) == 0 ? string.Concat(Enumerable.Repeat("| A7\n", dice.Next(600))) : Put[dice.Next(Put.Length)];
            text = string.Concat(text.AsSpan(0, from), put, text.AsSpan(from + length));
            var before = tree;
            tree = tree.With(new(new(from, length), put), out var changed, cache);
            Holds(SyntaxTree.Parse(SourceText.From(text), cache), tree, dice);
            var since = tree.Lines.Since(before.Lines);
            Assert.Equal(tree.Lines.Length - before.Lines.Length, changed.New - changed.Old);
            Assert.Equal(tree.Lines.Length - before.Lines.Length, since.New - since.Old);
            Assert.All(Enumerable.Range(0, since.First), n => Assert.Same(before.Lines[n], tree.Lines[n]));
            Assert.All(Enumerable.Range(since.First + since.New, tree.Lines.Length - since.First - since.New), n => Assert.Same(before.Lines[n - since.New + since.Old], tree.Lines[n]));
        }
    }

    private static void Holds(SyntaxTree fresh, SyntaxTree tree, Dice dice)
    {
        var (text, source) = (fresh.Source.Text, tree.Source);
        Assert.Equal(text.Length, source.Length);
        Assert.True(fresh.Source.Lines.SequenceEqual(source.Lines));
        for (var i = 0; i < 8; i++)
        {
            var (offset, line) = (dice.Next(text.Length + 1), dice.Next(fresh.Lines.Length));
            Assert.Equal(fresh.Source.LineAt(offset), source.LineAt(offset));
            Assert.Equal(fresh.Source.LineText(line), source.LineText(line));
            var span = new Span(offset, dice.Next(Math.Min(9000, text.Length - offset) + 1));
            Assert.Equal(text.Substring(span.Start, span.Length), source[span]);
            Assert.True(offset == text.Length || text[offset] == source.At(offset));
            Assert.Equal(fresh.Lines.Take(line).Sum(l => l is ChartLine chart ? chart.Bars.Length : l is FormLine { Kind: FormKind.Pickup } ? -1 : 0), tree.Lines.BarsBefore(line));
        }
        Assert.Equal(fresh.Lines.Select((l, n) => (l, n)).Where(l => l.l is SettingLine or ShapeLine or UseLine).Select(l => l.n), tree.Heads);
        Assert.True(fresh.Lines.SequenceEqual(tree.Lines, ReferenceEqualityComparer.Instance));
        Assert.Equal(text, source.Text);
    }
}
