// Puts a text through everything that check does, short of the command line.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;
using ChordLang.Testing;

namespace ChordLang.Checks.Tests.Catalogue;

internal static class Checked
{
    public static Piece Bind(string text) => Binder.Bind(SyntaxTree.Parse(text));

    public static ImmutableArray<Finding> Run(string text) => CheckCatalogue.Run(Bind(text));

    /// <summary>Asserts that a marked text gives the marked findings and no others; findings of other families may be left out of the look.</summary>
    public static ImmutableArray<Finding> Expect(string marked, Func<Finding, bool>? only = null)
    {
        var expected = MarkedText.Read(marked);
        var found = Run(expected.Text).Where(only ?? (_ => true)).ToImmutableArray();
        Assert.Equal(
            expected.Marks.Select(m => $"{m.Start}+{m.Length} {m.Code}").Order(StringComparer.Ordinal),
            found.Select(f => $"{f.Span.Start}+{f.Span.Length} {f.Code}").Order(StringComparer.Ordinal));
        foreach (var mark in expected.Marks.Where(m => m.Words.Length > 0))
            Assert.Contains(found, f => f.Code == mark.Code && f.Span.Start == mark.Start && f.Message.Contains(mark.Words, StringComparison.Ordinal));
        return found;
    }

    /// <summary>The text after a fix.</summary>
    public static string Apply(string text, Fix fix) => SyntaxTree.Parse(text).Source.With(fix.Edits).Text;
}
