// Binds syntax to music.
using System.Collections.Immutable;
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
    /// <summary>The file a <c>use</c> line asks for.</summary>
    /// <param name="path">The path as written there.</param>
    /// <param name="usedBy">The <see cref="UsedFile.Path"/> of the file in which the line stands, or null for the piece itself.</param>
    UsedFile Open(string path, string? usedBy);
}

/// <summary>Binds syntax to music; total, never fails.</summary>
public static class Binder
{
    /// <summary>Binds a tree.</summary>
    /// <param name="tree">The syntax.</param>
    /// <param name="library">Where <c>use</c> finds its files; null: nowhere.</param>
    public static Piece Bind(SyntaxTree tree, ILibrary? library = null)
    {
        _ = library;
        return new()
        {
            Tree = tree, Bars = [], Sections = [], Shapes = ImmutableDictionary<string, Shape>.Empty, Events = [], Troubles = [], Allows = [],
            Expectations = [], PlayOrder = [], Settings = Settings.Default,
        };
    }
}
