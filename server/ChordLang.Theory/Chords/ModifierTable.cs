// What may follow the first part of a chord suffix, as data: alterations, additions, omissions, suspensions.
using System.Collections.Frozen;
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>What a modifier does to the degrees before it.</summary>
public enum ModifierKind
{
    /// <summary>Replaces the plain degree of its number, or joins where there is none.</summary>
    Alter,

    /// <summary>Joins; what was there stays.</summary>
    Add,

    /// <summary>Takes the degrees of its number away.</summary>
    Omit,

    /// <summary>Takes the third away and puts its degrees there.</summary>
    Suspend,
}

/// <summary>A modifier: <c>b9</c>, <c>add13</c>, <c>no3</c>, <c>sus4</c>.</summary>
/// <param name="Text">How we write it.</param>
/// <param name="Kind">What it does.</param>
/// <param name="Degrees">With which degrees.</param>
/// <param name="Spellings">All spellings, ours first.</param>
/// <param name="Enclosed">True where it is read only in brackets, after a comma or after a slash: a bare number elsewhere is the chord's own.</param>
public sealed record ChordModifier(string Text, ModifierKind Kind, ImmutableArray<Degree> Degrees, ImmutableArray<string> Spellings, bool Enclosed);

/// <summary>All modifiers. Source: common practice of chord symbols; <c>+4</c> and <c>b6</c> as in npm tonal 6.4.3; bare numbers in brackets as Brazilian charts write them.</summary>
public static class ModifierTable
{
    private static readonly (string Text, ModifierKind Kind, string Degrees, string Spellings)[] Rows =
    [
        ("b5", ModifierKind.Alter, "b5", "-5 dim5"),
        ("#5", ModifierKind.Alter, "#5", "+5 {+} aug5"),
        ("b9", ModifierKind.Alter, "b9", "-9 b2"),
        ("#9", ModifierKind.Alter, "#9", "+9"),
        ("#11", ModifierKind.Alter, "#11", "+11 #4 +4"),
        ("b13", ModifierKind.Alter, "b13", "-13 b6 -6"),
        ("b7", ModifierKind.Alter, "b7", ""),
        ("sus4", ModifierKind.Suspend, "4", "sus (sus) sus11"),
        ("sus2", ModifierKind.Suspend, "2", ""),
        ("sus24", ModifierKind.Suspend, "2 4", "sus42 sus2sus4 sus4sus2 sus2/4"),
        ("maj7", ModifierKind.Add, "7", "{M}7 7{M} Δ ^"),
        ("maj9", ModifierKind.Add, "7 9", "{M}9 9{M}"),
        ("maj11", ModifierKind.Add, "7 9 11", "{M}11"),
        ("maj13", ModifierKind.Add, "7 9 13", "{M}13"),
    ];

    private static readonly string[] Addable = ["b3", "3", "11", "#11", "b9", "9", "#9", "b5", "5", "#5", "b6", "6", "b13", "13", "b7", "7", "bb7"];
    private static readonly int[] Omittable = [1, 3, 5, 7, 9, 11, 13];

    /// <summary>All modifiers, alterations first.</summary>
    public static ImmutableArray<ChordModifier> All { get; } =
    [
        .. Rows.Select(r => new ChordModifier(r.Text, r.Kind, ChordTable.ParseDegrees(r.Degrees),
            [.. r.Spellings.Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(ChordTable.Expand).Prepend(r.Text).Distinct()], false)),
        .. Addable.Select(d => new ChordModifier("add" + d, ModifierKind.Add, ChordTable.ParseDegrees(d == "7" ? "b7" : d), [.. AddSpellings(d)], false)),
        .. Omittable.Select(n => new ChordModifier("no" + n, ModifierKind.Omit, [new(n, 0)], [.. OmitSpellings(n)], false)),
        new("6", ModifierKind.Add, [new(6, 0)], ["6"], true),
        new("7", ModifierKind.Add, [new(7, -1)], ["7"], true),
        new("9", ModifierKind.Add, [new(9, 0)], ["9", "2"], true),
        new("11", ModifierKind.Add, [new(11, 0)], ["11"], true),
        new("13", ModifierKind.Add, [new(13, 0)], ["13"], true),
        new("4", ModifierKind.Suspend, [new(4, 0)], ["4"], true),
    ];

    /// <summary>Each spelling and its modifier.</summary>
    public static FrozenDictionary<string, ChordModifier> BySpelling { get; } =
        All.SelectMany(m => m.Spellings.Select(s => (s, m))).DistinctBy(p => p.s).ToFrozenDictionary(p => p.s, p => p.m);

    internal static int LongestSpelling { get; } = BySpelling.Keys.Max(k => k.Length);

    private static IEnumerable<string> AddSpellings(string degree)
    {
        var names = degree switch { "9" => ["9", "2"], "11" => ["11", "4"], "b9" => ["b9", "b2"], "#11" => ["#11", "#4"], _ => new[] { degree } };
        return names.SelectMany(n => new[] { "add" + n, "Add" + n, "ADD" + n, "add(" + n + ")" });
    }

    private static IEnumerable<string> OmitSpellings(int number)
    {
        string[] names = number switch { 1 => ["1", "root"], 3 => ["3", "3rd"], 5 => ["5", "5th"], 7 => ["7", "7th"], _ => [number.ToString(System.Globalization.CultureInfo.InvariantCulture)] };
        return names.SelectMany(n => new[] { "no" + n, "omit" + n, "No" + n, "Omit" + n, "NO" + n, "OMIT" + n });
    }
}
