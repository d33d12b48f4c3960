// Reads a row of numerals such as "ii V I" and finds it in a chart, in any key.
using System.Collections.Immutable;
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Search;

/// <summary>One numeral of a progression.</summary>
/// <param name="Interval">Semitones of the root above the tonic, 0 to 11.</param>
/// <param name="Minor">True for a small numeral, false for a capital one, null where either will do.</param>
/// <param name="Colour">What the suffix asks for, as a chord on C; null where none is written.</param>
public sealed record ProgressionStep(int Interval, bool? Minor, Chord? Colour);

/// <summary>A progression by degrees.</summary>
/// <param name="Steps">Its numerals; two or more, or one.</param>
public sealed record Progression(ImmutableArray<ProgressionStep> Steps)
{
    private static readonly string[] Romans = ["VII", "III", "VI", "IV", "II", "V", "I"];
    // A digit means the chord of the major key; one and four may be minor as well.
    private static readonly bool?[] Diatonic = [null, true, true, null, false, true, true];
    private static readonly int[] Degrees = [7, 3, 6, 4, 2, 5, 1];

    /// <summary>Reads numerals parted by blanks or hyphens; null where one of them is none, which <paramref name="wrong"/> then holds.</summary>
    public static Progression? Read(string text, out string? wrong)
    {
        var steps = ImmutableArray.CreateBuilder<ProgressionStep>();
        foreach (var word in text.Replace('♭', 'b').Replace('♯', '#').Split([' ', '-', '–', ',', '|'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (Step(word) is not { } step)
            {
                wrong = word;
                return null;
            }
            steps.Add(step);
        }
        wrong = steps.Count == 0 ? text : null;
        return steps.Count == 0 ? null : new(steps.ToImmutable());
    }

    /// <summary>Where it stands in a chart: index of the first chord, of the last one, and of the chord that carries its tonic's name.</summary>
    public IEnumerable<(int First, int Last, int Tonic)> In(ImmutableArray<IndexedChord> chords)
    {
        for (var at = 0; at < chords.Length; at++)
        {
            // A chord that is written twice in a row begins once.
            if (at > 0 && Fits(Steps[0], chords[at - 1].Chord) && Same(chords[at - 1], chords[at]))
                continue;
            var tonic = Mod(chords[at].Chord.Root.PitchClass - Steps[0].Interval);
            if (!Fits(Steps[0], chords[at].Chord) || Last(chords, at, tonic) is not { } last)
                continue;
            var local = Mod(chords[last].Chord.Root.PitchClass - chords[last].Does.Degree);
            if (local == tonic || Cadence)
                yield return (at, last, tonic);
        }
    }

    // A dominant that falls to its tonic says which key it means; any other row of degrees means something only in the key that holds.
    private bool Cadence => Steps is [.., { Interval: 7 or 1, Minor: not true }, { Interval: 0 }];

    private int? Last(ImmutableArray<IndexedChord> chords, int at, int tonic)
    {
        foreach (var step in Steps.Skip(1))
        {
            var next = at + 1;
            bool Here(int k) => Mod(chords[k].Chord.Root.PitchClass - tonic) == step.Interval && Fits(step, chords[k].Chord);
            while (next < chords.Length && !Here(next) && Same(chords[next - 1], chords[next]))
                next++;
            if (next >= chords.Length || !Here(next))
                return null;
            at = next;
        }
        return at;
    }

    // The same root and third: Dm7 and Dm9, G7sus4 and G7.
    private static bool Same(IndexedChord a, IndexedChord b) =>
        a.Chord.Root.PitchClass == b.Chord.Root.PitchClass && IsMinor(a.Chord) == IsMinor(b.Chord);

    private static bool Fits(ProgressionStep step, Chord chord) =>
        (step.Minor is not { } minor || IsMinor(chord) == minor)
        && (step.Colour is not { } colour || colour.Family() == chord.Family() && colour.Tones.All(t => chord.Asks(t.Degree.Interval)));

    private static bool IsMinor(Chord chord) => chord.Family() is ChordFamily.Minor or ChordFamily.HalfDiminished or ChordFamily.Diminished;

    private static ProgressionStep? Step(string word)
    {
        var sign = word.TakeWhile(c => c is 'b' or '#').Count();
        var (raised, rest) = (word[..sign].Sum(c => c == '#' ? 1 : -1), word[sign..]);
        if (rest.Length > 0 && rest[0] is >= '1' and <= '7')
            return rest.Length > 1 ? null : new(Interval(rest[0] - '0', raised), Diatonic[rest[0] - '1'], null);
        for (var i = 0; i < Romans.Length; i++)
            foreach (var minor in new[] { false, true })
                if (rest.StartsWith(minor ? Romans[i].ToLowerInvariant() : Romans[i], StringComparison.Ordinal))
                {
                    var suffix = rest[Romans[i].Length..];
                    if (suffix.Length == 0)
                        return new(Interval(Degrees[i], raised), minor, null);
                    // A small numeral says the m already; ø and ° say more than that.
                    var whole = minor && suffix[0] is not ('ø' or '°' or 'm' or 'd') ? $"Cm{suffix}" : $"C{suffix}";
                    return ChordReader.Read(whole).Chord is { } colour && IsMinor(colour) == minor ? new(Interval(Degrees[i], raised), minor, colour) : null;
                }
        return null;
    }

    private static int Mod(int semitones) => (semitones + 12) % 12;

    private static int Interval(int number, int raised) => new Degree(number, raised).Interval;
}
