// Joins two changed versions of a lesson by section and bar, and leaves to people what music leaves in doubt.
using System.Collections.Immutable;
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Merging;

/// <summary>A merge.</summary>
/// <param name="Text">The result; with conflict markers where something is in doubt.</param>
/// <param name="Doubts">Why, one sentence a conflict; none for a clean merge.</param>
public sealed record MergedLesson(string Text, ImmutableArray<string> Doubts);

/// <summary>Merges lessons.</summary>
public static class LessonMerge
{
    /// <summary>
    /// Merges. Bars that only one side changed are taken from it where they sound as they did there; rows of a bar that both changed are joined by
    /// count. Null where this cannot be done better than by lines: a version that holds markers of an unfinished merge, or a doubt that belongs to no one place.
    /// </summary>
    /// <param name="old">The version that both come from.</param>
    /// <param name="ours">Ours.</param>
    /// <param name="theirs">Theirs.</param>
    /// <param name="library">Where shapes of other files come from, or null.</param>
    /// <param name="marker">How many signs a conflict marker has.</param>
    public static MergedLesson? Merge(SourceText old, SourceText ours, SourceText theirs, ILibrary? library = null, int marker = 7)
    {
        var trees = new[] { old, ours, theirs }.Select(s => SyntaxTree.Parse(s)).ToList();
        if (trees.Any(t => t.Lines.Any(l => l is MergeMarkerLine)))
            return null;
        var units = trees.Select(MergeUnit.Of).ToList();
        var end = ours.Lines.FirstOrDefault(l => l.EndLength > 0) is { EndLength: > 0 } line ? ours.Text.Substring(line.End, line.EndLength) : "\n";
        var parts = MergePart.Of(units[0], units[1], units[2]);
        // In doubt, ours stands in for the part while the rest is looked at.
        var (text, lines) = Written(parts, end);
        var versions = trees.Select(t => new MergeVersion(Binder.Bind(t, library))).ToList();
        var result = new MergeVersion(Binder.Bind(SyntaxTree.Parse(text), library));
        foreach (var (part, why) in MergeDoubts.Find(parts, lines, versions[0], versions[1], versions[2], result).ToList())
        {
            if (part < 0)
                return null;
            if (parts[part].Doubt is not null)
                continue;
            if (Whole(parts[part].Ours, end) == Whole(parts[part].Theirs, end))
                return null;
            parts = parts.SetItem(part, parts[part] with { Text = null, Doubt = why });
        }
        if (parts.All(p => p.Doubt is null))
            return new(Canonical(trees[1]) && Canonical(trees[2]) ? Formatter.Formatted(SourceText.From(text)).Text : text, []);
        return new(Marked(parts, end, marker), [.. parts.Select(p => p.Doubt).OfType<string>()]);
    }

    private static bool Canonical(SyntaxTree tree) => Formatter.Format(tree).IsEmpty;

    private static (string Text, ImmutableArray<int> Lines) Written(ImmutableArray<MergePart> parts, string end)
    {
        var (text, lines, count) = (new StringBuilder(), ImmutableArray.CreateBuilder<int>(parts.Length), 0);
        foreach (var part in parts)
        {
            lines.Add(count);
            var own = Ended(part.Text is { } joined ? part.Side == MergeSide.Both ? Lined(joined, end) : joined : Whole(part.Ours, end), end);
            text.Append(own);
            count += SourceText.From(own).Lines.Length - 1;
        }
        return (text.ToString(), lines.MoveToImmutable());
    }

    private static string Marked(ImmutableArray<MergePart> parts, string end, int marker)
    {
        var text = new StringBuilder();
        for (var i = 0; i < parts.Length; i++)
        {
            if (parts[i].Doubt is null)
            {
                text.Append(Ended(parts[i].Side == MergeSide.Both ? Lined(parts[i].Text!, end) : parts[i].Text!, end));
                continue;
            }
            // Doubts side by side, and the blank lines between them, are one conflict.
            var last = i;
            for (var next = i + 1; next < parts.Length && (parts[next].Doubt is not null || parts[next] is { Side: MergeSide.Neither, Base: [{ Head: BlankLine }] }); next++)
                last = parts[next].Doubt is not null ? next : last;
            var stretch = parts[i..(last + 1)];
            text.Append(new string('<', marker)).Append($" ours: {string.Join("; ", stretch.Select(p => p.Doubt).OfType<string>().Distinct())}").Append(end)
                .Append(string.Concat(stretch.Select(p => Whole(p.Ours, end)))).Append(new string('=', marker)).Append(end)
                .Append(string.Concat(stretch.Select(p => Whole(p.Theirs, end)))).Append(new string('>', marker)).Append(" theirs").Append(end);
            i = last;
        }
        return text.ToString();
    }

    private static string Whole(ImmutableArray<MergeUnit> units, string end) => string.Concat(units.Select(u => Ended(u.Text, end)));

    // What was joined anew has the line ends of ours.
    private static string Lined(string text, string end) => end == "\n" ? text : text.Replace("\r\n", "\n", StringComparison.Ordinal).Replace("\n", end, StringComparison.Ordinal);

    private static string Ended(string text, string end) => text.Length == 0 || text[^1] is '\n' or '\r' ? text : text + end;
}
