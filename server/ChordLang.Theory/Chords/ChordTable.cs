// The suffixes that begin a chord symbol, as data: what is written, which degrees it asks for, where that is taught.
using System.Collections.Frozen;
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>A suffix of its own: <c>m7</c>, <c>13</c>, <c>dim</c>.</summary>
/// <param name="Text">How we write it.</param>
/// <param name="Degrees">Degrees it asks for, root first.</param>
/// <param name="Spellings">All spellings, ours first, in plain signs and without blanks.</param>
/// <param name="Source">Where its meaning is published.</param>
public sealed record ChordBase(string Text, ImmutableArray<Degree> Degrees, ImmutableArray<string> Spellings, string Source);

/// <summary>All suffixes that can begin a symbol; what may follow them is in <see cref="ModifierTable"/>.</summary>
public static class ChordTable
{
    private const string MusicXml = "MusicXML 4.0, kind-value";
    private const string Practice = "common practice of chord symbols";
    private const string Tonal = "npm tonal 6.4.3, ChordType";
    private const string ChordsDb = "npm @tombatossals/chords-db 0.5.1";

    // Words that stand for a quality in any row: {M} is each way to write major, and so on. Common practice.
    private static readonly (string Mark, string[] Words)[] Words =
    [
        ("{M}", ["maj", "Maj", "MAJ", "ma", "Ma", "MA", "M", "major", "Major", "Δ", "^", "j", "Mj", "mj"]),
        ("{T}", ["maj", "Maj", "MAJ", "ma", "Ma", "MA", "M", "major", "Major"]),
        ("{m}", ["m", "min", "Min", "MIN", "mi", "Mi", "MI", "-", "minor", "Minor"]),
        ("{o}", ["dim", "Dim", "DIM", "o", "°", "diminished"]),
        ("{+}", ["aug", "Aug", "AUG", "+", "augmented"]),
        ("{h}", ["ø", "h", "halfdim", "half-dim", "half-diminished", "halfdiminished"]),
        ("{7}", ["", "dom", "dominant"]),
    ];

