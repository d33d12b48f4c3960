// Joins one bar that both sides changed: chart and rows apart, rows count by count.
using System.Collections.Immutable;
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Features.Merging;

/// <summary>A joined bar, or why it cannot be joined.</summary>
/// <param name="Text">The lines, each with an end; null where both sides changed the same thing.</param>
/// <param name="Doubt">Why not.</param>
internal sealed record Joined(string? Text, string? Doubt);

/// <summary>Joins bars.</summary>
internal static class BarJoin
{
    /// <summary>Joins two changes of one bar.</summary>
    public static Joined Join(MergeUnit old, MergeUnit ours, MergeUnit theirs)
    {
        if (Read(old) is not { } b || Read(ours) is not { } o || Read(theirs) is not { } t)
            return new(null, "both sides changed this bar, and it cannot be read whole");
        var chart = Either(b.Chart, o.Chart, t.Chart) ?? Chart(b.Chart, o.Chart, t.Chart);
        if (chart is null)
            return new(null, "both sides changed its chords");
        var text = chart + "\n";
        foreach (var key in b.Rows.Keys.Union(o.Rows.Keys).Union(t.Rows.Keys))
        {
            var (was, left, right) = (b.Rows.GetValueOrDefault(key), o.Rows.GetValueOrDefault(key), t.Rows.GetValueOrDefault(key));
            var rows = new[] { was, left, right }.Select(r => r is null ? "" : r.Text).ToArray();
            if (Either(rows[0], rows[1], rows[2]) is { } row)
                text += row.Length > 0 ? row + "\n" : "";
            else if (was is null || left is null || right is null)
                return new(null, was is null ? $"both sides put in {Voice(key)}" : $"one side took out {Voice(key)}, which the other changed");
            else
            {
                var joined = Row(was, left, right, Voice(key));
                if (joined.Text is null)
                    return joined;
                text += joined.Text + "\n";
            }
        }
        return new(text, null);
    }

    // What the one side changed, where the other did not; null where both did, and not alike.
    private static string? Either(string old, string ours, string theirs)
    {
        var (b, o, t) = (MergeUnit.Squeeze(old), MergeUnit.Squeeze(ours), MergeUnit.Squeeze(theirs));
        return o == t || t == b ? ours : o == b ? theirs : null;
    }

    private static string Voice(string key) => char.IsDigit(key[0]) ? $"row {key}" : $"the voice {key}";

    private sealed record Parts(string Chart, Dictionary<string, RowLine> Rows);

    // A comment between rows has no count to be joined by.
    private static Parts? Read(MergeUnit unit)
    {
        var tree = SyntaxTree.Parse(unit.Text);
        var rows = new Dictionary<string, RowLine>(StringComparer.Ordinal);
        var unlabelled = 0;
        foreach (var line in tree.Lines.Skip(1))
            if (line is RowLine row && row.Findings.IsEmpty)
            {
                if (!rows.TryAdd(row.Voice ?? $"{++unlabelled}", row))
                    return null;
            }
            else if (line is not BlankLine)
                return null;
        return tree.Lines[0] is ChartLine { Findings.IsEmpty: true } ? new(tree.Lines[0].Text, rows) : null;
    }

    // A line of several bars is joined bar by bar.
    private static string? Chart(string old, string ours, string theirs)
    {
        var (b, o, t) = (Bars(old), Bars(ours), Bars(theirs));
        if (b.Length < 2 || b.Length != o.Length || b.Length != t.Length)
            return null;
        var joined = b.Select((bar, i) => Either(bar, o[i], t[i])).ToList();
        return joined.Contains(null) ? null : string.Join(' ', joined.Select(j => j!.Trim()));
    }

    private static ImmutableArray<string> Bars(string line) => SyntaxTree.Parse(line).Lines[0] is ChartLine chart ? [.. chart.Bars.Select(b => chart[b.Span])] : [];

    private static Joined Row(RowLine old, RowLine ours, RowLine theirs, string voice)
    {
        if (new[] { old, ours, theirs }.Any(r => r.Events.Any(e => e.To is not null && RunReading.Offsets(e) is null)))
            return new(null, $"both sides changed {voice}, and a run in it does not come out even");
        var (b, o, t) = (Counts(old), Counts(ours), Counts(theirs));
        var result = new SortedDictionary<Rational, (string Text, Side From)>();
        foreach (var at in b.Keys.Union(o.Keys).Union(t.Keys))
        {
            var (was, left, right) = (b.GetValueOrDefault(at, ""), o.GetValueOrDefault(at, ""), t.GetValueOrDefault(at, ""));
            if (left != was && right != was && left != right)
                return new(null, $"both sides changed count {CountSyntax.Write(at)} of {voice}");
            var (text, from) = left == right ? (left, Side.Both) : right == was ? (left, Side.Ours) : (right, Side.Theirs);
            if (text.Length > 0)
                result[at] = (text, left == right && left == was ? Side.Neither : from);
        }
        if (Leaning(result, o, t) is { } doubt)
            return new(null, $"{doubt} of {voice} leans on a sound that the other side changed");
        var label = ours.Label is { } l ? ours[l] + " " : "";
        return new($"    {label}{string.Join("   ", result.Select(r => r.Value.Text))}", null);
    }

    private enum Side { Neither, Ours, Theirs, Both }

    // A sound that goes on, or is struck again, or is reached from the one before it, must follow the sound that its own side saw before it.
    private static string? Leaning(SortedDictionary<Rational, (string Text, Side From)> row, SortedDictionary<Rational, string> ours, SortedDictionary<Rational, string> theirs)
    {
        string? before = null;
        foreach (var (at, (text, from)) in row)
        {
            if (before is not null && Leans(text))
            {
                var (left, right) = (Before(ours, at), Before(theirs, at));
                if (from switch { Side.Ours => before != left, Side.Theirs => before != right, _ => before != left && before != right })
                    return $"count {CountSyntax.Write(at)}";
            }
            before = text;
        }
        return null;
    }

    private static string? Before(SortedDictionary<Rational, string> row, Rational at) => row.LastOrDefault(r => r.Key < at).Value;

    private static bool Leans(string text) => SyntaxTree.Parse("    " + text).Lines[0] is not RowLine { Events: [var e, ..] }
        || e.Sounds.Any(s => s.Sound is TiedSound or AgainSound || s.Sound is NotesSound { Notes: var notes } && notes.Any(n => n.Pitch is { Octave: null })
            || s.Marks.Any(m => m.Kind is MarkKind.Slur or MarkKind.Slide or MarkKind.Hammer or MarkKind.Pull));

    // Each sound with its count; a run is written out, so that both sides can change sounds of it.
    private static SortedDictionary<Rational, string> Counts(RowLine row)
    {
        var counts = new SortedDictionary<Rational, string>();
        foreach (var e in row.Events)
            if (e.To is null)
                counts[e.Count.Offset] = MergeUnit.Squeeze(row[e.Span]);
            else
                foreach (var (sound, i) in e.Sounds.Select((s, i) => (s, i)))
                    counts[RunReading.Offsets(e)!.Value[i]] = $"{CountSyntax.Write(RunReading.Offsets(e)!.Value[i])} {MergeUnit.Squeeze(row[sound.Span])}";
        return counts;
    }
}
