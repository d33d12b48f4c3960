// Puts changes into sentences, and into the one line that a commit begins with.
using System.Collections.Immutable;
using ChordLang.Features.Hovers;

namespace ChordLang.Features.Comparing;

/// <summary>Words of a comparison.</summary>
internal static class ComparisonWords
{
    private const int LongestSummary = 72;

    /// <summary>A sentence for each change; bars in a row with one change are told together.</summary>
    public static ImmutableArray<string> Sentences(IReadOnlyList<Change> changes)
    {
        var groups = Groups(changes.Where(c => c.Kind != ChangeKind.Format)).Select(Sentence).ToList();
        if (changes.Any(c => c.Kind == ChangeKind.Format))
            groups.Add(groups.Count == 0 ? "Formatting only: the same music." : "Formatting only elsewhere.");
        return [.. groups];
    }

    /// <summary>One line, without a full stop.</summary>
    public static string Summary(IReadOnlyList<Change> changes)
    {
        var music = changes.Where(c => c.IsMusic).ToList();
        if (music.Count == 0)
            return changes.Count == 0 ? "No change" : changes.Any(c => c.Kind == ChangeKind.Words) ? "Text only: the same music"
                : changes.Any(c => c.Kind == ChangeKind.Notice) ? "Comments only: the same music" : "Formatting only";
        if (Groups(music) is [var only] && Sentence(only).TrimEnd('.') is { Length: <= LongestSummary } sentence)
            return sentence;
        var parts = music.GroupBy(c => c.Kind).SelectMany(g => Counted(g.Key, [.. g])).ToList();
        var line = Say.Capital(parts[0]);
        for (var i = 1; i < parts.Count; i++)
            if (line.Length + 2 + parts[i].Length + (i + 1 < parts.Count ? ", and more".Length : 0) <= LongestSummary)
                line += ", " + parts[i];
            else
                return line + ", and more";
        return line;
    }

    private static IEnumerable<string> Counted(ChangeKind kind, List<Change> changes)
    {
        string Bars(string what) => $"{Say.Number(changes.Count, "bar")} {what}";
        return kind switch
        {
            ChangeKind.Inserted => [Bars("put in")],
            ChangeKind.Removed => [Bars("taken out")],
            ChangeKind.Moved => [Bars("moved")],
            ChangeKind.Chord => [$"{Say.Number(changes.Sum(c => c.Count), "chord")} changed"],
            ChangeKind.Transposed => changes.GroupBy(c => c.Text).Select(g => $"{Say.Number(g.Count(), "bar")} {g.Key}"),
            ChangeKind.Notes => [Bars("with other notes")],
            ChangeKind.Lengths => [Bars("with other lengths")],
            ChangeKind.Strings => [Bars("on other strings")],
            ChangeKind.Fingers => [Bars("re-fingered")],
            ChangeKind.Marks => [Bars("with other marks")],
            ChangeKind.Leaning => changes.GroupBy(c => c.Group).Select(g => $"{g.Key}: {Say.Number(g.Count(), "bar")} {(g.Count() == 1 ? "sounds" : "sound")} different"),
            ChangeKind.Setting => changes.Select(c => c.Text.Replace("from here on ", "", StringComparison.Ordinal)),
            _ => ["form changed"],
        };
    }

    private static List<List<Change>> Groups(IEnumerable<Change> changes)
    {
        var groups = new List<List<Change>>();
        foreach (var change in changes)
            if (groups is [.., [.., var last] open] && last is { Bar: { } bar } && change.Bar == bar + 1 && (change.Kind, change.Section, change.Group) == (last.Kind, last.Section, last.Group))
                open.Add(change);
            else
                groups.Add([change]);
        return groups;
    }

    private static string Sentence(List<Change> group)
    {
        var (first, last) = (group[0], group[^1]);
        var bars = first.Bar is not { } bar ? "" : group.Count > 1 ? $"bars {bar}–{last.Bar}" : bar == 0 ? "pickup" : $"bar {bar}";
        var place = first.Kind == ChangeKind.Removed && bars.Length > 0 ? $"old {bars}" : bars;
        var where = string.Join(", ", new[] { first.Section, place }.Where(p => !string.IsNullOrEmpty(p)));
        var text = group.Count == 1 ? first.Text : first.Kind switch
        {
            ChangeKind.Inserted => "put in",
            ChangeKind.Removed => "taken out",
            ChangeKind.Moved => $"moved here from bars {first.From}–{last.From}",
            ChangeKind.Leaning => first.Text.Replace("so it sounds", "so they sound", StringComparison.Ordinal),
            _ => first.Text,
        };
        return Say.Capital(where.Length == 0 ? text + "." : $"{where}: {text}.");
    }
}
