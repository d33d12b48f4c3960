// The suffixes that were probably meant by one that means nothing.
using System.Collections.Immutable;

namespace ChordLang.Theory.Chords;

/// <summary>Finds the suffixes nearest to a misspelled one.</summary>
internal static class ChordSuggestions
{
    private const int Offered = 3;
    private static readonly string[] Alterations = ["", "b5", "#5", "b9", "#9", "#11", "b13"];

    // What we would write ourselves: every kind, and the dominants, minors and majors with one alteration.
    private static readonly ImmutableArray<string> Good =
    [
        .. ChordTable.Rows.Select(r => r.Canonical)
            .SelectMany(c => c.Length > 0 && char.IsAsciiDigit(c[^1]) ? Alterations.Select(a => c + a) : [c])
            .Where(s => ChordReader.Knows(s)).Distinct(),
    ];

    /// <summary>The nearest suffixes, best first; none where nothing is near.</summary>
    public static ImmutableArray<string> For(string suffix)
    {
        var limit = Math.Max(1.5, suffix.Length * 0.5);
        return [.. Good.Select(g => (g, Distance: Distance(suffix, g))).Where(x => x.Distance <= limit)
            .OrderBy(x => x.Distance).ThenBy(x => x.g.Length).Take(Offered).Select(x => x.g)];
    }

    // Edit distance with neighbours swapped as one slip; a wrong case costs little, a wrong digit much: 7 and 9 are different chords.
    private static double Distance(string a, string b)
    {
        var d = new double[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++) d[i, 0] = i;
        for (var j = 0; j <= b.Length; j++) d[0, j] = j;
        for (var i = 1; i <= a.Length; i++)
            for (var j = 1; j <= b.Length; j++)
            {
                var same = a[i - 1] == b[j - 1] ? 0 : char.ToLowerInvariant(a[i - 1]) == char.ToLowerInvariant(b[j - 1]) ? 0.3
                    : char.IsAsciiDigit(a[i - 1]) && char.IsAsciiDigit(b[j - 1]) ? 1.5 : 1;
                d[i, j] = Math.Min(Math.Min(d[i - 1, j] + 1, d[i, j - 1] + 1), d[i - 1, j - 1] + same);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                    d[i, j] = Math.Min(d[i, j], d[i - 2, j - 2] + 0.8);
            }
        return d[a.Length, b.Length];
    }
}
