// Binds syntax to music.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>A file that <c>use</c> asked for, or why it could not be had.</summary>
/// <param name="Path">Its path, as findings should name it.</param>
/// <param name="Tree">Its syntax, or null.</param>
/// <param name="Refusal">Why there is none: a sentence.</param>
public sealed record UsedFile(string Path, SyntaxTree? Tree, string? Refusal);

/// <summary>Opens the other files of a library; the server decides which are inside it.</summary>
public interface ILibrary
{
    /// <summary>The file a <c>use</c> line asks for, its path as written there.</summary>
    UsedFile Open(string path);
}

/// <summary>Binds syntax to music; total, never fails.</summary>
public static class Binder
{
    /// <summary>Binds a tree.</summary>
    /// <param name="tree">The syntax.</param>
    /// <param name="library">Where <c>use</c> finds its files; null: nowhere.</param>
    public static Piece Bind(SyntaxTree tree, ILibrary? library = null) => library is null ? new()
    {
        Tree = tree, Bars = [], Sections = [], Shapes = [], Events = [], Troubles = [], Allows = [], Expectations = [], PlayOrder = [],
        Settings = Settings.Default,
    } : Bind(tree);
}
