// Reads one line.
using ChordLang.Grammar.Syntax;

namespace ChordLang.Grammar.Parsing;

/// <summary>Reads one line; never fails.</summary>
public static class LineParser
{
    /// <summary>Parses a line without its end.</summary>
    public static LineSyntax Parse(string line) => line.AsSpan().Trim().IsEmpty ? new BlankLine(line) : new UnreadableLine(line);
}
