// Chooses between the two names of a root: as the user spelled it, as the key has it, or as charts commonly write it.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Naming;

internal static class RootSpelling
{
    // Middles of the line of fifths that give the roots charts write: Db Eb Ab Bb F# for major, C# F# G# Eb Bb for minor. Common practice.
    private const double MajorMiddle = 0.5, MinorMiddle = 3;

    public static PitchName Of(int pitchClass, bool minor, ImmutableArray<Pitch> pitches, NamingContext context)
    {
        if (context.Chart is { } chart && chart.Root.PitchClass == pitchClass)
            return chart.Root;
        if (context.Spelled)
            foreach (var pitch in pitches)
                if (pitch.Name.PitchClass == pitchClass)
                    return pitch.Name;
        return context.Key is { } key ? key.Spell(pitchClass) : PitchName.Nearest(pitchClass, minor ? MinorMiddle : MajorMiddle);
    }

    /// <summary>
    /// The tones of a reading as players write them: by their degrees, but G for the sharp ninth of E7, and the plain names throughout where a
    /// diminished seventh sounds, F Ab B D; the tone of the bass as under the slash. Common practice.
    /// </summary>
    public static ImmutableArray<Pitch> Tones(SoundReading reading)
    {
        var plain = reading.Tones.Any(t => t.Degree == new Degree(7, -2));
        PitchName Name(PitchName byDegree) => byDegree.PitchClass == reading.Bass.PitchClass ? reading.Bass
            : Math.Abs(byDegree.Alteration) > 1 || plain && IsWhite(byDegree) ? PitchName.Nearest(byDegree.PitchClass, 0) : byDegree;
        return [.. reading.Tones.Select(t => Pitch.Of(t.Pitch.Midi, Name(t.Pitch.Name)))];
    }

    /// <summary>The bass as charts write it under the slash: by its degree, but G for the flat fifth of Db, and C, not B#, under a chord on a white key.</summary>
    public static PitchName Bass(PitchName byDegree, PitchName root) =>
        Math.Abs(byDegree.Alteration) > 1 || root.Alteration == 0 && IsWhite(byDegree) ? PitchName.Nearest(byDegree.PitchClass, 0) : byDegree;

    // An altered name of a white key.
    private static bool IsWhite(PitchName name) => name is { Alteration: 1, Letter: Letter.E or Letter.B } or { Alteration: -1, Letter: Letter.C or Letter.F };
}
