// What one source says: a chordlang.json, a part of it, or an editor.
using System.Collections.Immutable;

namespace ChordLang.Checks.Configuring;

/// <summary>A value and where it comes from.</summary>
/// <param name="Value">As the notation would write it (<c>5 to 9</c>), or a level (<c>hint</c>, <c>off</c>).</param>
/// <param name="Origin">For people: <c>chordlang.json, line 3</c>, or <c>editor</c>.</param>
public sealed record ConfiguredValue(string Value, string Origin);

/// <summary>What one source says. Every value in it is good: <see cref="ConfigurationReader"/> leaves the others out and tells of them.</summary>
public sealed record ConfigurationLayer
{
    /// <summary>Says nothing.</summary>
    public static ConfigurationLayer Empty { get; } = new();

    /// <summary>Settings by their word, see <see cref="ConfigurationKeys.Settings"/>.</summary>
    public ImmutableSortedDictionary<string, ConfiguredValue> Settings { get; init; } = ImmutableSortedDictionary.Create<string, ConfiguredValue>(StringComparer.Ordinal);

    /// <summary>Levels by name or family of checks; a name goes before its family.</summary>
    public ImmutableSortedDictionary<string, ConfiguredValue> Levels { get; init; } = ImmutableSortedDictionary.Create<string, ConfiguredValue>(StringComparer.Ordinal);
}

/// <summary>Something that a source should say otherwise.</summary>
/// <param name="Line">Its line, from 0.</param>
/// <param name="Message">What is wrong and what to do, in sentences.</param>
/// <param name="Unreadable">True where nothing of the source can be used.</param>
public sealed record ConfigurationTrouble(int Line, string Message, bool Unreadable = false);

/// <summary>A source as read.</summary>
/// <param name="All">What it says of every file.</param>
/// <param name="Parts">What it says of some files, by glob, in the order written; later ones go before earlier ones.</param>
/// <param name="Ignore">Globs of files that folders leave out.</param>
/// <param name="Troubles">What it should say otherwise.</param>
public sealed record ConfigurationFile(
    ConfigurationLayer All, ImmutableArray<(string Glob, ConfigurationLayer Layer)> Parts, ImmutableArray<string> Ignore, ImmutableArray<ConfigurationTrouble> Troubles)
{
    /// <summary>Its layers for one file, strongest first.</summary>
    /// <param name="path">The file's path from the folder that the source stands in, with / between folders; null for text without a file.</param>
    public IEnumerable<ConfigurationLayer> For(string? path) =>
        Parts.Reverse().Where(p => path is not null && Glob.Matches(p.Glob, path)).Select(p => p.Layer).Append(All);

    /// <summary>True where folders leave this file out.</summary>
    public bool Ignores(string path) => Ignore.Any(g => Glob.Matches(g, path));
}
