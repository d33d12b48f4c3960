// What a check found.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Text;

namespace ChordLang.Checks.Catalogue;

/// <summary>How grave a finding is, gravest first.</summary>
public enum Severity { Error, Warning, Information, Hint }

/// <summary>A finding.</summary>
/// <param name="Code">The check's name.</param>
/// <param name="Severity">How grave.</param>
/// <param name="Message">Plain sentences that read well aloud: what is wrong, and what to do.</param>
/// <param name="Span">The smallest text to blame, in offsets of the text.</param>
public sealed record Finding(string Code, Severity Severity, string Message, Span Span)
{
    /// <summary>The number of the bar, or null before the first.</summary>
    public int? Bar { get; init; }

    /// <summary>The count as the notation writes it, or null.</summary>
    public string? Count { get; init; }

    /// <summary>Other places.</summary>
    public ImmutableArray<Related> Related { get; init; } = [];

    /// <summary>Repairs, best first.</summary>
    public ImmutableArray<Fix> Fixes { get; init; } = [];

    /// <summary>Strings to blame, 1 = highest.</summary>
    public ImmutableArray<int> Strings { get; init; } = [];
}
