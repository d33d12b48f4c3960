// What speaks for a key when only chords are known, as named features that a table weighs.
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Keys;

namespace ChordLang.Harmony.Keys;

/// <summary>Features of a whole chart under one key.</summary>
public static class KeyFeatures
{
    // Brings counts of steps to the size of the shares of time.
    private const double StepScale = 3;

    /// <summary>Names and values of the features.</summary>
    /// <param name="chart">The chart; at least one chord.</param>
    /// <param name="tonic">Pitch class of the supposed tonic.</param>
    /// <param name="mode">Major or minor.</param>
    public static IEnumerable<(string Name, double Value)> Of(Chart chart, int tonic, Mode mode)
    {
        var sign = mode == Mode.Major ? "major" : "minor";
        var chords = chart.Chords;
        var total = chords.Sum(c => c.Duration);
        var names = chords.Select(c => $"{(c.Chord.Root.PitchClass - tonic + 12) % 12}{c.Chord.Colour()}").ToArray();
        var changes = 0;
        for (var i = 1; i < names.Length; i++)
            changes += names[i] == names[i - 1] ? 0 : 1;
        var steps = Math.Max(1, changes);       // A chart that stays on one chord takes no step.
        string? firstRest = null, lastRest = null;
        for (var i = 0; i < names.Length; i++)
        {
            yield return ($"{sign} time {names[i]}", chords[i].Duration / total);
            if (i == 0 || names[i] == names[i - 1])
                continue;
            yield return ($"{sign} step {names[i - 1]} {names[i]}", StepScale / steps);
            if (Rests(chart, i))
            {
                firstRest ??= names[i];
                lastRest = names[i];
            }
        }
        var bars = chords[^1].Bar - chords[0].Bar + 1;
        for (var i = 0; i < names.Length; i++)
        {
            var (bar, fromEnd) = (chords[i].Bar - chords[0].Bar, chords[^1].Bar - chords[i].Bar);
            if (chords[i].Onset == 0 && bar % 8 is 0 or 6)
                yield return ($"{sign} eight {bar % 8} {names[i]}", 8.0 / bars);
            if (chords[i].Onset == 0 && fromEnd < 4)
                yield return ($"{sign} end {fromEnd} {names[i]}", 1);
            if (i + 2 < names.Length)
                yield return ($"{sign} three {names[i]} {names[i + 1]} {names[i + 2]}", StepScale / steps);
        }
        yield return ($"{sign} loop {names[^1]} {names[0]}", 1);
        var rests = Enumerable.Range(1, names.Length - 1).Where(i => names[i] != names[i - 1] && Rests(chart, i)).ToArray();
        foreach (var i in rests)
            yield return ($"{sign} rest {names[i]}", 3.0 / rests.Length);
        for (var n = 0; n < 12; n++)
            yield return ($"{sign} tone {n}", 2 * chords.Where(c => c.Chord.Asks((n + tonic - c.Chord.Root.PitchClass + 24) % 12)).Sum(c => c.Duration) / total);
        foreach (var name in names.Distinct())
            yield return ($"{sign} has {name}", 0.5);
        yield return ($"{sign} first {names[0]}", 1);
        yield return ($"{sign} last {names[^1]}", 1);
        yield return ($"{sign} rest first {firstRest ?? "none"}", 1);
        yield return ($"{sign} rest last {lastRest ?? "none"}", 1);
    }

    // A dominant falls a fifth or a semitone into a chord that can be a tonic.
    private static bool Rests(Chart chart, int at)
    {
        var (before, here) = (chart.Chords[at - 1].Chord, chart.Chords[at].Chord);
        var down = (before.Root.PitchClass - here.Root.PitchClass + 12) % 12;
        return down is 7 or 1 && before.Family() is ChordFamily.Dominant or ChordFamily.Major && here.Family() is ChordFamily.Major or ChordFamily.Minor;
    }
}
