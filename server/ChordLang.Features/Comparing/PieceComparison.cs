// Compares two versions of a piece and tells the difference as a musician would.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;

namespace ChordLang.Features.Comparing;

/// <summary>Compares pieces.</summary>
public static class PieceComparison
{
    /// <summary>What became of the old version. The work grows with the product of the bars between the first and the last that differ.</summary>
    public static Comparison Of(Piece old, Piece now)
    {
        var (was, left) = (BarMusic.Of(old), BarMusic.Of(now));
        var (before, after) = (was.Where(Holds).Select(b => b.Own).ToHashSet(StringComparer.Ordinal), left.Where(Holds).Select(b => b.Own).ToHashSet(StringComparer.Ordinal));
        // A bar that is found whole elsewhere has moved, however much the one in its place is like it.
        var pairs = Alignment.Of(was.Length, left.Length, (i, j) => was[i].Own == left[j].Own,
            (i, j) => was[i].Own != left[j].Own && (after.Contains(was[i].Own) || before.Contains(left[j].Own)) ? Likeness.Least : Likeness.Of(was[i], left[j]));
        var changes = new List<Change>();
        changes.AddRange(Titles(old, now));
        changes.AddRange(SettingChanges.Of(old, now, [.. pairs.Select(p => (was[p.Old], left[p.New]))]));
        changes.AddRange(Bars(was, left, pairs, KeyMoved(old, now)));
        changes.AddRange(LineChanges.Of(old, now, left));
        if (changes.Count == 0 && old.Tree.Source.Text != now.Tree.Source.Text)
            changes.Add(new(null, null, ChangeKind.Format, "formatting only"));
        return new([.. changes], ComparisonWords.Sentences(changes), ComparisonWords.Summary(changes));
    }

    private static IEnumerable<Change> Titles(Piece old, Piece now)
    {
        foreach (var (what, a, b) in new[] { ("title", old.Title, now.Title), ("author", old.By, now.By), ("tags", string.Join(", ", old.Tags), string.Join(", ", now.Tags)) })
            if ((a ?? "") != (b ?? ""))
                yield return new(null, null, ChangeKind.Words, SettingChanges.Say(what, a, b));
    }

    private static IEnumerable<Change> Bars(ImmutableArray<BarMusic> was, ImmutableArray<BarMusic> left, ImmutableArray<(int Old, int New)> pairs, int? keyMoved)
    {
        var (found, gone) = (pairs.ToDictionary(p => p.New, p => p.Old), Enumerable.Range(0, was.Length).Except(pairs.Select(p => p.Old)).ToList());
        var told = new List<(double Place, Change Change)>();
        foreach (var (now, i) in left.Select((b, i) => (b, i)))
            if (found.TryGetValue(i, out var old))
                told.AddRange(new BarChanges(was[old], now, keyMoved).All().Select(c => ((double)i, c)));
            else if (gone.Where(g => was[g].Own == now.Own && Holds(now)).Select(g => (int?)g).FirstOrDefault() is { } from)
            {
                gone.Remove(from);
                told.Add((i, new(now.Bar.Number, now.Section?.Name, ChangeKind.Moved, $"moved here from bar {was[from].Bar.Number}")
                    { From = was[from].Bar.Number, Group = $"{now.Bar.Number - was[from].Bar.Number}" }));
            }
            else
                told.Add((i, new(now.Bar.Number, now.Section?.Name, ChangeKind.Inserted, $"put in{Chords(now)}") { Group = "" }));
        foreach (var old in gone)
        {
            var before = pairs.Where(p => p.Old < old).Select(p => p.New).DefaultIfEmpty(-1).Last();
            told.Add((before + 0.5, new(was[old].Bar.Number, was[old].Section?.Name, ChangeKind.Removed, $"taken out{Chords(was[old])}") { Group = "" }));
        }
        return told.OrderBy(t => t.Place).Select(t => t.Change);
    }

    // A bare bar has no content to be known by.
    private static bool Holds(BarMusic bar) => bar.Events.Length > 0 || bar.Chords.Any(c => !c.Chord.Carried);

    private static string Chords(BarMusic bar) => bar.Chords.Length == 0 ? "" : $" ({string.Join(' ', bar.Chords.Select(c => c.Chord.Symbol?.Text ?? "N.C."))})";

    private static int? KeyMoved(Piece old, Piece now) => old.Settings.Key is { } a && now.Settings.Key is { } b && a.Fifths != b.Fifths
        ? Semitones.Up(7 * (b.Fifths - a.Fifths)) is var up && up > 6 ? up - 12 : up : null;
}