    // Text | degrees | spellings | source. The third of an eleventh chord is named, and optional: see ToneRoles. The
    // eleventh of 13 and maj13 is not asked for: it fights the third. ToneRoles lets it pass.
    private static readonly (string Text, string Degrees, string Spellings, string Source)[] Rows =
    [
        ("", "1 3 5", "{T}", MusicXml),
        ("m", "1 b3 5", "{m}", MusicXml),
        ("dim", "1 b3 b5", "{o}", MusicXml),
        ("aug", "1 3 #5", "{+} {+}5 {T}{+}", MusicXml),
        ("7", "1 3 5 b7", "{7}7 dom dominant dominantseventh 7sg", MusicXml + "; 7sg: " + ChordsDb + ", whose own voicings of it are the plain seventh chord"),
        ("maj7", "1 3 5 7", "{M}7 7{M} Δ ^ majorseventh major-seventh", MusicXml),
        ("m7", "1 b3 5 b7", "{m}7 minorseventh minor-seventh", MusicXml),
        ("dim7", "1 b3 b5 bb7", "{o}7 diminishedseventh diminished-seventh", MusicXml),
        ("7#5", "1 3 #5 b7", "{+}7 7{+} augmented-seventh", MusicXml),
        ("m7b5", "1 b3 b5 b7", "{h} {h}7", MusicXml),
        ("m(maj7)", "1 b3 5 7", "minormajor7 major-minor minor/majorseventh minormajorseventh", MusicXml),
        ("6", "1 3 5 6", "{M}6 sixth majorsixth major-sixth", MusicXml),
        ("m6", "1 b3 5 6", "{m}6 minorsixth minor-sixth", MusicXml),
        ("9", "1 3 5 b7 9", "{7}9 dominantninth dominant-ninth", MusicXml),
        ("maj9", "1 3 5 7 9", "{M}9 9{M} majorninth major-ninth", MusicXml),
        ("m9", "1 b3 5 b7 9", "{m}9 minorninth minor-ninth", MusicXml),
        ("11", "1 3 5 b7 9 11", "{7}11 eleventh dominant-11th", MusicXml),
        ("maj11", "1 3 5 7 9 11", "{M}11 11{M} major-11th", MusicXml),
        ("m11", "1 b3 5 b7 9 11", "{m}11 minoreleventh minor-11th", MusicXml),
        ("13", "1 3 5 b7 9 13", "{7}13 dominantthirteenth dominant-13th", MusicXml + ", without the eleventh"),
        ("maj13", "1 3 5 7 9 13", "{M}13 13{M} majorthirteenth major-13th", MusicXml + ", without the eleventh"),
        ("m13", "1 b3 5 b7 9 11 13", "{m}13 minorthirteenth minor-13th", MusicXml),
        ("sus2", "1 2 5", "suspendedsecond suspended-second", MusicXml),
        ("sus4", "1 4 5", "sus 4 suspendedfourth suspended-fourth", MusicXml),
        ("5", "1 5", "fifth power", MusicXml),
        ("Neapolitan", "1 3 5", "N6", MusicXml + "; a major triad on the lowered second degree (harmony textbooks, common practice)"),
        ("Italian", "1 3 #6", "It+6 It6", MusicXml + "; counted from its lowest tone (harmony textbooks, common practice)"),
        ("French", "1 3 #4 #6", "Fr+6 Fr6", MusicXml + "; counted from its lowest tone (harmony textbooks, common practice)"),
        ("German", "1 3 5 #6", "Ger+6 Ger6 Gr+6", MusicXml + "; counted from its lowest tone (harmony textbooks, common practice)"),
        ("Tristan", "1 #4 #6 #9", "tristan", MusicXml + "; Wagner, Tristan und Isolde, first chord: F B D# G#"),
        ("pedal", "1", "ped", MusicXml),

        ("6/9", "1 3 5 6 9", "69 {T}69 {T}6/9 6add9 sixthaddedninth", Practice),
        ("m6/9", "1 b3 5 6 9", "{m}69 {m}6/9", Practice),
        ("add9", "1 3 5 9", "2 add2", Practice),
        ("7sus4", "1 4 5 b7", "7sus sus7 7(4) 47 suspendedfourthseventh", Practice),
        ("9sus4", "1 4 5 b7 9", "9sus sus9 7(4)(9) 7(4,9) 7(4/9)", Practice),
        ("13sus4", "1 4 5 b7 9 13", "13sus sus13", Practice),
        ("7sus4(b9)", "1 4 5 b7 b9", "b9sus susb9 phryg suspendedfourthflatninth", Tonal),
        ("sus24", "1 2 4 5", "sus42 sus2sus4 sus4sus2 sus2/4 sus4/2", Practice),
        ("m(maj9)", "1 b3 5 7 9", "minor/majorninth", Practice),
        ("9#5", "1 3 #5 b7 9", "{+}9", ChordsDb + ", aug9"),
        ("7alt", "1 3 b5 #5 b7 b9 #9", "alt alt7 altered", "Levine, The Jazz Theory Book (1995), the altered scale, from memory"),
        ("m9b5", "1 b3 b5 b7 9", "{h}9", Practice),
        ("dim(maj7)", "1 b3 b5 7", "diminishedmajor7", Practice),
        ("maj7#11", "1 3 5 7 #11", "maj#4 majorseventhsharpeleventh", Tonal),
        ("7#11", "1 3 5 b7 #11", "lydiandominantseventh", Tonal),
        ("maj9#11", "1 3 5 7 9 #11", "majorsharpeleventh(lydian)", Tonal),
        ("7add13", "1 3 5 b7 13", "67", Tonal),
        ("maj7b6", "1 3 5 7 b13", "majorseventhflatsixth", Tonal),
        ("maj7#5", "1 3 #5 7", "augmentedseventh", Tonal + ", where the name means the major seventh with a raised fifth"),
        ("m#5", "1 b3 #5", "minoraugmented", Tonal),
        ("7b9", "1 3 5 b7 b9", "dominantflatninth", Tonal),
        ("7#9", "1 3 5 b7 #9", "dominantsharpninth", Tonal),
        ("m11#5", "1 b3 #5 b7 9 11", "m11A", Tonal),
        ("quartal", "1 b3 4 b7", "", Tonal),
    ];

    /// <summary>All rows, plain ones first.</summary>
    public static ImmutableArray<ChordBase> All { get; } = [.. Rows.Select(r => new ChordBase(r.Text, ParseDegrees(r.Degrees),
        [.. r.Spellings.Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(Expand).Prepend(r.Text).Distinct()], r.Source))];

    /// <summary>Each spelling and its row.</summary>
    public static FrozenDictionary<string, ChordBase> BySpelling { get; } =
        All.SelectMany(b => b.Spellings.Select(s => (s, b))).DistinctBy(p => p.s).ToFrozenDictionary(p => p.s, p => p.b);

    internal static int LongestSpelling { get; } = BySpelling.Keys.Max(k => k.Length);

    /// <summary>Reads degrees parted by blanks: <c>1 b3 5</c>.</summary>
    /// <exception cref="FormatException">One is no degree.</exception>
    public static ImmutableArray<Degree> ParseDegrees(string text) => [.. text.Split(' ', StringSplitOptions.RemoveEmptyEntries)
        .Select(t => Degree.TryParse(t, out var d) ? d : throw new FormatException(t))];

    /// <summary>A spelling for each word that its marks stand for.</summary>
    internal static IEnumerable<string> Expand(string spelling)
    {
        foreach (var (mark, words) in Words)
            if (spelling.Contains(mark, StringComparison.Ordinal))
                return words.Select(w => spelling.Replace(mark, w, StringComparison.Ordinal)).SelectMany(Expand);
        return [spelling];
    }
}
