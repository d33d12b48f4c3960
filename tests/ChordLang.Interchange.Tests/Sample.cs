// Samples bound to music, with the files they use.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests;

internal static class Sample
{
    public static Piece Bind(string sample) => Binder.Bind(Parse(sample), new Library());

    public static Piece Bind(SourceText text) => Binder.Bind(SyntaxTree.Parse(text), new Library());

    private static SyntaxTree Parse(string path) => SyntaxTree.Parse(SourceText.From(Repository.Bytes(path)));

    private sealed class Library : ILibrary
    {
        public UsedFile Open(string path, string? usedBy) => new(path, Parse("samples/valid/" + path), null);
    }
}
