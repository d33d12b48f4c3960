// What each piece of a line is, for colouring, completion and printing back.
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Syntax;

/// <summary>What a token is.</summary>
public enum TokenKind
{
    /// <summary>The first word of a setting, section, shape, use, form or expect line, and fixed words behind it.</summary>
    Keyword,
    /// <summary>A voice label with its colon.</summary>
    Label,
    /// <summary>A count: <c>2&amp;</c>.</summary>
    Count,
    /// <summary>A bar line.</summary>
    Bar,
    /// <summary>A lone <c>/</c>, <c>%</c> or <c>N.C.</c> on a chart line.</summary>
    ChartSign,
    /// <summary>A chord symbol.</summary>
    Symbol,
    /// <summary>A pitch, with or without a string.</summary>
    Pitch,
    /// <summary>A fret on a string, or a slot form.</summary>
    Frets,
    /// <summary>The name of a shape, a section, a check.</summary>
    Name,
    /// <summary><c>rest</c>, <c>tied</c>, <c>again</c>.</summary>
    SoundWord,
    /// <summary>A mark's words.</summary>
    Mark,
    /// <summary>What a mark or a setting takes: a number, a unit, a word.</summary>
    Operand,
    /// <summary><c>=</c>.</summary>
    EqualSign,
    /// <summary>Quoted text with its quotes.</summary>
    Quote,
    /// <summary>Free text: titles, prose, reasons.</summary>
    Words,
    /// <summary>The sign that opens prose or a comment.</summary>
    Opener,
    /// <summary>A part that could not be read.</summary>
    Unreadable,
}

/// <summary>A piece of a line. Between tokens stand only blanks.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Span">Where, in UTF-16 units from the start of the line.</param>
public readonly record struct Token(TokenKind Kind, Span Span);
