// Finds tablature in plain text as people type it: which lines are strings, which belong together, what stands above and below.
using System.Text.RegularExpressions;
using ChordLang.Theory.Chords;

namespace ChordLang.Interchange.TabText;

/// <summary>A system: string lines with what belongs to them.</summary>
/// <param name="Line">Number of its first string line, from 1.</param>
/// <param name="Labels">Names of the strings, highest first; null where a line has none.</param>
/// <param name="Strings">The lines behind their labels, highest first.</param>
/// <param name="Margin">Columns before the body of each line.</param>
/// <param name="Chords">The line of chord names above, or null.</param>
/// <param name="Counts">The line of counts below, or null.</param>
/// <param name="Words">Lines of text before it.</param>
internal sealed record TabSystem(int Line, string?[] Labels, string[] Strings, int[] Margin, string? Chords, string? Counts, List<string> Words);

/// <summary>Cuts a text into systems.</summary>
internal static partial class TabLines
{
    private const int Fewest = 4, Most = 9, MostLines = 50_000;

    /// <summary>The systems of a text, and the words behind the last one.</summary>
    public static (List<TabSystem> Systems, List<string> Words) Of(string[] lines)
    {
        var systems = new List<TabSystem>();
        var words = new List<string>();
        for (var i = 0; i < Math.Min(lines.Length, MostLines);)
        {
            var end = i;
            while (end < lines.Length && IsString(lines[end]))
                end++;
            if (end - i < Fewest)
            {
                for (end = Math.Max(end, i + 1); i < end; i++)
                    words.Add(lines[i]);
                continue;
            }
            foreach (var (from, count) in Groups(i, end))
            {
                var chords = words.Count > 0 && from == i && IsChords(words[^1]) ? words[^1] : null;
                if (chords is not null)
                    words.RemoveAt(words.Count - 1);
                var counts = from + count == end && end < lines.Length && IsCounts(lines[end]) ? lines[end] : null;
                var parts = lines.Skip(from).Take(count).Select(l => StringLine().Match(l)).ToList();
                systems.Add(new(from + 1, [.. parts.Select(p => p.Groups["label"].Success ? p.Groups["label"].Value : null)], [.. parts.Select(p => p.Groups["body"].Value.TrimEnd())],
                    [.. parts.Select(p => p.Groups["body"].Index)], chords, counts, [.. words.Where(w => w.Trim().Length > 0)]));
                words.Clear();
                if (counts is not null)
                    end++;
            }
            i = end;
        }
        return (systems, [.. words.Where(w => w.Trim().Length > 0)]);
    }

    // Systems that follow each other without a blank line are told by their number of strings.
    private static IEnumerable<(int From, int Count)> Groups(int from, int end)
    {
        var count = end - from;
        if (count <= Most)
            return [(from, count)];
        var size = count % 6 == 0 ? 6 : Enumerable.Range(Fewest, Most - Fewest + 1).FirstOrDefault(s => count % s == 0, 6);
        return Enumerable.Range(0, count / size).Select(k => (from + k * size, size));
    }

    private static bool IsString(string line) => line.Length <= 4_000 && StringLine().Match(line) is { Success: true } m
        && m.Groups["body"].Value is var body && body.Count(c => c is '-' or '–' or '—') is var dashes && dashes >= (body.Contains('|') ? 2 : 3) && dashes * 5 >= body.Count(c => c != ' ') * 2;

    private static bool IsChords(string line)
    {
        var words = line.Split([' ', '\t', '|'], StringSplitOptions.RemoveEmptyEntries);
        return words.Length > 0 && words.All(w => w is "N.C." or "NC" or "%" || ChordReader.Read(w).Chord is not null);
    }

    private static bool IsCounts(string line) => line.Any(char.IsAsciiDigit) && line.Split([' ', '\t', '|'], StringSplitOptions.RemoveEmptyEntries).All(w => CountWord().IsMatch(w));

    [GeneratedRegex(@"^\s*(?<label>[A-Ga-g][#b♯♭]?)?[ \t]*[|:\]\[]?(?<body>[-–—0-9hHpPbBrRtTsSxX/\\~()<>{}^=*vV|:. ]*)$", RegexOptions.CultureInvariant)]
    private static partial Regex StringLine();

    [GeneratedRegex(@"^(\d{1,2}(&|\+|e|a|trip|let|\+\d{1,2}/\d{1,2})?|&|\+|e|a)$")]
    private static partial Regex CountWord();
}
