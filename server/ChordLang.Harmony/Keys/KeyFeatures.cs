// What speaks for a key when only chords are known, as named features that a table weighs.
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Chords;
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
        foreach (var (name, value) in OfRoots(chart, tonic, names, total).Concat(OfForm(chart, names)).Concat(OfCadences(chart, names)))
            yield return ($"{sign} {name}", value);
    }

    // What share of time each degree is the root of, and how many roots last longer than the tonic.
    private static IEnumerable<(string Name, double Value)> OfRoots(Chart chart, int tonic, string[] names, double total)
    {
        var time = new double[12];
        foreach (var chord in chart.Chords)
            time[(chord.Chord.Root.PitchClass - tonic + 12) % 12] += chord.Duration / total;
        for (var n = 0; n < 12; n++)
            yield return ($"root {n}", 2 * time[n]);
        yield return ($"rank0 {time.Count(t => t > time[0])}", 0.5);
        // Pieces with few dominants close otherwise than those that are full of them.
        var dominants = chart.Chords.Where(c => c.Chord.IsDominant()).Sum(c => c.Duration) / total;
        var style = dominants < 0.1 ? "low" : dominants < 0.4 ? "mid" : "high";
        yield return ($"{style} first {names[0]}", 1);
        yield return ($"{style} last {names[^1]}", 1);
        for (var i = 0; i < names.Length; i++)
            yield return ($"{style} time {names[i]}", chart.Chords[i].Duration / total);
    }

    // The chords where parts of eight bars close, in the middle, and in the last bar but one; first and last of a short, a common and a long form.
    private static IEnumerable<(string Name, double Value)> OfForm(Chart chart, string[] names)
    {
        var bars = chart.Chords[^1].Bar - chart.Chords[0].Bar + 1;
        for (var part = 8; part <= Math.Min(bars + 1, 32); part += 8)
        {
            yield return ($"bar{part - 1} {names[At(chart, part - 1)]}", 0.5);
            if (part <= bars)
                yield return ($"bar{part} {names[At(chart, part)]}", 0.5);
        }
        yield return ($"half {names[At(chart, (bars + 1) / 2)]}", 0.5);
        yield return ($"B-1 {names[At(chart, Math.Max(1, bars - 1))]}", 0.7);
        var length = bars <= 16 ? "s" : bars <= 34 ? "m" : "l";
        yield return ($"len{length} first {names[0]}", 1);
        yield return ($"len{length} last {names[^1]}", 1);
    }

    // Where a two and a five lead to, and which of these goals is met most often.
    private static IEnumerable<(string Name, double Value)> OfCadences(Chart chart, string[] names)
    {
        var changes = Enumerable.Range(0, names.Length).Where(i => i == 0 || names[i] != names[i - 1]).ToArray();
        var goals = new List<string>();
        for (var i = 2; i < changes.Length; i++)
        {
            var (two, five, one) = (chart.Chords[changes[i - 2]].Chord, chart.Chords[changes[i - 1]].Chord, chart.Chords[changes[i]].Chord);
            if (two.Colour() is "m7" or "h" && five.IsDominant() && FallsAFifth(two, five) && FallsAFifth(five, one))
                goals.Add(names[changes[i]]);
        }
        if (goals.Count == 0)
            yield return ("nocad", 1);
        foreach (var goal in goals)
            yield return ($"cad {goal}", 2.0 / Math.Max(2, goals.Count));
        var counts = goals.CountBy(g => g).ToArray();
        foreach (var (goal, count) in counts)
            if (count == counts.Max(c => c.Value))
                yield return ($"cadmost {goal}", 1);
    }

    private static bool FallsAFifth(Chord from, Chord to) => (from.Root.PitchClass - to.Root.PitchClass + 12) % 12 == 7;

    // The chord that sounds where a bar begins, bars counted from the first one.
    private static int At(Chart chart, int bar)
    {
        var found = 0;
        for (var i = 0; i < chart.Chords.Length && chart.Chords[i].Bar - chart.Chords[0].Bar + 1 is var here && (here < bar || here == bar && chart.Chords[i].Onset == 0); i++)
            found = i;
        return found;
    }

    // A dominant falls a fifth or a semitone into a chord that can be a tonic.
    private static bool Rests(Chart chart, int at)
    {
        var (before, here) = (chart.Chords[at - 1].Chord, chart.Chords[at].Chord);
        var down = (before.Root.PitchClass - here.Root.PitchClass + 12) % 12;
        return down is 7 or 1 && before.Family() is ChordFamily.Dominant or ChordFamily.Major && here.Family() is ChordFamily.Major or ChordFamily.Minor;
    }
}
