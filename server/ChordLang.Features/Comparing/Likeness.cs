// How alike two bars are: enough to tell a bar that was changed from one that was put in.
using System.Collections.Immutable;

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
        var (chords, notes) = (Common(old.ChordWords, now.ChordWords), Common(old.NoteWords, now.NoteWords));
        var alike = old.Events.Length == 0 && now.Events.Length == 0 ? chords : (chords + 2 * notes) / 3;
        return Least + Part * alike + section;
    }

    /// <summary>The semitones by which all notes, or where there are none all chords, of a bar were moved, counts kept; null where they were not.</summary>
    public static int? Moved(BarMusic old, BarMusic now)
    {
        var (a, b) = (old.Struck, now.Struck);
        if (a.IsEmpty || a.Length != b.Length || a.Zip(b).Any(p => p.First.Onset != p.Second.Onset || p.First.End != p.Second.End))
            return null;
        var by = b[0].Midi - a[0].Midi;
        return by != 0 && a.Zip(b).All(p => p.Second.Midi - p.First.Midi == by) ? by : null;
    }

    /// <summary>What two sorted lists share, of what they hold together: 1 where they are the same.</summary>
    public static double Common(ImmutableArray<string> old, ImmutableArray<string> now)
    {
        var common = 0;
        for (int i = 0, j = 0; i < old.Length && j < now.Length;)
            switch (Math.Sign(string.CompareOrdinal(old[i], now[j])))
            {
                case 0:
                    (common, i, j) = (common + 1, i + 1, j + 1);
                    break;
                case < 0:
                    i++;
                    break;
                default:
                    j++;
                    break;
            }
        return old.Length + now.Length == 0 ? 1 : 2.0 * common / (old.Length + now.Length);
    }
}
