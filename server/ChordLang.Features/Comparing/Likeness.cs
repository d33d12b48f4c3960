// How alike two bars are: enough to tell a bar that was changed from one that was put in.
namespace ChordLang.Features.Comparing;

/// <summary>Compares bars.</summary>
internal static class Likeness
{
    // Equal bars always win; a bar that has nothing in common still pairs with the one in its place rather than go and come.
    private const double Same = 1, SameSound = 0.9, SameMoved = 0.8, Part = 0.7, SameSection = 0.02;

    /// <summary>Of two bars that have nothing in common.</summary>
    public const double Least = 0.05;

    /// <summary>From <see cref="Least"/> to 1.</summary>
    public static double Of(BarMusic old, BarMusic now)
    {
        var section = old.Section?.Name == now.Section?.Name ? SameSection : 0;
        if (old.Own == now.Own)
            return Same + section;
        if (old.Events.Length > 0 && old.Sound == now.Sound)
            return SameSound + (old.Harmony == now.Harmony ? SameSection : 0) + section;
        if (Moved(old, now) is not null)
            return SameMoved + section;
        var (chords, notes) = (Common(old.Chords.Select(c => $"{c.Offset}{c.Chord.Symbol?.Text}"), now.Chords.Select(c => $"{c.Offset}{c.Chord.Symbol?.Text}")),
            Common(old.Events.SelectMany(Notes), now.Events.SelectMany(Notes)));
        var alike = old.Events.Length == 0 && now.Events.Length == 0 ? chords : (chords + 2 * notes) / 3;
        return Least + Part * alike + section;
    }

    /// <summary>The semitones by which all notes, or where there are none all chords, of a bar were moved, counts kept; null where they were not.</summary>
    public static int? Moved(BarMusic old, BarMusic now)
    {
        var (a, b) = (old.Events.SelectMany(e => e.Notes.Select(n => (n.Onset, n.End, n.Midi))).Order().ToList(), now.Events.SelectMany(e => e.Notes.Select(n => (n.Onset, n.End, n.Midi))).Order().ToList());
        if (a.Count == 0 || a.Count != b.Count || a.Zip(b).Any(p => p.First.Onset != p.Second.Onset || p.First.End != p.Second.End))
            return null;
        var by = b[0].Midi - a[0].Midi;
        return by != 0 && a.Zip(b).All(p => p.Second.Midi - p.First.Midi == by) ? by : null;
    }

    private static IEnumerable<string> Notes(EventMusic e) => e.Notes.IsEmpty ? [$"{e.Offset}{e.Kind}"] : e.Notes.Select(n => $"{n.Onset}:{n.Midi}");

    // What two lists share, of what they hold together.
    private static double Common(IEnumerable<string> old, IEnumerable<string> now)
    {
        var (left, total, common) = (old.GroupBy(o => o).ToDictionary(g => g.Key, g => g.Count()), 0, 0);
        total = left.Values.Sum();
        foreach (var item in now)
        {
            total++;
            if (left.TryGetValue(item, out var n) && n > 0)
            {
                left[item] = n - 1;
                common++;
            }
        }
        return total == 0 ? 1 : 2.0 * common / total;
    }
}
