// What binding has to say, in the words of the check that reports it.
using System.Collections.Immutable;
using ChordLang.Grammar.Text;

namespace ChordLang.Arrangement.Music;

/// <summary>A repair of the text.</summary>
/// <param name="Title">What it does, as an order.</param>
/// <param name="Safe">True where it cannot change the sound.</param>
/// <param name="Edits">Edits in offsets of the text.</param>
public sealed record Fix(string Title, bool Safe, ImmutableArray<TextEdit> Edits);

/// <summary>Another place that a finding speaks of.</summary>
/// <param name="Message">What is there.</param>
/// <param name="Span">Where, in offsets of the text (of the other file, where a path is given).</param>
/// <param name="Path">Another file, or null for this one.</param>
public sealed record Related(string Message, Span Span, string? Path);

/// <summary>Something seen while binding.</summary>
/// <param name="Code">The name of the check that reports it.</param>
/// <param name="Span">The smallest text to blame.</param>
/// <param name="Message">Plain sentences: what is wrong and what to do.</param>
public sealed record Trouble(string Code, Span Span, string Message)
{
    /// <summary>Repairs, best first.</summary>
    public ImmutableArray<Fix> Fixes { get; init; } = [];

    /// <summary>Other places.</summary>
    public ImmutableArray<Related> Related { get; init; } = [];

    /// <summary>Strings to blame, 1 = highest, where it is about placed notes.</summary>
    public ImmutableArray<int> Strings { get; init; } = [];
}
