// Finds the line cliché: a chord that stays while one voice of it walks by semitones.
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Functions;

/// <summary>Rules for line clichés. Common practice: the root walks down to the sixth, or the fifth up to the seventh; in an inner voice, or the first in the bass.</summary>
internal static class MovingLines
{
    private const int LeastChords = 3;

    // Degrees of the walk, above the root of the chord that stays.
    private static readonly Degree[] Down = [new(1, 0), new(7, 0), new(7, -1), new(6, 0), new(6, -1)];
    private static readonly Degree[] Up = [new(5, 0), new(5, 1), new(6, 0), new(7, -1)];
    private static readonly Degree[] UpAndBack = [new(5, 0), new(5, 1), new(6, 0), new(5, 1)];

    /// <summary>The line that begins at a chord: its last chord, and what walks, as "A G# G F#"; or null.</summary>
    public static (int Last, string Text)? From(KeyedChart keyed, int at)
    {
        (int Last, string Text)? longest = null;
        foreach (var (line, voice, here) in new (Degree[], string, Func<Chord, Degree[], int, bool>)[] { (Down, "one voice", Inner), (Up, "one voice", Inner), (UpAndBack, "one voice", Inner), (Down, "the bass", InBass) })
            if (Walk(keyed, at, line, here) is { } last && !(longest?.Last >= last))
                longest = (last, $"{voice} walks {Names(keyed, at, line, last)}");
        return longest;
    }

    private static int? Walk(KeyedChart keyed, int at, Degree[] line, Func<Chord, Degree[], int, bool> here)
    {
        var k = at;
        while (k < keyed.Length && k - at < line.Length && keyed.Motion(at, k) == 0 && here(keyed.Chart.Chords[k].Chord, line, k - at))
            k++;
        return k - at >= LeastChords ? k - 1 : null;
    }

    // The chord asks for this step of the line and for no other; the first step is the plain chord.
    private static bool Inner(Chord chord, Degree[] line, int step)
    {
        if (chord.Bass is not null)
            return false;
        var others = line.Skip(1).Where(d => d.Interval != line[step].Interval);
        return chord.Asks(line[step].Interval) && others.All(d => !chord.Asks(d.Interval));
    }

    private static bool InBass(Chord chord, Degree[] line, int step) =>
        (chord.Bass ?? chord.Root).PitchClass == (chord.Root.PitchClass + line[step].Interval) % 12;

    private static string Names(KeyedChart keyed, int at, Degree[] line, int last) =>
        string.Join(' ', Enumerable.Range(0, last - at + 1).Select(k => line[k].Above(keyed.Chart.Chords[at].Chord.Root)));
}
