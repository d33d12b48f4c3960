// What holds for every text, tried on many.
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;
using CsCheck;

namespace ChordLang.Grammar.Tests.Properties;

public class AnyTextTests
{
    private static readonly Gen<string> Piece = One(
        "|", "||", "|:", "1", "2&", "3 D4", "3+2/5", "to", "D4", "Eb", "C4+E", "8@2", "x-3-5-4-5-x", "x35453", "=", "is", "C7", "Cmaj7(#11)", "low-drop+7", "at", "ring", "until",
        "rest", "tied", "again", "grace", "bend", "\"", "“", "–", "\u00A0", "// allow hand-wide-stretch: so", ">", "\n", "\r", "\r\n", "\0", "(", "top:", "repeat 2\n", "end\n",
        "meter 7/8\n", "section A again\n", "\n    ", "\n| ", "%", "N.C.", "/", "𝄫", "\uD834", "\uFEFF", "tempo 66", "key G major", "shape low = ", "X", "Ring");

    private static readonly Gen<string> Texts = Gen.Select(Gen.OneOf(Piece, Piece, Piece, Gen.String[0, 4]), One(" ", " ", " ", "  ", "")).Array[0, 40]
        .Select(parts => string.Concat(parts.Select(p => p.Item1 + p.Item2)));

    private static Gen<string> One(params string[] texts) => Gen.Int[0, texts.Length - 1].Select(i => texts[i]);

    [Fact]
    public void Any_bytes_come_back() =>
        Gen.Byte.Array[0, 200].Sample(bytes =>
        {
            var source = SourceText.From(bytes);
            return source.ToBytes().AsSpan().SequenceEqual(bytes) && SyntaxTree.Parse(source).Print() == source.Text;
        });

    [Fact]
    public void A_text_after_an_edit_is_the_text_read_afresh() =>
        Gen.Select(Texts, Gen.Double[0, 1], Gen.Double[0, 1], Texts).Sample((text, a, b, put) =>
        {
            var (from, to) = ((int)(Math.Min(a, b) * text.Length), (int)(Math.Max(a, b) * text.Length));
            var old = SyntaxTree.Parse(text);
            var tree = old.With(new(Span.Between(from, to), put), out var changed);
            var fresh = SyntaxTree.Parse(string.Concat(text.AsSpan(0, from), put, text.AsSpan(to)));
            Assert.Equal(fresh.Source.Text, tree.Source.Text);
            Assert.True(fresh.Source.Lines.SequenceEqual(tree.Source.Lines));
            Assert.Equal(fresh.Lines.Select(l => (l.GetType(), l.Text)), tree.Lines.Select(l => (l.GetType(), l.Text)));
            Assert.Equal(old.Lines.Length - changed.Old + changed.New, tree.Lines.Length);
            Assert.Same(old.Lines.Take(changed.First).LastOrDefault(), tree.Lines.Take(changed.First).LastOrDefault());
        });

    [Fact]
    public void Tokens_are_in_order_and_findings_inside() =>
        Texts.Sample(text =>
        {
            var tree = SyntaxTree.Parse(text);
            Assert.Equal(text, tree.Print());
            Assert.All(tree.Lines, line => Assert.Null(LineRules.Broken(line)));
        });

    [Fact]
    public void Format_is_idempotent_and_keeps_the_music() =>
        Texts.Sample(text =>
        {
            var before = SyntaxTree.Parse(text);
            var once = before.Source.With(Formatter.Format(before));
            Assert.Equal(once.Text, Formatter.Formatted(once).Text);
            Assert.Equal(Meaning.Of(before), Meaning.Of(SyntaxTree.Parse(once)));
        });

    [Fact]
    public void An_edit_equals_a_fresh_parse()
    {
        var samples = Repository.Samples().Select(Repository.Text).ToArray();
        Assert.NotEmpty(samples);
        Gen.Select(One(samples), Gen.Double.Unit, Gen.Int[0, 8], Piece).Sample((text, where, length, piece) =>
        {
            var (cache, source) = (new LineCache(), SourceText.From(text));
            SyntaxTree.Parse(source, cache);
            var at = (int)(where * text.Length);
            var edited = source.With([new TextEdit(new(at, Math.Min(length, text.Length - at)), piece)]);
            var (kept, fresh) = (SyntaxTree.Parse(edited, cache), SyntaxTree.Parse(edited));
            Assert.Equal(Meaning.Of(fresh), Meaning.Of(kept));
            Assert.Equal(fresh.Lines.SelectMany(l => l.Tokens), kept.Lines.SelectMany(l => l.Tokens));
        }, iter: 300);
    }

    [Theory]
    [InlineData("")]
    [InlineData("| C")]
    [InlineData("    1 D4 is C")]
    [InlineData("key ")]
    public void Traps_give_findings_and_print_back(string opener)
    {
        foreach (var trap in (string[])[new('(', 600), new('x', 1_000_000), new('\0', 50)])
        {
            var tree = SyntaxTree.Parse(opener + trap);
            Assert.Equal(opener + trap, tree.Print());
            Assert.All(tree.Lines, line => Assert.Null(LineRules.Broken(line)));
            Assert.True(tree.Lines[0].Findings.Length == 1 || trap[0] == '(' && opener.EndsWith('C') || trap[0] == '\0' && opener.EndsWith('C'));
        }
    }
}
