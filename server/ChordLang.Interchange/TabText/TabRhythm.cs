// Which column of a bar is which count: from the counts written below, or guessed from the spacing.
using System.Globalization;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.TabText;

/// <summary>The places of one bar, in counts.</summary>
internal sealed class TabRhythm
{
    // The most that a meter has (LANGUAGE.md).
    private const int MostCounts = 32;

    private readonly SortedDictionary<int, Rational> known = [];
    private readonly int width, first;
    private readonly int counts;
    private int parts;

    private TabRhythm(int width, int first, int counts) => (this.width, this.first, this.counts) = (Math.Max(1, width), first, counts);

    /// <summary>What had to be guessed, or null.</summary>
    public string? Guess { get; private set; }

    /// <summary>The highest count that is written.</summary>
    public int Counts { get; private set; }

    /// <summary>The places of a bar.</summary>
    /// <param name="bar">The bar.</param>
    /// <param name="counts">Counts that it has.</param>
    public static TabRhythm Of(TabBar bar, int counts)
    {
        var columns = bar.Signs.Select(s => s.Column).Distinct().Order().ToList();
        var rhythm = new TabRhythm(bar.Width, columns.Count > 0 ? Math.Min(columns[0], bar.Chords.Select(c => c.Column).DefaultIfEmpty(columns[0]).Min()) : 0, counts);
        rhythm.Written(bar);
        var left = columns.Where(c => !rhythm.known.ContainsKey(c)).ToList();
        if (left.Count > 0)
        {
            rhythm.Guess = rhythm.known.Count == 0 ? "no counts are written, so the rhythm is guessed from the spacing" : "some frets have no count below them, so their place is guessed from the spacing";
            rhythm.Divide(columns);
        }
        return rhythm;
    }

    /// <summary>The offset of a column in counts; chords come to whole counts where they are guessed.</summary>
    public Rational Of(int column, bool chord)
    {
        if (known.TryGetValue(column, out var exact))
            return exact;
        if (known.Count == 0)
            return Spaced(column, chord ? counts : parts);
        var before = known.LastOrDefault(k => k.Key < column, new(first < column && known.First().Key > column ? 0 : -1, Rational.Zero));
        var after = known.FirstOrDefault(k => k.Key > column, new(width, Rational.Of(counts)));
        if (before.Key < 0)
            return Rational.Zero;
        var part = (column - before.Key) / (double)Math.Max(1, after.Key - before.Key);
        var at = before.Value.Value + part * (after.Value.Value - before.Value.Value);
        var steps = chord ? 1 : 4;
        return Rational.Min(Rational.Of((long)Math.Round(at * steps), steps), Rational.Of(4 * counts - 1, 4));
    }

    // 1 & 2 & 3 e & a: what stands alone belongs to the count before it.
    private void Written(TabBar bar)
    {
        var last = Rational.Zero;
        foreach (var (column, text) in bar.Counts)
        {
            var digits = text.TakeWhile(char.IsAsciiDigit).Count();
            // A number that no meter reaches is no count.
            var number = digits == 0 ? last.Floor + 1 : int.TryParse(text.AsSpan(0, digits), NumberStyles.None, CultureInfo.InvariantCulture, out var read) ? read : 0;
            if (number is < 1 or > MostCounts)
                continue;
            var whole = Rational.Of(number - 1);
            var beyond = text[digits..] switch
            {
                "" => Rational.Zero, "&" or "+" => Rational.Of(1, 2), "e" => Rational.Of(1, 4), "a" => Rational.Of(3, 4), "trip" => Rational.Of(1, 3), "let" => Rational.Of(2, 3),
                ['+', .. var fraction] when fraction.Split('/') is [var n, var d] && int.TryParse(n, out var a) && int.TryParse(d, out var b) && b > 0 && a < b => Rational.Of(a, b),
                _ => Rational.Zero,
            };
            if (known.Count > 0 && whole + beyond <= last)
                continue;
            known[column] = last = whole + beyond;
            Counts = Math.Max(Counts, (int)last.Floor + 1);
        }
    }

    // The fewest equal parts in which every sound has a place of its own.
    private void Divide(List<int> columns)
    {
        foreach (var per in (int[])[1, 2, 4, 3, 6, 8])
        {
            parts = counts * per;
            if (columns.Select(c => Spaced(c, parts)).Distinct().Count() == columns.Count)
                return;
        }
    }

    private Rational Spaced(int column, int into)
    {
        var place = (int)Math.Round((column - first) * (double)into / Math.Max(1, width - first), MidpointRounding.AwayFromZero);
        return Rational.Of(Math.Clamp(place, 0, into - 1) * counts, into);
    }
}
