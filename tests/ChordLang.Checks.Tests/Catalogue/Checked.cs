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

    /// <summary>Asserts that a marked text gives the marked findings and no others, and returns them.</summary>
    public static ImmutableArray<Finding> Expect(string marked)
    {
        var expected = MarkedText.Read(marked);
        var found = Run(expected.Text);
        Snippet.ShouldFind(expected, [.. found.Select(f => new Mark(f.Span.Start, f.Span.Length, f.Code, f.Message))]);
        return found;
    }

    /// <summary>The text after a fix.</summary>
    public static string Apply(string text, Fix fix) => SyntaxTree.Parse(text).Source.With(fix.Edits).Text;
}
