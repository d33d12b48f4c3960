// A text with its lines. Any bytes become a text that gives the same bytes back.
using System.Collections.Immutable;
using System.Text;

namespace ChordLang.Grammar.Text;

/// <summary>One line of a text.</summary>
/// <param name="Start">Offset of its first character.</param>
/// <param name="Length">Length without the line end.</param>
/// <param name="EndLength">Length of the line end: 0 (last line), 1 (\n or \r) or 2 (\r\n).</param>
public readonly record struct TextLine(int Start, int Length, int EndLength)
{
    /// <summary>Offset just behind the last character, before the line end.</summary>
    public int End => Start + Length;
}

/// <summary>What an edit did to lines.</summary>
/// <param name="First">The first line that may be another now.</param>
/// <param name="Old">How many lines there were from it on.</param>
/// <param name="New">How many stand in their place.</param>
public readonly record struct LineChange(int First, int Old, int New);

/// <summary>An immutable text. Lines end in \n, \r\n or \r, and in nothing else.</summary>
public sealed class SourceText
{
    // Bytes that are not UTF-8 are carried as lone low surrogates, U+DC80 to U+DCFF (the practice of Python's PEP 383).
    private const int Escape = 0xDC00;

    private SourceText(string text) : this(text, Cut(text, 0, text.Length))
    {
    }

    private SourceText(string text, ImmutableArray<TextLine> lines) => (Text, Lines) = (text, lines);

    /// <summary>The whole text. A byte order mark stays as U+FEFF; a byte that is not UTF-8 stands as a lone surrogate U+DC80 to U+DCFF.</summary>
    public string Text { get; }

    /// <summary>The lines; at least one. A text that ends in a line end has an empty last line.</summary>
    public ImmutableArray<TextLine> Lines { get; }

    /// <summary>A text from characters.</summary>
    public static SourceText From(string text) => new(text);

    /// <summary>A text from bytes: UTF-8, and whatever is not UTF-8 is kept, byte for byte.</summary>
    public static SourceText From(ReadOnlySpan<byte> bytes)
    {
        var text = new StringBuilder(bytes.Length);
        while (bytes.Length > 0)
        {
            var state = Rune.DecodeFromUtf8(bytes, out var rune, out var used);
            if (state == System.Buffers.OperationStatus.Done)
                text.Append(rune.ToString());
            else
                for (var i = 0; i < used; i++)
                    text.Append((char)(Escape + bytes[i]));
            bytes = bytes[used..];
        }
        return new(text.ToString());
    }

    /// <summary>The bytes that the text came from.</summary>
    public byte[] ToBytes()
    {
        var bytes = new List<byte>(Text.Length);
        Span<byte> buffer = stackalloc byte[4];
        for (var i = 0; i < Text.Length;)
        {
            if (Rune.TryGetRuneAt(Text, i, out var rune))
            {
                bytes.AddRange(buffer[..rune.EncodeToUtf8(buffer)]);
                i += rune.Utf16SequenceLength;
            }
            else if (Text[i] is >= (char)(Escape + 0x80) and <= (char)(Escape + 0xFF))
                bytes.Add((byte)(Text[i++] - Escape));
            else
                bytes.AddRange(buffer[..Surrogate(Text[i++], buffer)]);
        }
        return [.. bytes];
    }

    /// <summary>The line that holds an offset, from 0.</summary>
    public int LineAt(int offset)
    {
        int low = 0, high = Lines.Length - 1;
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            if (Lines[middle].Start <= offset) low = middle; else high = middle - 1;
        }
        return low;
    }

    /// <summary>Line and character of an offset; an offset outside the text is brought to its nearer end.</summary>
    public LinePosition PositionAt(int offset)
    {
        offset = Math.Clamp(offset, 0, Text.Length);
        var line = LineAt(offset);
        return new(line, offset - Lines[line].Start);
    }

    /// <summary>Offset of a position; a position outside the text is brought to the nearest place in it.</summary>
    public int OffsetAt(LinePosition position)
    {
        if (position.Line < 0)
            return 0;
        if (position.Line >= Lines.Length)
            return Text.Length;
        var line = Lines[position.Line];
        return line.Start + Math.Clamp(position.Character, 0, line.Length);
    }

    /// <summary>The text of a line, without its end.</summary>
    public string LineText(int line) => Text.Substring(Lines[line].Start, Lines[line].Length);

    /// <summary>The text of a stretch.</summary>
    public string this[Span span] => Text.Substring(span.Start, span.Length);

    /// <summary>The text after edits, all given in offsets of this text; they must not overlap. Edits at one place keep their order.</summary>
    public SourceText With(IEnumerable<TextEdit> edits)
    {
        var result = new StringBuilder(Text.Length);
        var at = 0;
        foreach (var edit in edits.OrderBy(e => e.Span.Start))
        {
            result.Append(Text, at, Math.Max(0, edit.Span.Start - at)).Append(edit.NewText);
            at = Math.Max(at, edit.Span.End);
        }
        return new(result.Append(Text, at, Text.Length - at).ToString());
    }

    /// <summary>The text after one edit. Only the lines that it touches are cut anew, so that its cost hardly grows with the text.</summary>
    /// <param name="edit">The edit, in offsets of this text.</param>
    /// <param name="changed">Which lines became which.</param>
    public SourceText With(TextEdit edit, out LineChange changed)
    {
        var (first, last) = (LineAt(edit.Span.Start), LineAt(edit.Span.End));
        // A \r right before the edit may become \r\n with what is put behind it.
        if (first > 0 && Lines[first].Start == edit.Span.Start && Text[edit.Span.Start - 1] == '\r')
            first--;
        var text = string.Concat(Text.AsSpan(0, edit.Span.Start), edit.NewText, Text.AsSpan(edit.Span.End));
        var by = text.Length - Text.Length;
        var end = Lines[last].End + Lines[last].EndLength + by;
        // Cut leaves an empty line behind a line end; where the text goes on, the next old line is that line.
        var cut = Cut(text, Lines[first].Start, end);
        var fresh = last == Lines.Length - 1 ? cut.Length : cut.Length - 1;
        var lines = ImmutableArray.CreateBuilder<TextLine>(first + fresh + Lines.Length - last - 1);
        lines.AddRange(Lines, first);
        lines.AddRange(cut.AsSpan()[..fresh]);
        for (var i = last + 1; i < Lines.Length; i++)
            lines.Add(Lines[i] with { Start = Lines[i].Start + by });
        changed = new(first, last - first + 1, fresh);
        return new(text, lines.MoveToImmutable());
    }

    /// <inheritdoc/>
    public override string ToString() => Text;

    private static ImmutableArray<TextLine> Cut(string text, int from, int to)
    {
        var lines = ImmutableArray.CreateBuilder<TextLine>();
        var start = from;
        for (var i = from; i < to; i++)
        {
            if (text[i] is not ('\n' or '\r'))
                continue;
            var end = text[i] == '\r' && i + 1 < text.Length && text[i + 1] == '\n' ? 2 : 1;
            lines.Add(new(start, i - start, end));
            i += end - 1;
            start = i + 1;
        }
        lines.Add(new(start, to - start, 0));
        return lines.ToImmutable();
    }

    // A lone surrogate that did not come from bytes: three bytes as the generalised form of UTF-8 has them.
    private static int Surrogate(char c, Span<byte> buffer)
    {
        buffer[0] = (byte)(0xE0 | c >> 12);
        buffer[1] = (byte)(0x80 | c >> 6 & 0x3F);
        buffer[2] = (byte)(0x80 | c & 0x3F);
        return 3;
    }
}
