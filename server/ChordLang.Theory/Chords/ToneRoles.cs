// What each tone is to each kind of chord, as data: essential, optional, tension or contradiction.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>A family of chords and what a tone is to it that the symbol does not name.</summary>
/// <param name="Name">Name of the family.</param>
/// <param name="Requires">Degrees that the symbol asks for; the first family all of whose degrees it asks for is its own.</param>
/// <param name="Unnamed">For the intervals 0 to 11: T a tension, C a contradiction, o optional, dot: always named here.</param>
/// <param name="Source">Where it is taught.</param>
public sealed record ToneFamily(string Name, ImmutableArray<Degree> Requires, string Unnamed, string Source);

/// <summary>
/// The table of tones and its interpreter. Which tension agrees with which chord follows the chord-scale tables of Nettles and Graf, The Chord
/// Scale Theory and Jazz Harmony (1997), and Levine, The Jazz Theory Book (1995), both from memory; rows that are judgements of common practice say so.
/// </summary>
public static class ToneRoles
{
    private const string ChordScale = "chord-scale tables (Nettles and Graf 1997; Levine 1995), from memory";

    private static readonly (string Name, string Requires, string Unnamed, string Source)[] Rows =
    [
        //                                      1 b9 9 b3  3 11 #11 5  b13 13 b7 7
        ("augmented sixth", "3 #6",            "o C C C  . C C C  C C . C", "harmony textbooks, common practice: the chord has no tensions"),
        ("altered dominant", "3 b7 b5 #5",     "o . C .  . C . C  . C . C", ChordScale + ": altered scale; natural 9, 5 and 13 are not in it"),
        ("augmented dominant", "3 b7 #5",      "o T T T  . C T C  . C . C", ChordScale + ": whole-tone and altered scale; no 5, no 13"),
        // The standard builds the thirteenth on the eleventh and published guitar shapes of it often hold one, so it is not blamed; nobody asks for it.
        ("dominant thirteenth", "3 b7 9 13",   "o T T T  . o T o  T . . C", "MusicXML 4.0, dominant-13th is the dominant-11th and a 13th; for the rest as dominant"),
        ("dominant", "3 b7",                   "o T T T  . C T o  T T . C", ChordScale + ": 9 b9 #9 #11 13 b13 are all in use; 11 over the third and the major seventh are not"),
        ("major thirteenth", "3 7 9 13",       "o C T C  . o T o  C . C .", "MusicXML 4.0, major-13th is the major-11th and a 13th; for the rest as major seventh"),
        ("major seventh", "3 7",               "o C T C  . C T o  C T C .", ChordScale + ": 9 #11 13 of ionian and lydian; 11 is to be avoided, a minor seventh is another function"),
        ("major sixth", "3 6",                 "o C T C  . C T o  C . C T", ChordScale + ": as the major seventh, which may join"),
        // C+ stands for C7#5 as often as for Cmaj7#5, so both sevenths agree.
        ("augmented triad", "3 #5",            "o C T C  . C T C  . C T T", ChordScale + ": whole-tone and lydian augmented scale"),
        // Sixth, ninth and major seventh colour a tonic triad; a minor seventh makes a dominant of it, which is another function and another symbol.
        ("major triad", "3",                   "o C T C  . C C o  C T C T", "common practice: players enrich a triad with 6, 7 and 9"),
        ("half-diminished", "b3 b5 b7",        "o C T .  C T . C  T C . C", ChordScale + ": 9 of locrian natural 2, 11, b13; b9 is to be avoided"),
        ("diminished seventh", "b3 b5 bb7",    "o C T .  C T . C  T . C T", ChordScale + ": whole-half diminished, the tone a step above each chord tone"),
        ("diminished, major seventh", "b3 b5 7", "o C T .  C T . C  T T C .", ChordScale + ": whole-half diminished"),
        ("diminished triad", "b3 b5",          "o C T .  C T . C  T T C T", "common practice: dim is often short for dim7, so its tones and tensions agree"),
        ("minor, major seventh", "b3 7",       "o C T .  C T C o  C T C .", ChordScale + ": melodic minor"),
        ("minor seventh", "b3 b7",             "o C T .  C T C o  C T . C", ChordScale + ": dorian; b9 and b13 are to be avoided"),
        ("minor sixth", "b3 6",                "o C T .  C T C o  C . C T", ChordScale + ": melodic minor, whose seventh may join; a minor seventh is not tonic"),
        // The line 8 7 b7 6 over a minor triad is a commonplace, so either seventh and the sixth agree.
        ("minor triad", "b3",                  "o C T .  C T C o  C T T T", "common practice: players enrich a minor triad with 6, either 7, 9 and 11"),
        ("suspended seventh", "4 b7",          "o C T C  C . C o  C T . C", ChordScale + ": mixolydian with the fourth in place of the third"),
        ("suspended, major seventh", "4 7",    "o C T C  C . C o  C T C .", "common practice"),
        ("suspended fourth", "4",              "o C T C  C . C o  C T T C", "common practice: sus is often short for 9sus4"),
        ("suspended second", "2",              "o C . C  C T C o  C T T T", "common practice"),
        ("power", "5",                         "o C T C  C C C o  C T T C", "common practice: third left out on purpose; 6 and b7 are its riff tones"),
        ("other", "",                          "o C C C  C C C o  C C C C", "judgement: what the symbol spells out tone by tone means those tones"),
    ];

