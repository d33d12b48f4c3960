// The closed list of what can be configured, and what each value looks like.
using System.Collections.Immutable;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Configuring;

/// <summary>A setting that may stand in chordlang.json or among an editor's settings.</summary>
/// <param name="Key">Its word, the notation's own where the notation has one.</param>
/// <param name="Summary">What it says, in one line.</param>
/// <param name="Example">A value, as the notation writes it.</param>
/// <param name="Pattern">What a value looks like (ECMA-262, as JSON Schema has it).</param>
/// <param name="Numeric">True where a JSON number is the natural way to write it.</param>
public sealed record ConfigurationKey(string Key, string Summary, string Example, string Pattern, bool Numeric = false)
{
    /// <summary>Why a value cannot be one, as a sentence without a full stop, or null where it is good.</summary>
    public string? Fault(string value)
    {
        if (Key == ConfigurationKeys.Hand)
            return Fretboard.Hands.Hand.Named(value) is null ? "hand is small, medium or large" : null;
        var line = LineParser.Parse($"{Key} {value}");
        return line is SettingLine { Value: not null, Findings.IsEmpty: true } ? null
            : line.Findings is [var first, ..] ? first.Message.TrimEnd('.') : $"write it as the notation does: {Example}";
    }
}

/// <summary>All keys.</summary>
public static class ConfigurationKeys
{
    /// <summary>The only key of <see cref="Settings"/> that is no setting of the notation.</summary>
    public const string Hand = "hand";

    /// <summary>Levels by check or family of checks.</summary>
    public const string Checks = "checks";

    /// <summary>Settings for some of the files, by glob.</summary>
    public const string Files = "files";

    /// <summary>Globs of files that folders leave out.</summary>
    public const string Ignore = "ignore";

    /// <summary>Where an editor finds the schema of the file; it says nothing itself.</summary>
    public const string Schema = "$schema";

    /// <summary>The settings that a piece takes over where it says nothing itself.</summary>
    public static ImmutableArray<ConfigurationKey> Settings { get; } =
    [
        new("naming", "How closely names are held against sounds.", "strict", "^(jazz|strict)$"),
        new(Hand, "Whose reach counts where a piece declares no reach. Hands differ: stop when it hurts, and ask a teacher or doctor.", "small", "^(small|medium|large)$"),
        new("reach", "How far the hand reaches: the fret of the first finger, and the farthest fret from there.", "5 to 9", "^[0-9]{1,2} to [0-9]{1,2}$"),
        new("strings", "The open strings, lowest first, 4 to 9 of them.", "D2 A2 D3 G3 B3 E4", "^[A-G](b|#|bb|##)?[0-9]( [A-G](b|#|bb|##)?[0-9]){3,8}$"),
        new("capo", "The fret of the capo; frets count from it.", "2", "^[0-9]{1,2}$", true),
        new("frets", "Frets of the neck.", "21", "^[0-9]{1,2}$", true),
        new("scale-length", "Length of the open string, with its unit.", "628 mm", "^[0-9]+(\\.[0-9]+)? (mm|cm|in)$"),
    ];

    /// <summary>Every word that may stand at the top of the file.</summary>
    public static ImmutableArray<string> Top { get; } = [.. Settings.Select(s => s.Key), Checks, Files, Ignore, Schema];

    /// <summary>Every word that may stand in a part of <c>files</c>.</summary>
    public static ImmutableArray<string> Part { get; } = [.. Settings.Select(s => s.Key), Checks];

    /// <summary>The levels, gravest first: those of findings, and <c>off</c>.</summary>
    public static ImmutableArray<string> Levels { get; } = [.. Enum.GetValues<Severity>().Select(s => s.ToString().ToLowerInvariant()), "off"];

    /// <summary>Families of checks, by the word that their names begin with.</summary>
    public static ImmutableArray<string> Families { get; } = [.. CheckCatalogue.All.Select(c => Family(c.Code)).Distinct()];

    /// <summary>The family of a check.</summary>
    public static string Family(string code) => code[..code.IndexOf('-', StringComparison.Ordinal)];
}
