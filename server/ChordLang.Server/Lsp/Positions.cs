// The border between our offsets and the client's positions: the one place where UTF-8, UTF-16 and UTF-32 are told apart.
using System.Text;
using ChordLang.Grammar.Text;
using ChordLang.Server.Lsp.Protocol;

namespace ChordLang.Server.Lsp;

/// <summary>How a client counts the characters of a line.</summary>
internal enum PositionEncoding
{
    /// <summary>UTF-16 units, what every client knows.</summary>
    Utf16,
    /// <summary>Bytes of UTF-8.</summary>
    Utf8,
    /// <summary>Code points.</summary>
    Utf32,
}

/// <summary>Turns offsets of a text into positions and back.</summary>
/// <param name="Text">The text.</param>
/// <param name="Encoding">How the client counts.</param>
internal sealed record Positions(SourceText Text, PositionEncoding Encoding)
{
    /// <summary>The encoding by the protocol's name; the client's first that we know, else UTF-16.</summary>
    public static PositionEncoding Choose(IEnumerable<string?> offered) =>
        offered.Select(o => o switch { "utf-8" => PositionEncoding.Utf8, "utf-16" => PositionEncoding.Utf16, "utf-32" => PositionEncoding.Utf32, _ => (PositionEncoding?)null })
            .FirstOrDefault(o => o is not null) ?? PositionEncoding.Utf16;

    /// <summary>The protocol's name of an encoding.</summary>
    public static string Name(PositionEncoding encoding) => encoding switch { PositionEncoding.Utf8 => "utf-8", PositionEncoding.Utf32 => "utf-32", _ => "utf-16" };

    /// <summary>The offset of a position; one outside the text is brought to the nearest place in it, one inside a character to its start.</summary>
    public int Offset(TextPosition position)
    {
        if (Encoding == PositionEncoding.Utf16)
            return Text.OffsetAt(new(position.Line, position.Character));
        if (position.Line < 0 || position.Line >= Text.Lines.Length)
            return position.Line < 0 ? 0 : Text.Length;
        var (line, at, left) = (Text.LineText(position.Line), 0, position.Character);
        while (at < line.Length && Width(line, at, out var units) is var width && width <= left)
            (at, left) = (at + units, left - width);
        return Text.Lines[position.Line].Start + at;
    }

    /// <summary>The position of an offset.</summary>
    public TextPosition At(int offset)
    {
        var place = Text.PositionAt(offset);
        if (Encoding == PositionEncoding.Utf16)
            return new(place.Line, place.Character);
        var start = Text.Lines[place.Line].Start;
        return new(place.Line, Units(start, start + place.Character));
    }

    /// <summary>How the client counts what stands between two offsets of one line.</summary>
    public int Units(int from, int to)
    {
        if (Encoding == PositionEncoding.Utf16)
            return to - from;
        // One unit more, for the last may be the first half of a pair.
        var (text, count) = (Text[Grammar.Text.Span.Between(from, Math.Min(to + 1, Text.Length))], 0);
        for (var at = 0; at < to - from;)
        {
            count += Width(text, at, out var units);
            at += units;
        }
        return count;
    }

    /// <summary>The range of a span.</summary>
    public TextRange Range(Span span) => new(At(span.Start), At(span.End));

    /// <summary>The span of a range; turned round where its ends are.</summary>
    public Span Span(TextRange range)
    {
        var (start, end) = (Offset(range.Start), Offset(range.End));
        return Grammar.Text.Span.Between(Math.Min(start, end), Math.Max(start, end));
    }

    // What the character at an offset takes in the client's count, and in our units. A lone surrogate counts as its replacement does.
    private int Width(string text, int at, out int units)
    {
        var known = Rune.TryGetRuneAt(text, at, out var rune);
        units = known ? rune.Utf16SequenceLength : 1;
        return Encoding == PositionEncoding.Utf32 ? 1 : known ? rune.Utf8SequenceLength : 3;
    }
}
