// The closed lists of words that the notation knows, and the nearest of them to a slip.
using System.Collections.Frozen;
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Grammar.Parsing;

/// <summary>The words of the notation.</summary>
public static class Vocabulary
{
    /// <summary>Settings by their word.</summary>
    public static FrozenDictionary<string, SettingKind> Settings { get; } = new Dictionary<string, SettingKind>
    {
        ["title"] = SettingKind.Title, ["by"] = SettingKind.By, ["key"] = SettingKind.Key, ["meter"] = SettingKind.Meter,
        ["tempo"] = SettingKind.Tempo, ["feel"] = SettingKind.Feel, ["strings"] = SettingKind.Strings, ["capo"] = SettingKind.Capo,
        ["frets"] = SettingKind.Frets, ["scale-length"] = SettingKind.ScaleLength, ["reach"] = SettingKind.Reach,
        ["naming"] = SettingKind.Naming, ["position"] = SettingKind.Position, ["tags"] = SettingKind.Tags,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Form lines by all their fixed words; <c>repeat</c>, <c>ending</c> and <c>pickup from</c> go on with a number or count.</summary>
    public static FrozenDictionary<string, FormKind> Forms { get; } = new Dictionary<string, FormKind>
    {
        ["repeat"] = FormKind.Repeat, ["ending"] = FormKind.Ending, ["end"] = FormKind.End, ["pickup from"] = FormKind.Pickup,
        ["segno"] = FormKind.Segno, ["coda"] = FormKind.Coda, ["to coda"] = FormKind.ToCoda, ["fine"] = FormKind.Fine,
        ["da capo"] = FormKind.DaCapo, ["da capo al fine"] = FormKind.DaCapoAlFine, ["da capo al coda"] = FormKind.DaCapoAlCoda,
        ["dal segno"] = FormKind.DalSegno, ["dal segno al fine"] = FormKind.DalSegnoAlFine, ["dal segno al coda"] = FormKind.DalSegnoAlCoda,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Marks by their word; the forms with a second word (<c>ring until</c>) are found from it.</summary>
    public static FrozenDictionary<string, MarkKind> Marks { get; } = new Dictionary<string, MarkKind>
    {
        ["ring"] = MarkKind.Ring, ["short"] = MarkKind.Short, ["fermata"] = MarkKind.Fermata, ["accent"] = MarkKind.Accent,
        ["roll"] = MarkKind.Roll, ["slur"] = MarkKind.Slur, ["slide"] = MarkKind.Slide, ["hammer"] = MarkKind.Hammer,
        ["pull"] = MarkKind.Pull, ["grace"] = MarkKind.Grace, ["bend"] = MarkKind.Bend, ["vibrato"] = MarkKind.Vibrato,
        ["harmonic"] = MarkKind.Harmonic, ["palm-mute"] = MarkKind.PalmMute, ["dead"] = MarkKind.Dead, ["finger"] = MarkKind.Finger,
        ["fingers"] = MarkKind.Fingers, ["pluck"] = MarkKind.Pluck, ["is"] = MarkKind.Is, ["unsure"] = MarkKind.Unsure,
        ["p"] = MarkKind.Loudness, ["mp"] = MarkKind.Loudness, ["mf"] = MarkKind.Loudness, ["f"] = MarkKind.Loudness,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Words that stand in the place of a sound.</summary>
    public static ImmutableArray<string> Sounds { get; } = ["rest", "tied", "again"];

    /// <summary>Words between others in a row.</summary>
    public static ImmutableArray<string> Joining { get; } = ["to", "at", "until", "over", "from", "half", "full", "below", "above"];

    /// <summary>Modes of a key, by the names that MusicXML 4.0 lists for its <c>mode</c> element.</summary>
    public static ImmutableArray<string> Modes { get; } =
        ["major", "minor", "ionian", "dorian", "phrygian", "lydian", "mixolydian", "aeolian", "locrian"];

    /// <summary>Kinds of voicing that an expectation may name.</summary>
    public static ImmutableArray<string> VoicingKinds { get; } = ["close", "drop-2", "drop-3", "drop-2-and-4", "shell", "quartal", "cluster", "open", "spread"];

    /// <summary>First words of lines that are neither settings nor form.</summary>
    public static ImmutableArray<string> Openers { get; } = ["section", "shape", "use", "expect"];

    /// <summary>Every word that can open a line.</summary>
    public static FrozenSet<string> FirstWords { get; } =
        Settings.Keys.Concat(Openers).Concat(Forms.Keys.Select(f => f.Split(' ')[0])).ToFrozenSet(StringComparer.Ordinal);

    /// <summary>Every word of rows: none of them names a shape.</summary>
    internal static FrozenSet<string> RowWords { get; } = Marks.Keys.Concat(Sounds).Concat(Joining).ToFrozenSet(StringComparer.Ordinal);

    private static readonly FrozenSet<string>.AlternateLookup<ReadOnlySpan<char>> RowWordsBySpan =
        RowWords.GetAlternateLookup<ReadOnlySpan<char>>();

    private static readonly FrozenSet<string>.AlternateLookup<ReadOnlySpan<char>> FirstWordsBySpan =
        FirstWords.GetAlternateLookup<ReadOnlySpan<char>>();

    internal static bool IsRowWord(ReadOnlySpan<char> word) => RowWordsBySpan.Contains(word);

    internal static bool IsFirstWord(ReadOnlySpan<char> word) => FirstWordsBySpan.Contains(word);

    /// <summary>The word of a list that a slip of one or two letters leads away from, or null.</summary>
    public static string? Nearest(string slip, IEnumerable<string> words)
    {
        var (best, least) = ((string?)null, slip.Length <= 3 ? 2 : 3);
        if (slip.Length > 24)
            return null;
        foreach (var word in words)
            if (word.Length > 2 && Math.Abs(word.Length - slip.Length) < least && Distance(slip.ToLowerInvariant(), word) is var d && d < least)
                (best, least) = (word, d);
        return best;
    }

    // Letters wrong, missing, doubled or swapped with their neighbour (Damerau's distance, without overlapping swaps).
    private static int Distance(string a, string b)
    {
        var d = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
            for (var j = 0; j <= b.Length; j++)
                if (i == 0 || j == 0)
                    d[i, j] = i + j;
                else
                {
                    var change = a[i - 1] == b[j - 1] ? 0 : 1;
                    d[i, j] = Math.Min(Math.Min(d[i - 1, j], d[i, j - 1]) + 1, d[i - 1, j - 1] + change);
                    if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                        d[i, j] = Math.Min(d[i, j], d[i - 2, j - 2] + 1);
                }
        return d[a.Length, b.Length];
    }
}
