// Binds samples with the files that lie beside them.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Checks.Tests.Samples;

/// <summary>The folder of a sample, as the library it belongs to.</summary>
internal sealed class LibraryOfSamples(string path) : ILibrary
{
    /// <summary>Binds a sample, or a text that stands in its place.</summary>
    public static Piece Bind(string path, SourceText? source = null) =>
        Binder.Bind(SyntaxTree.Parse(source ?? SourceText.From(Repository.Bytes(path))), new LibraryOfSamples(path));

    public UsedFile Open(string name, string? usedBy)
    {
        var at = Path.Combine(Path.GetDirectoryName(path)!, name).Replace('\\', '/');
        return Repository.Samples().Contains(at)
            ? new(at, SyntaxTree.Parse(SourceText.From(Repository.Bytes(at))), null)
            : new(name, null, $"There is no file {name} beside this one.");
    }
}
