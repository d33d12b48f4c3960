// Guesses what an unreadable symbol was meant to be: every spelling of the tables, weighed by what slips of the pen are likely.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

internal static class NearestSymbols
{
    private const int Offered = 3;
    private const double CaseSlip = 0.3, SignSlip = 0.4, SwapSlip = 0.6, DigitSlip = 1.2, AccidentalSlip = 1.5, AnySlip = 1;

    /// <summary>Whole symbols near to one whose suffix failed at a place.</summary>
    public static ImmutableArray<string> ToSuffix(string root, string suffix, int at, string? bass)
    {
        var (good, rest) = (suffix[..at], suffix[at..]);
        var wholes = ChordTable.All.Select(b => (b.Text, Cost: b.Spellings.Min(s => Distance(suffix, s))));
        var parts = ModifierTable.All.Select(m => (Text: Continue(good, m.Text, m.Enclosed), Cost: m.Spellings.Min(s => Distance(rest, s)) + 0.1));
        var shorter = (Text: good.TrimEnd('(', '[', ',', '/'), Cost: 0.9 * rest.Length);
        var closed = (Text: suffix + ")", Cost: good.Contains('(') || rest.Contains('(') ? 0.2 : 9);
        return Choose(wholes.Concat(parts).Append(shorter).Append(closed), suffix.Length, s => root + s + (bass is null ? "" : "/" + bass));
    }

    /// <summary>The symbol without what takes its last tone away.</summary>
    public static ImmutableArray<string> Without(string root, string suffix, int at, string? bass) =>
        Readable([root + suffix[..at].TrimEnd('(', '[', ',', '/') + (bass is null ? "" : "/" + bass)]);

    /// <summary>Whole symbols near to one whose root is none.</summary>
    public static ImmutableArray<string> ToRoot(string symbol) => symbol switch
    {
        "" => [],
        ['H' or 'h', .. var rest] => Readable(["B" + rest]),
        [var c and >= 'a' and <= 'g', .. var rest] => Readable([char.ToUpperInvariant(c) + rest, char.ToUpperInvariant(c) + "m" + rest]),
        _ => Readable([symbol[1..]]),
    };

    /// <summary>Whole symbols near to one whose slash bass is none.</summary>
    public static ImmutableArray<string> ToBass(string root, string suffix, string bass) =>
        Readable([root + suffix + "/" + char.ToUpperInvariant(bass.FirstOrDefault('C')) + (bass.Length > 1 ? bass[1..] : ""), root + suffix]);

    /// <summary>Those that can be read, a few at most.</summary>
    public static ImmutableArray<string> Readable(IEnumerable<string> symbols) =>
        [.. symbols.Where(s => s.Length > 0 && s[0] is >= 'A' and <= 'G' && ChordReader.CanRead(s)).Take(Offered)];

    // One spelling for each sound, nearest first; what is further away than half of what was written is no guess.
    private static ImmutableArray<string> Choose(IEnumerable<(string Text, double Cost)> candidates, int length, Func<string, string> whole)
    {
        var (sounds, chosen) = (new HashSet<int>(), ImmutableArray.CreateBuilder<string>());
        foreach (var (text, _) in candidates.Where(c => c.Cost <= Math.Max(1.5, 0.5 * length + 0.5)).OrderBy(c => c.Cost).ThenBy(c => c.Text.Length).ThenBy(c => c.Text, StringComparer.Ordinal))
        {
            if (chosen.Count == Offered)
                break;
            var reading = SuffixParser.Read(text);
            if (reading.At < 0 && ChordReader.CanRead(whole(text)) && sounds.Add(Sound(reading.Degrees)))
                chosen.Add(whole(text));
        }
        return chosen.ToImmutable();
    }

    private static int Sound(ImmutableArray<Degree> degrees) => degrees.Aggregate(0, (bits, d) => bits | 1 << d.Interval);

    private static string Continue(string good, string modifier, bool enclosed)
    {
        var open = good.LastIndexOf('(') > good.LastIndexOf(')');
        var text = good.TrimEnd('/', ',');
        return open ? text + (text.EndsWith('(') ? "" : ",") + modifier + ")" : enclosed ? $"{text}({modifier})" : text + modifier;
    }

    /// <summary>Edit distance with swaps, in which a slip of case or sign is small and a wrong accidental large.</summary>
    internal static double Distance(string written, string meant)
    {
        var (before, last, row) = (new double[meant.Length + 1], new double[meant.Length + 1], new double[meant.Length + 1]);
        for (var j = 1; j <= meant.Length; j++)
            last[j] = last[j - 1] + Gap(meant[j - 1]);
        for (var i = 1; i <= written.Length; i++)
        {
            row[0] = last[0] + Gap(written[i - 1]);
            for (var j = 1; j <= meant.Length; j++)
            {
                row[j] = Math.Min(last[j - 1] + Change(written[i - 1], meant[j - 1]), Math.Min(last[j] + Gap(written[i - 1]), row[j - 1] + Gap(meant[j - 1])));
                if (i > 1 && j > 1 && written[i - 1] == meant[j - 2] && written[i - 2] == meant[j - 1])
                    row[j] = Math.Min(row[j], before[j - 2] + SwapSlip);
            }
            (before, last, row) = (last, row, before);
        }
        return last[meant.Length];
    }

    private static double Gap(char c) => c is '(' or ')' or '[' or ']' or ',' or '/' or '-' ? SignSlip : AnySlip;

    private static double Change(char a, char b)
    {
        if (a == b)
            return 0;
        if (char.ToLowerInvariant(a) == char.ToLowerInvariant(b))
            return CaseSlip;
        if (char.IsAsciiDigit(a) && char.IsAsciiDigit(b))
            return DigitSlip;
        return "b#+-".Contains(a) && "b#+-".Contains(b) ? AccidentalSlip : AnySlip + 0.1;
    }
}
