// A text with its lines. Any bytes become a text that gives the same bytes back.
using System.Text;

namespace ChordLang.Grammar.Text;

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

    private readonly Blocks<TextBlock> blocks;
    private string? text;

    private SourceText(string text) => (this.text, blocks) = (text, new(TextBlock.Cut(text)));

    private SourceText(Blocks<TextBlock> blocks) => this.blocks = blocks;

    /// <summary>The whole text. A byte order mark stays as U+FEFF; a byte that is not UTF-8 stands as a lone surrogate U+DC80 to U+DCFF. After an edit it is put together when first asked for: whoever needs a part of it should ask for that.</summary>
    public string Text => text ??= Joined(0, Length);

    /// <summary>How many UTF-16 units it has.</summary>
    public int Length => blocks.Weight;

    /// <summary>The lines; at least one. A text that ends in a line end has an empty last line.</summary>
    public TextLines Lines => new(blocks);

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
        var at = blocks.At(Math.Max(0, offset));
        return blocks.First(at) + blocks[at].LineAt(offset - blocks.Before(at));
    }

    /// <summary>Line and character of an offset; an offset outside the text is brought to its nearer end.</summary>
    public LinePosition PositionAt(int offset)
    {
        offset = Math.Clamp(offset, 0, Length);
        var line = LineAt(offset);
        return new(line, offset - Lines[line].Start);
    }

    /// <summary>Offset of a position; a position outside the text is brought to the nearest place in it.</summary>
    public int OffsetAt(LinePosition position)
    {
        if (position.Line < 0)
            return 0;
        if (position.Line >= blocks.Count)
            return Length;
        var line = Lines[position.Line];
        return line.Start + Math.Clamp(position.Character, 0, line.Length);
    }

    /// <summary>The text of a line, without its end.</summary>
    public string LineText(int line)
    {
        var at = blocks.Of(line);
        var (block, place) = (blocks[at], blocks[at].Lines[line - blocks.First(at)]);
        return block.Source.Substring(block.Start + place.Start, place.Length);
    }

    /// <summary>The text of a stretch.</summary>
    public string this[Span span] => span is { Start: >= 0, Length: >= 0 } && span.End <= Length ? Joined(span.Start, span.Length) : throw new ArgumentOutOfRangeException(nameof(span));

    /// <summary>One UTF-16 unit.</summary>
    public char At(int offset)
    {
        var at = blocks.At(offset);
        return blocks[at].Source[blocks[at].Start + offset - blocks.Before(at)];
    }

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

    /// <summary>The text after one edit. Only the lines that it touches are cut anew, and only the blocks around it written anew, so that its cost hardly grows with the text.</summary>
    /// <param name="edit">The edit, in offsets of this text.</param>
    /// <param name="changed">Which lines became which.</param>
    public SourceText With(TextEdit edit, out LineChange changed)
    {
        var (first, last) = (LineAt(edit.Span.Start), LineAt(edit.Span.End));
        // A \r right before the edit may become \r\n with what is put behind it.
        if (first > 0 && Lines[first].Start == edit.Span.Start && At(edit.Span.Start - 1) == '\r')
            first--;
        var (from, to) = blocks.Touched(first, last, first - last);
        var (start, end) = (blocks.Before(from), blocks.Before(to + 1));
        var text = string.Concat(Joined(start, edit.Span.Start - start), edit.NewText, Joined(edit.Span.End, end - edit.Span.End));
        var fresh = TextBlock.Cut(text, to == blocks.Length - 1);
        var after = blocks.With(from, to + 1 - from, fresh);
        changed = new(first, last - first + 1, last - first + 1 + after.Count - blocks.Count);
        return new(after);
    }

    /// <inheritdoc/>
    public override string ToString() => Text;

    private string Joined(int start, int length)
    {
        if (length == 0)
            return "";
        var at = blocks.At(start);
        var (block, inside) = (blocks[at], start - blocks.Before(at));
        if (inside + length <= block.Weight)
            return block.Source.Substring(block.Start + inside, length);
        return string.Create(length, (blocks, at, inside), static (all, place) =>
        {
            var (blocks, at, inside) = place;
            for (var done = 0; done < all.Length; at++, inside = 0)
            {
                var part = blocks[at].Source.AsSpan(blocks[at].Start + inside, Math.Min(blocks[at].Weight - inside, all.Length - done));
                part.CopyTo(all[done..]);
                done += part.Length;
            }
        });
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