    // A named degree rules out its rivals, whatever the family says: who reads 13 plays no b13. Common practice.
    private static readonly (string Named, string[] RulesOut)[] Rivals =
    [
        ("b5", ["5"]), ("#5", ["5"]), ("b9", ["9"]), ("#9", ["9"]), ("9", ["b9", "#9"]), ("#11", ["11"]), ("11", ["#11"]),
        ("13", ["b13"]), ("b13", ["13"]), ("6", ["b13", "b7"]), ("b6", ["6"]), ("2", ["b9"]),
    ];

    /// <summary>All families, in the order in which they are tried.</summary>
    public static ImmutableArray<ToneFamily> Families { get; } =
        [.. Rows.Select(r => new ToneFamily(r.Name, ChordTable.ParseDegrees(r.Requires), r.Unnamed.Replace(" ", "", StringComparison.Ordinal), r.Source))];

    /// <summary>The family of a chord that asks for these degrees.</summary>
    public static ToneFamily FamilyOf(ImmutableArray<Degree> degrees) => Families.First(f => f.Requires.All(degrees.Contains));

    /// <summary>The role of a degree that the symbol names.</summary>
    internal static ToneRole Named(Degree degree, ImmutableArray<Degree> all, ToneFamily family) => degree switch
    {
        { Number: 1 } => ToneRole.Optional,
        { Number: 5, Alteration: 0 } => family.Name is "power" ? ToneRole.Essential : ToneRole.Optional,
        { Number: 3, Alteration: 0 } when all.Contains(new(11, 0)) => ToneRole.Optional, // the third of C11 clashes with its eleventh
        { Number: 5 or >= 9 } when family.Name is "altered dominant" => ToneRole.Optional, // a choice is left to the player
        { Number: >= 9, Alteration: 0 } => all.Any(d => d.Number > degree.Number) ? ToneRole.Optional : ToneRole.Essential,
        _ => ToneRole.Essential,
    };

    /// <summary>Roles of the intervals 0 to 11.</summary>
    internal static ImmutableArray<ToneRole> Of(ImmutableArray<Degree> degrees, ImmutableArray<int> omitted)
    {
        var family = FamilyOf(degrees);
        var roles = family.Unnamed.Select(c => c switch { 'T' => ToneRole.Tension, 'o' => ToneRole.Optional, _ => ToneRole.Contradiction }).ToArray();
        foreach (var (named, ruledOut) in Rivals)
            if (Degree.TryParse(named, out var d) && degrees.Contains(d))
                foreach (var rival in ruledOut)
                    if (Degree.TryParse(rival, out var r))
                        roles[r.Interval] = ToneRole.Contradiction;
        foreach (var number in omitted.Where(n => n > 1))
            for (var alteration = -1; alteration <= (number is 3 or 7 ? 0 : 1); alteration++)
                roles[new Degree(number, alteration).Interval] = ToneRole.Contradiction;
        foreach (var d in degrees)
            roles[d.Interval] = Named(d, degrees, family);
        return [.. roles];
    }
}
