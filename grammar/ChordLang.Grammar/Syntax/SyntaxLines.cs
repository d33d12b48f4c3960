// The parsed lines of a text, in blocks that say in sum what stands in them.
using System.Collections;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Syntax;

/// <summary>The lines of a tree, from its first. Immutable; an edit shares all blocks that it does not touch.</summary>
public sealed class SyntaxLines : IReadOnlyList<LineSyntax>
{
    private readonly Blocks<LineBlock> blocks;

    internal SyntaxLines(LineSyntax[] lines) => blocks = new([.. Cut(lines)]);

    private SyntaxLines(Blocks<LineBlock> blocks) => this.blocks = blocks;

    /// <summary>How many there are.</summary>
    public int Length => blocks.Count;

    /// <inheritdoc/>
    public int Count => blocks.Count;

    /// <inheritdoc/>
    public LineSyntax this[int index]
    {
        get
        {
            var at = blocks.Of(index);
            return blocks[at].Lines[index - blocks.First(at)];
        }
    }

    /// <inheritdoc/>
    public IEnumerator<LineSyntax> GetEnumerator()
    {
        for (var at = 0; at < blocks.Length; at++)
            foreach (var line in blocks[at].Lines)
                yield return line;
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    /// <summary>By how much the lines before one raise the number of the bars behind them: each bar by one, a pickup by none.</summary>
    public int BarsBefore(int line)
    {
        if (line >= Length)
            return blocks.Weight;
        var at = blocks.Of(line);
        var bars = blocks.Before(at);
        for (var i = 0; i < line - blocks.First(at); i++)
            bars += LineBlock.Bars(blocks[at].Lines[i]);
        return bars;
    }

    /// <summary>The numbers of the lines from one to another that reach beyond their place: settings, shapes, what is used. In order.</summary>
    /// <param name="first">The first line.</param>
    /// <param name="end">The line behind the last.</param>
    public IEnumerable<int> Heads(int first, int end)
    {
        for (var at = first < end ? blocks.Of(first) : blocks.Length; at < blocks.Length && blocks.First(at) < end; at++)
            foreach (var head in blocks[at].Heads)
                if (blocks.First(at) + head is var line && line >= first && line < end)
                    yield return line;
    }

    /// <summary>Which lines are others than those of an earlier list: what both begin with and end with is left out.</summary>
    public LineChange Since(SyntaxLines earlier)
    {
        var (old, now, shorter) = (earlier.blocks, blocks, Math.Min(earlier.Length, Length));
        var (head, at) = (0, 0);
        while (at < old.Length && at < now.Length && ReferenceEquals(old[at], now[at]))
            head = now.First(++at);
        while (head < shorter && ReferenceEquals(earlier[head], this[head]))
            head++;
        var (tail, back) = (0, 0);
        while (back < old.Length - at && back < now.Length - at && ReferenceEquals(old[old.Length - 1 - back], now[now.Length - 1 - back]))
            tail = Length - now.First(now.Length - ++back);
        // Blocks that stand elsewhere now may hold lines that were taken for the beginning.
        tail = Math.Min(tail, shorter - head);
        while (tail < shorter - head && ReferenceEquals(earlier[earlier.Length - 1 - tail], this[Length - 1 - tail]))
            tail++;
        return new(head, earlier.Length - head - tail, Length - head - tail);
    }

    /// <summary>The lines with others in the place of some.</summary>
    internal SyntaxLines With(int first, int old, LineSyntax[] fresh)
    {
        var (from, to) = blocks.Touched(first, first + old - 1, fresh.Length - old);
        var (start, end) = (blocks.First(from), blocks.First(to + 1));
        var lines = new LineSyntax[end - start - old + fresh.Length];
        for (var i = start; i < first; i++)
            lines[i - start] = this[i];
        fresh.CopyTo(lines, first - start);
        for (var i = first + old; i < end; i++)
            lines[i - start - old + fresh.Length] = this[i];
        return new(blocks.With(from, to + 1 - from, [.. Cut(lines)]));
    }

    private static IEnumerable<LineBlock> Cut(LineSyntax[] lines)
    {
        foreach (var (first, count) in Blocks<LineBlock>.Shares(lines.Length))
            yield return new(lines[first..(first + count)]);
    }
}

/// <summary>Some lines of a tree.</summary>
internal sealed class LineBlock : IBlock
{
    public LineBlock(LineSyntax[] lines)
    {
        Lines = lines;
        var heads = new List<int>();
        for (var i = 0; i < lines.Length; i++)
        {
            Weight += Bars(lines[i]);
            if (lines[i] is SettingLine or ShapeLine or UseLine)
                heads.Add(i);
        }
        Heads = [.. heads];
    }

    /// <summary>The lines.</summary>
    public LineSyntax[] Lines { get; }

    /// <summary>Those of them that reach beyond their place.</summary>
    public int[] Heads { get; }

    /// <inheritdoc/>
    public int Count => Lines.Length;

    /// <summary>By how much they raise the number of the bars behind them.</summary>
    public int Weight { get; }

    /// <summary>By how much a line raises the number of the bars behind it.</summary>
    public static int Bars(LineSyntax line) => line switch { ChartLine chart => chart.Bars.Length, FormLine { Kind: FormKind.Pickup } => -1, _ => 0 };
}
