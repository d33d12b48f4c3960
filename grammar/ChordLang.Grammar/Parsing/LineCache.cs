// Lines that were parsed before, by content, so that an edit re-reads one line.
using ChordLang.Grammar.Syntax;

namespace ChordLang.Grammar.Parsing;

/// <summary>Remembers parsed lines by their text. Bounded: when full, it forgets all and begins anew.</summary>
public sealed class LineCache(int capacity = 65_536)
{
    private readonly Dictionary<string, LineSyntax> lines = new(StringComparer.Ordinal);

    /// <summary>The parsed line of a text without line end.</summary>
    public LineSyntax Parse(string line)
    {
        if (lines.TryGetValue(line, out var parsed))
            return parsed;
        if (lines.Count >= capacity)
            lines.Clear();
        return lines[line] = LineParser.Parse(line);
    }
}
