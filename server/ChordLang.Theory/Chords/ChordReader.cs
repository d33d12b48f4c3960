// Reads a chord symbol as players write it, and says at which character it fails.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>Reads chord symbols: root, then the longest kind of the table, then alterations, additions and omissions, then a slash bass.</summary>
public static class ChordReader
{
    private const int LongestSymbol = 64;

    /// <summary>Reads a whole symbol, such as <c>F#m7b5/C</c>.</summary>
    public static ChordReading Read(string symbol)
    {
        var end = RootLength(symbol);
        var slash = symbol.LastIndexOf('/');
        return slash >= end && slash + 1 < symbol.Length && symbol[slash + 1] is >= 'A' and <= 'G'
            ? Read(symbol[..end], symbol[end..slash], symbol[(slash + 1)..])
            : Read(symbol[..end], symbol[end..], null);
    }

    /// <summary>Reads a symbol that is already parted into root, suffix and slash bass. Offsets of a trouble count from the start of the root.</summary>
    public static ChordReading Read(string root, string suffix, string? bass)
    {
        var symbol = bass is null ? root + suffix : $"{root}{suffix}/{bass}";
        if (symbol.Length > LongestSymbol)
            return Fail(0, symbol.Length, $"No chord symbol is longer than {LongestSymbol} characters. Part it with blanks.", []);
        if (!PitchName.TryParse(root, out var rootName))
            return Fail(0, Math.Max(1, root.Length), "A chord symbol begins with its root: a capital letter from A to G, with sharps or flats behind it.", []);
        if (Ambiguous(rootName, suffix) is { } trouble)
            return new(null, trouble);
        PitchName? bassName = null;
        if (bass is not null)
        {
            if (!PitchName.TryParse(bass, out var read))
                return Fail(root.Length + suffix.Length + 1, Math.Max(1, bass.Length), $"\"{bass}\" is no bass note. Behind the slash stands a capital letter from A to G, with sharps or flats.", [root + suffix]);
            bassName = read;
        }
        var tones = Tones(suffix, out var furthest);
        if (tones is null)
        {
            var bad = suffix[furthest..];
            var nearest = ChordSuggestions.For(suffix).Select(s => root + s + (bass is null ? "" : "/" + bass)).ToImmutableArray();
            var hint = nearest.Length > 0 ? $" Perhaps {string.Join(" or ", nearest)}." : " Write the kind of chord as players do, such as m7, maj7 or 7b9.";
            return Fail(root.Length + furthest, bad.Length, $"\"{bad}\" means nothing in the chord symbol {symbol}.{hint}", nearest);
        }
        if (tones.Row.Canonical == "7sg")
            bassName ??= new Degree(5, 0).Above(rootName);
        return new(tones.Build(symbol, rootName, bassName), null);
    }

    /// <summary>True where the suffix can be read whole.</summary>
    internal static bool Knows(string suffix) => Tones(suffix, out _) is not null;

    // Longest spelling first; a shorter one has its turn where the rest then makes sense ("madd9" is not "ma" and "dd9").
    private static SuffixTones? Tones(string suffix, out int furthest)
    {
        furthest = 0;
        foreach (var (spelling, row) in ChordTable.Spellings)
        {
            if (!suffix.StartsWith(spelling, StringComparison.Ordinal))
                continue;
            var tones = new SuffixTones(row);
            var stop = tones.Modify(suffix, spelling.Length);
            if (stop == suffix.Length)
                return tones;
            furthest = Math.Max(furthest, stop);
        }
        return null;
    }

    private static int RootLength(string symbol)
    {
        var end = Math.Min(1, symbol.Length);
        while (end < symbol.Length && symbol[end] is '#' or 'b' or '♯' or '♭')
            end++;
        return end < symbol.Length - 1 && symbol[end] == '\uD834' ? end + 2 : end;
    }

    // "Abb5" may be A-flat with a flat five or A-double-flat five; "C-5" and "C+11" have two readings as well.
    private static ChordTrouble? Ambiguous(PitchName root, string suffix)
    {
        string[]? readings = null;
        if (Math.Abs(root.Alteration) == 2 && suffix is "5" or "9" or "11" or "13")
        {
            var single = root with { Alteration = root.Alteration / 2 };
            readings = [$"{single}({(root.Alteration < 0 ? 'b' : '#')}{suffix})", $"{PitchName.Nearest(root.PitchClass, 0)}{suffix}"];
        }
        else if (suffix.Length > 1 && suffix[0] is '-' or '−' && suffix[1..] is "5")
            readings = [$"{root}(b5)", $"{root}m"];
        else if (suffix.Length > 1 && suffix[0] == '+' && suffix[1..] is "11" or "13")
            readings = suffix is "+11" ? [$"{root}(add#11)", $"{root}11#5"] : [$"{root}13#5", $"{root}add13"];
        return readings is null ? null : new(0, root.ToString().Length + suffix.Length,
            $"{root}{suffix} can be read in two ways: {readings[0]} or {readings[1]}. Write the one you mean.", [.. readings]);
    }

    private static ChordReading Fail(int at, int length, string message, ImmutableArray<string> nearest) => new(null, new(at, length, message, nearest));
}
