// The lines of a text: where each begins, and how it ends.
using System.Collections;

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

/// <summary>The lines of a text, from its first. Where a line begins is worked out from the block that it stands in, so that an edit moves no line behind it.</summary>
public readonly struct TextLines : IReadOnlyList<TextLine>
{
    private readonly Blocks<TextBlock> blocks;

    internal TextLines(Blocks<TextBlock> blocks) => this.blocks = blocks;

    /// <summary>How many there are.</summary>
    public int Length => blocks.Count;

    /// <inheritdoc/>
    public int Count => blocks.Count;

    /// <inheritdoc/>
    public TextLine this[int index]
    {
        get
        {
            var at = blocks.Of(index);
            var line = blocks[at].Lines[index - blocks.First(at)];
            return line with { Start = line.Start + blocks.Before(at) };
        }
    }

    /// <inheritdoc/>
    public IEnumerator<TextLine> GetEnumerator()
    {
        for (var at = 0; at < blocks.Length; at++)
            foreach (var line in blocks[at].Lines)
                yield return line with { Start = line.Start + blocks.Before(at) };
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}

/// <summary>Some lines of a text, with their ends; in offsets of its own start.</summary>
/// <param name="Source">A string that holds their characters.</param>
/// <param name="Start">Where they begin in it.</param>
/// <param name="Lines">The lines.</param>
internal sealed record TextBlock(string Source, int Start, TextLine[] Lines) : IBlock
{
    /// <inheritdoc/>
    public int Count => Lines.Length;

    /// <inheritdoc/>
    public int Weight => Lines[^1].End + Lines[^1].EndLength;

    /// <summary>The line that holds an offset.</summary>
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

    /// <summary>Cuts characters into blocks of lines.</summary>
    /// <param name="text">The characters; they begin a line.</param>
    /// <param name="isEnd">True where nothing comes behind them: what follows the last line end is a line then, though it be empty.</param>
    public static List<TextBlock> Cut(string text, bool isEnd = true)
    {
        var (lines, start) = (new List<TextLine>(), 0);
        while (text.AsSpan(start).IndexOfAny('\n', '\r') is var length && length >= 0)
        {
            var end = text[start + length] == '\r' && start + length + 1 < text.Length && text[start + length + 1] == '\n' ? 2 : 1;
            lines.Add(new(start, length, end));
            start += length + end;
        }
        if (isEnd || start < text.Length)
            lines.Add(new(start, text.Length - start, 0));
        var found = new List<TextBlock>();
        foreach (var (first, count) in Blocks<TextBlock>.Shares(lines.Count))
        {
            var (own, from) = (new TextLine[count], lines[first].Start);
            for (var i = 0; i < count; i++)
                own[i] = lines[first + i] with { Start = lines[first + i].Start - from };
            found.Add(new(text, from, own));
        }
        return found;
    }
}
