// Says in a clause why a name fits a sound.
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Naming;

internal static class ReadingReason
{
    private static readonly string[] Numbers = ["", "root", "second", "third", "fourth", "fifth", "sixth", "seventh", "", "ninth", "", "eleventh", "", "thirteenth"];

    public static string Of(string symbol, PitchName root, PitchName low, ToneReading reading, int over, bool slash, bool foreign, string? context)
    {
        var chord = slash ? symbol[..symbol.LastIndexOf('/')] : symbol;
        var clause = reading switch
        {
            { Rootless: true } => $"{chord} without its root{Kept(reading, root)}, left to the bass player",
            _ when foreign => $"{chord} over {low}, a bass outside the chord",
            _ when over == 0 && reading.Missing.IsEmpty => $"root {root} in the bass and nothing missing",
            _ when over == 0 => $"root {root} in the bass, without its {Words(reading)}",
            _ => $"{chord} with its {Word(reading.Sounding.First(d => d.Interval == over))} {low} in the bass",
        };
        if (Upper(reading, root) is { } upper)
            clause += $"; upper structure {upper}";
        return context is null ? clause : $"{clause}; {context}";
    }

    private static string Kept(ToneReading reading, PitchName root)
    {
        var guides = new[] { reading.Third, reading.Seventh }.OfType<Degree>().Select(d => $"{Word(d)} {d.Above(root)}").ToList();
        return guides.Count == 0 ? "" : $" ({string.Join(", ", guides)})";
    }

    private static string Words(ToneReading reading) => string.Join(" and ", reading.Missing.Select(Word));

    /// <summary>A degree as a teacher says it: flat ninth.</summary>
    internal static string Word(Degree degree)
    {
        var number = degree.Number < Numbers.Length && Numbers[degree.Number].Length > 0 ? Numbers[degree.Number] : degree.ToString();
        return (degree.Number, degree.Alteration) switch
        {
            (3, -1) => "minor third", (7, -1) => "flat seventh", (7, 0) => "major seventh", (7, -2) => "diminished seventh", (_, 0) => number,
            (_, > 0) => "sharp " + number, _ => "flat " + number,
        };
    }

    // A major or minor triad among the upper tones that carries two tensions, as pianists and arrangers name it.
    private static string? Upper(ToneReading reading, PitchName root)
    {
        if (reading.Third is null || reading.Seventh is not { Number: 7 } || reading.Tensions.Length < 2)
            return null;
        var set = reading.Sounding.Aggregate(0, (bits, d) => bits | 1 << d.Interval);
        foreach (var degree in reading.Sounding.Where(d => d.Interval != 0))
            foreach (var (third, quality) in new[] { (4, "major"), (3, "minor") })
            {
                var triad = new[] { degree.Interval, (degree.Interval + third) % 12, (degree.Interval + 7) % 12 };
                if (triad.All(n => (set >> n & 1) != 0) && triad.Count(n => reading.Tensions.Any(t => t.Interval == n)) >= 2)
                    return $"{degree.Above(root)} {quality} triad";
            }
        return null;
    }
}
