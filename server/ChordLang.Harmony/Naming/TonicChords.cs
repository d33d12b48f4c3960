// Knows which chords on the first degree are its tonic: a root alone makes none, for A7 in A minor leads away from there.
using System.Collections.Frozen;
using System.Collections.Immutable;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Naming;

/// <summary>The tonic chords of each mode. Common practice; in minor the sixth and the raised seventh of melodic minor colour the tonic too.</summary>
internal static class TonicChords
{
    private static readonly (Mode Mode, string Third, string Fifth, string Sevenths)[] Rows =
    [
        (Mode.Major, "3", "5", "6 7"),
        (Mode.Ionian, "3", "5", "6 7"),
        (Mode.Lydian, "3", "5", "6 7"),
        (Mode.Mixolydian, "3", "5", "6 b7"),
        (Mode.Minor, "b3", "5", "6 b7 7"),
        (Mode.Aeolian, "b3", "5", "b7"),
        (Mode.Dorian, "b3", "5", "6 b7"),
        (Mode.Phrygian, "b3", "5", "b7"),
        (Mode.Locrian, "b3", "b5", "b7"),
    ];

    private static readonly FrozenDictionary<Mode, (ImmutableArray<Degree> Third, ImmutableArray<Degree> Fifth, ImmutableArray<Degree> Sevenths)> ByMode =
        Rows.ToFrozenDictionary(r => r.Mode, r => (ChordTable.ParseDegrees(r.Third), ChordTable.ParseDegrees(r.Fifth), ChordTable.ParseDegrees(r.Sevenths)));

    /// <summary>True where the third, fifth and seventh that sound over the first degree are those of its tonic chord; a third left out contradicts nothing.</summary>
    public static bool Fits(ToneReading reading, Mode mode)
    {
        var (third, fifth, sevenths) = ByMode[mode];
        return Allows(third, reading.Third) && Allows(fifth, reading.Fifth) && Allows(sevenths, reading.Seventh);
    }

    private static bool Allows(ImmutableArray<Degree> degrees, Degree? sounding) => sounding is not { } degree || degrees.Contains(degree);
}
