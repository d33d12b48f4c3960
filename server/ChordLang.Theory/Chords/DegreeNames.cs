// How players call each of the twelve intervals under a chord: #9 over a major third, b3 without one.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>Names of intervals under a chord. Common practice: named tones as the symbol counts them; 9, 11, 13 where a seventh is asked for, else 2 or 9, 4, 6.</summary>
public static class DegreeNames
{
    /// <summary>The degrees of the intervals 0 to 11 under a chord that asks for these degrees.</summary>
    public static ImmutableArray<Degree> Of(ImmutableArray<Degree> asked)
    {
        var (major, minor) = (asked.Contains(new(3, 0)), asked.Contains(new(3, -1)));
        var seventh = asked.Any(d => d.Number == 7);
        var fifth = asked.Contains(new(5, 0));
        var names = new Degree[]
        {
            new(1, 0), new(9, -1), new(9, 0), major ? new(9, 1) : new(3, -1), new(3, 0), seventh ? new(11, 0) : new(4, 0),
            major && (fifth || seventh) ? new(11, 1) : new(5, -1), new(5, 0),
            seventh ? new(13, -1) : major ? new(5, 1) : new(6, -1), seventh ? new(13, 0) : new(6, 0), new(7, -1), new(7, 0),
        };
        if (minor && fifth && seventh)
            names[6] = new(11, 1);
        foreach (var d in asked)
            names[d.Interval] = d;
        return [.. names];
    }
}
