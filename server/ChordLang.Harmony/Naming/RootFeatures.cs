// What speaks for or against a pitch class as the root of a sound, as named features that a table weighs.

namespace ChordLang.Harmony.Naming;

/// <summary>The features of one supposed root.</summary>
public static class RootFeatures
{
    /// <summary>Names of the features that hold.</summary>
    /// <param name="intervals">Bit <c>n</c> set: the pitch class <c>n</c> semitones above the supposed root sounds (0 to 11).</param>
    /// <param name="bass">The lowest pitch, in semitones above the supposed root, 0 to 11.</param>
    public static IEnumerable<string> Of(int intervals, int bass)
    {
        var reading = ToneReading.Of(intervals);
        var third = reading.Third?.ToString() ?? "no3";
        var seventh = reading.Seventh?.ToString() ?? "no7";
        var family = $"{third} {seventh}";
        yield return $"frame {third} {reading.Fifth?.ToString() ?? "no5"} {seventh}";
        yield return $"family {family}";
        yield return $"fifth {reading.Fifth?.ToString() ?? "no5"} in {third}";
        yield return reading.Rootless ? "root absent" : bass == 0 ? "root in the bass" : "root above the bass";
        if (reading.Rootless)
            yield return $"rootless {family}";
        yield return $"bass {bass}";
        yield return $"bass {bass} in {third}";
        if (!reading.Sounding.Any(d => d.Interval == bass && d.Number is 1 or 3 or 5 or 7))
            yield return "bass foreign to the seventh chord";
        yield return $"tensions {reading.Tensions.Length}";
        foreach (var tension in reading.Tensions)
        {
            yield return $"tension {tension}";
            yield return $"tension {tension} in {family}";
        }
    }
}
