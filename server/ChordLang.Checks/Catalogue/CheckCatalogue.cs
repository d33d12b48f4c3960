// All checks, and the one way to run them.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;

namespace ChordLang.Checks.Catalogue;

/// <summary>The list of all checks.</summary>
public static class CheckCatalogue
{
    /// <summary>Every check, in the order of the list that <c>explain</c> prints.</summary>
    public static ImmutableArray<Check> All { get; } = [];

    /// <summary>
    /// Runs every check: findings in the order of the text, silenced ones left out. A check that throws becomes one information finding
    /// (<c>tool-check-failed</c>), and the others go on.
    /// </summary>
    public static ImmutableArray<Finding> Run(Piece piece) =>
        [.. All.SelectMany(c => c.Find(piece)).OrderBy(f => f.Span.Start).ThenBy(f => f.Code, StringComparer.Ordinal)];

    /// <summary>The page of a check, Markdown, or null for an unknown name.</summary>
    public static string? Page(string code) => All.Any(c => c.Code == code) ? code : null;
}
