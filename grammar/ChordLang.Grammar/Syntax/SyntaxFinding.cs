// What the parser has to say about a line, in the words of the check that reports it.
using System.Collections.Immutable;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Syntax;

/// <summary>A repair of a line.</summary>
/// <param name="Title">What it does, as an order: <c>Write it as 3-5-4</c>.</param>
/// <param name="Safe">True where it cannot change the sound.</param>
/// <param name="Edits">Edits in offsets of the line.</param>
public sealed record SyntaxFix(string Title, bool Safe, ImmutableArray<TextEdit> Edits);

/// <summary>Something about one line, seen while reading it.</summary>
/// <param name="Code">The name of the check that reports it, such as <c>text-unreadable</c>.</param>
/// <param name="Span">The smallest part to blame, in offsets of the line.</param>
/// <param name="Message">Plain sentences: what is wrong and what to do.</param>
/// <param name="Fixes">Repairs, best first.</param>
public sealed record SyntaxFinding(string Code, Span Span, string Message, ImmutableArray<SyntaxFix> Fixes);
