// Marks: words of the trade behind a sound, each with no operand or exactly one.
using System.Collections.Immutable;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Syntax;

/// <summary>The marks.</summary>
public enum MarkKind
{
    Ring, RingUntil, RingOver, Short, Fermata, Accent, Roll, Slur, Slide, SlideFrom, Hammer, Pull, Grace, Bend, BendTo, Vibrato,
    Harmonic, PalmMute, Dead, Finger, Fingers, Pluck, Is, Unsure, Loudness, Remark,
}

/// <summary>A mark on a sound.</summary>
/// <param name="Span">The mark with its operand.</param>
/// <param name="Kind">Which.</param>
/// <param name="Name">Where its words stand, without <c>@string</c> and operand.</param>
/// <param name="String">The string it is meant for (<c>ring@1</c>), or null for the whole sound.</param>
/// <param name="Operand">Its operand, where it takes one.</param>
public sealed record MarkSyntax(Span Span, MarkKind Kind, Span Name, int? String, OperandSyntax? Operand);

/// <summary>What a mark takes.</summary>
/// <param name="Span">Where it stands.</param>
public abstract record OperandSyntax(Span Span);

/// <summary>A count: <c>ring until 3&amp;</c>.</summary>
public sealed record CountOperand(Span Span, CountSyntax Count) : OperandSyntax(Span);

/// <summary>Notes: <c>grace D#4</c>, <c>slide from 7@1</c>, <c>bend to F#4</c>.</summary>
public sealed record NotesOperand(Span Span, NotesSound Notes) : OperandSyntax(Span);

/// <summary>A word of a closed list: <c>half</c>, <c>full</c>, <c>below</c>, <c>above</c>; a loudness; <c>p-i-m</c>; a remark without its quotes.</summary>
public sealed record WordOperand(Span Span, string Word) : OperandSyntax(Span);

/// <summary>A single finger: <c>finger 3</c>, <c>finger T</c>.</summary>
public sealed record FingerOperand(Span Span, Finger Finger) : OperandSyntax(Span);

/// <summary>One entry a string, lowest string first: <c>fingers x-1-3-2-4-x</c>.</summary>
public sealed record FingersOperand(Span Span, ImmutableArray<Finger> Fingers) : OperandSyntax(Span);

/// <summary>A chord symbol: <c>is C13</c>.</summary>
public sealed record SymbolOperand(Span Span, SymbolSyntax Symbol) : OperandSyntax(Span);

/// <summary>A finger of the left hand as written.</summary>
public enum Finger
{
    /// <summary><c>x</c>: no finger on that string.</summary>
    None = -1,
    /// <summary><c>0</c>: the string is open.</summary>
    Open = 0,
    /// <summary>Index.</summary>
    First = 1,
    /// <summary>Middle.</summary>
    Second = 2,
    /// <summary>Ring.</summary>
    Third = 3,
    /// <summary>Little.</summary>
    Fourth = 4,
    /// <summary><c>T</c>.</summary>
    Thumb = 5,
}
