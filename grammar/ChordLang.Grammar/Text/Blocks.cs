// Long lists that are edited in one place: cut into blocks, of which an edit makes one anew and shares all others.
namespace ChordLang.Grammar.Text;

/// <summary>Some neighbours of a long list.</summary>
internal interface IBlock
{
    /// <summary>How many lines.</summary>
    int Count { get; }

    /// <summary>What is summed up beside them: characters, bars.</summary>
    int Weight { get; }
}

/// <summary>The blocks of a list with the sums before each. Immutable; made anew by an edit, at a cost of one step a block.</summary>
internal sealed class Blocks<T> where T : class, IBlock
{
    // So many lines a block holds when a list is cut anew; one that has grown to twice as many is cut again, one that has shrunk to a quarter joins a neighbour.
    private const int Usual = 128;

    private readonly T[] blocks;
    // One more than there are blocks: the last are the sums of all.
    private readonly int[] firsts, weights;
    // Where the last question led: the next is mostly about the same block. Any thread may write it, for it is only a guess.
    private int guess;

    public Blocks(IReadOnlyList<T> list)
    {
        (blocks, firsts, weights) = ([.. list], new int[list.Count + 1], new int[list.Count + 1]);
        Sum(0);
    }

    private Blocks(T[] blocks, int[] firsts, int[] weights, int from)
    {
        (this.blocks, this.firsts, this.weights) = (blocks, firsts, weights);
        Sum(from);
    }

    /// <summary>How many blocks.</summary>
    public int Length => blocks.Length;

    /// <summary>How many lines there are.</summary>
    public int Count => firsts[^1];

    /// <summary>The sum of all weights.</summary>
    public int Weight => weights[^1];

    /// <summary>A block.</summary>
    public T this[int block] => blocks[block];

    /// <summary>The first line of a block; of the block behind the last, the number of lines.</summary>
    public int First(int block) => firsts[block];

    /// <summary>The weight of all blocks before one.</summary>
    public int Before(int block) => weights[block];

    /// <summary>The block that holds a line.</summary>
    public int Of(int line)
    {
        var last = guess;
        if (last < blocks.Length && line >= firsts[last] && line < firsts[last + 1])
            return last;
        if ((uint)line >= (uint)Count)
            throw new ArgumentOutOfRangeException(nameof(line));
        return guess = Search(firsts, line);
    }

    /// <summary>The block in which the sum of weights reaches beyond a value; the last one where none does.</summary>
    public int At(int weight)
    {
        var last = guess;
        return last < blocks.Length && weight >= weights[last] && weight < weights[last + 1] ? last : guess = Search(weights, weight);
    }

    /// <summary>The list with other blocks in the place of some.</summary>
    public Blocks<T> With(int from, int count, IReadOnlyList<T> fresh)
    {
        var length = blocks.Length - count + fresh.Count;
        var (all, lines, sums) = (new T[length], new int[length + 1], new int[length + 1]);
        Array.Copy(blocks, all, from);
        for (var i = 0; i < fresh.Count; i++)
            all[from + i] = fresh[i];
        Array.Copy(blocks, from + count, all, from + fresh.Count, blocks.Length - from - count);
        Array.Copy(firsts, lines, from + 1);
        Array.Copy(weights, sums, from + 1);
        return new(all, lines, sums, from);
    }

    /// <summary>How a stretch of lines is cut into blocks: the first line of each and how many it holds.</summary>
    public static IEnumerable<(int First, int Count)> Shares(int lines)
    {
        var blocks = lines == 0 ? 0 : lines <= 2 * Usual ? 1 : lines / Usual;
        for (var i = 0; i < blocks; i++)
            yield return ((int)((long)lines * i / blocks), (int)((long)lines * (i + 1) / blocks) - (int)((long)lines * i / blocks));
    }

    /// <summary>The blocks that are to be written anew where an edit touches some lines: theirs, and a neighbour where few lines are left in them.</summary>
    /// <param name="first">The first line touched.</param>
    /// <param name="last">The last one.</param>
    /// <param name="more">How many lines there will be more, or fewer.</param>
    public (int From, int To) Touched(int first, int last, int more)
    {
        var (from, to) = (Of(first), Of(last));
        if (firsts[to + 1] - firsts[from] + more < Usual / 4)
            (from, to) = to + 1 < blocks.Length ? (from, to + 1) : (Math.Max(0, from - 1), to);
        return (from, to);
    }

    private void Sum(int from)
    {
        for (var i = from; i < blocks.Length; i++)
            (firsts[i + 1], weights[i + 1]) = (firsts[i] + blocks[i].Count, weights[i] + blocks[i].Weight);
    }

    private int Search(int[] sums, int value)
    {
        int low = 0, high = blocks.Length - 1;
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            if (sums[middle] <= value) low = middle; else high = middle - 1;
        }
        return low;
    }
}
