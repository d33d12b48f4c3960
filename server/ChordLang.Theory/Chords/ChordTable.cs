// The words of chord symbols: every kind players write, its spellings and its tones.
using System.Collections.Immutable;

namespace ChordLang.Theory.Chords;

/// <summary>A kind of chord that one word names.</summary>
/// <param name="Canonical">How we write it ourselves.</param>
/// <param name="Kind">MusicXML 4.0 kind value.</param>
/// <param name="Degrees">Its degrees; in brackets those that players leave out.</param>
/// <param name="Spellings">What players write, with the words of <see cref="ChordTable.Words"/> in braces.</param>
internal sealed record ChordRow(string Canonical, string Kind, string Degrees, string Spellings);

/// <summary>
/// Kinds of chord. Degrees: MusicXML 4.0, descriptions of kind-value, where the kind has a value of its own, but for what players leave out
/// by common practice (the third of an 11th chord and the 11th of a 13th chord rub against each other); spellings: common practice.
/// </summary>
internal static class ChordTable
{
    /// <summary>Words that stand for each other (common practice).</summary>
    public static readonly (string Word, string[] Forms)[] Words =
    [
        ("{M}", ["maj", "Maj", "MAJ", "ma", "Ma", "MA", "M", "Mj", "mj", "j", "Δ", "∆", "△", "^"]),
        ("{m}", ["m", "min", "Min", "MIN", "mi", "Mi", "MI", "minor", "-", "−", "–"]),
        ("{o}", ["dim", "Dim", "DIM", "o", "°", "º"]),
        ("{h}", ["ø", "Ø", "h", "halfdim", "half-dim"]),
        ("{+}", ["aug", "Aug", "AUG", "+"]),
    ];

    /// <summary>All kinds. Where two rows share a spelling, the first has it.</summary>
    public static readonly ImmutableArray<ChordRow> Rows =
    [
        new("", "major", "1 3 5", "|maj|Maj|MAJ|major|ma|Ma|MA|M|^"),
        new("m", "minor", "1 b3 5", "{m}"),
        new("aug", "augmented", "1 3 #5", "{+}|+5|augmented"),
        new("dim", "diminished", "1 b3 b5", "{o}|diminished"),
        new("7", "dominant", "1 3 5 b7", "7|dom|dom7|Dom7"),
        new("maj7", "major-seventh", "1 3 5 7", "{M}7|7M|7{M}|Δ|∆|△|major7"),
        new("m7", "minor-seventh", "1 b3 5 b7", "{m}7"),
        new("dim7", "diminished-seventh", "1 b3 b5 bb7", "{o}7"),
        new("aug7", "augmented-seventh", "1 3 #5 b7", "{+}7|7{+}|7+5"),
        new("m7b5", "half-diminished", "1 b3 b5 b7", "{h}|{h}7"),
        new("m(maj7)", "major-minor", "1 b3 5 7", "{m}{M}7|{m}({M}7)|{m}/{M}7|{m}7M|{m}(7M)|{m}Δ|{m}(Δ)"),
        new("6", "major-sixth", "1 3 5 6", "6|{M}6|add6|add13"),
        new("m6", "minor-sixth", "1 b3 5 6", "{m}6"),
        new("6/9", "major-sixth", "1 3 5 6 9", "6/9|69|6add9|{M}69|{M}6/9|6(9)"),
        new("m6/9", "minor-sixth", "1 b3 5 6 9", "{m}6/9|{m}69|{m}6add9|{m}6(9)"),
        new("9", "dominant-ninth", "1 3 5 b7 9", "9"),
        new("maj9", "major-ninth", "1 3 5 7 9", "{M}9|9M|9{M}"),
        new("m9", "minor-ninth", "1 b3 5 b7 9", "{m}9"),
        new("aug9", "augmented-seventh", "1 3 #5 b7 9", "{+}9|9{+}|9+5"),
        new("m(maj9)", "major-minor", "1 b3 5 7 9", "{m}{M}9|{m}({M}9)|{m}/{M}9|{m}9({M}7)"),
        new("m9b5", "half-diminished", "1 b3 b5 b7 9", "{h}9"),
        new("11", "dominant-11th", "(1) (3) 5 b7 (9) 11", "11"),
        new("maj11", "major-11th", "1 3 5 7 (9) 11", "{M}11"),
        new("m11", "minor-11th", "1 b3 5 b7 (9) 11", "{m}11"),
        new("m11b5", "half-diminished", "1 b3 b5 b7 (9) 11", "{h}11"),
        new("m(maj11)", "major-minor", "1 b3 5 7 (9) 11", "{m}{M}11|{m}({M}11)|{m}/{M}11"),
        new("13", "dominant-13th", "1 3 5 b7 (9) 13", "13"),
        new("maj13", "major-13th", "1 3 5 7 (9) 13", "{M}13"),
        new("m13", "minor-13th", "1 b3 5 b7 (9) 13", "{m}13"),
        new("m(maj13)", "major-minor", "1 b3 5 7 (9) 13", "{m}{M}13|{m}({M}13)"),
        new("aug13", "augmented-seventh", "1 3 #5 b7 (9) 13", "13{+}"),
        new("sus2", "suspended-second", "1 2 5", "sus2"),
        new("sus4", "suspended-fourth", "1 4 5", "sus4|sus|4"),
        new("7sus4", "dominant", "1 4 5 b7", "7sus4|7sus|sus7|sus47|7(4)|47|4/7|74"),
        new("9sus4", "dominant-ninth", "1 4 5 b7 9", "9sus4|9sus|sus9|7(4)(9)|7(4,9)|7(4/9)|9(4)"),
        new("13sus4", "dominant-13th", "1 4 5 b7 (9) 13", "13sus4|13sus|sus13"),
        new("7sus4(b9)", "dominant", "1 4 5 b7 b9", "b9sus|phryg|7b9sus|7b9sus4|susb9"),
        new("sus2sus4", "suspended-fourth", "1 2 4 5", "sus24|sus42|sus2/4|sus2sus4|sus4sus2|sus4add9|sus4(9)"),
        new("add9", "major", "1 3 5 9", "2|add2|add9|{M}add9|(9)|(add9)"),
        new("madd9", "minor", "1 b3 5 9", "{m}add9|{m}2|{m}add2|{m}(9)|{m}(add9)"),
        new("5", "power", "1 5!", "5|no3|(no3)|no3rd|omit3"),
        new("7alt", "dominant", "1 3 b7 (b9) (#9) (#11) (b13)", "7alt|alt|alt7|7(alt)|(alt)|7altered"),
        new("7sg", "dominant", "1 3 5 b7", "7sg"),
        new("quartal", "other", "1 4 b7 #9", "quartal"),
        new("ped", "pedal", "1!", "ped|pedal"),
        new("N6", "Neapolitan", "1 3 5", "N6|N"),
        new("It6", "Italian", "1 3 #6", "It6|It+6"),
        new("Fr6", "French", "1 3 #4 #6", "Fr6|Fr+6"),
        new("Ger6", "German", "1 3 5 #6", "Ger6|Ger+6|Gr6|Gr+6"),
        new("Tristan", "Tristan", "1 #4 #6 #9", "Tristan"),
        new("m7#5", "minor-seventh", "1 b3 #5 b7", "{m}7#5|{m}7+5|{m}7+"),
        new("m#5", "minor", "1 b3 #5", "{m}+|{m}#5"),
        new("m11#5", "minor-11th", "1 b3 #5 b7 (9) 11", "{m}11A"),
        new("7(6)", "dominant", "1 3 5 b7 6!", "67|7add6|7/6|76"),
        new("maj7#11", "major-seventh", "1 3 5 7 #11!", "{M}#4"),
        new("maj7(13)", "major-seventh", "1 3 5 7 13", "{M}7/6|{M}76"),
    ];

    /// <summary>Every spelling with its row, longest first.</summary>
    public static readonly ImmutableArray<(string Spelling, ChordRow Row)> Spellings = Expand();

    /// <summary>The row that a spelling belongs to.</summary>
    public static ChordRow Find(string spelling) => Spellings.First(s => s.Spelling == spelling).Row;

    private static ImmutableArray<(string, ChordRow)> Expand()
    {
        var all = new Dictionary<string, ChordRow>(StringComparer.Ordinal);
        foreach (var row in Rows)
            foreach (var form in row.Spellings.Split('|'))
            {
                IEnumerable<string> spelled = [form];
                foreach (var (word, forms) in Words)
                    spelled = spelled.SelectMany(s => s.Contains(word, StringComparison.Ordinal) ? forms.Select(f => s.Replace(word, f, StringComparison.Ordinal)) : [s]);
                foreach (var s in spelled)
                    all.TryAdd(s, row);
            }
        return [.. all.OrderByDescending(a => a.Key.Length).ThenBy(a => a.Key, StringComparer.Ordinal).Select(a => (a.Key, a.Value))];
    }
}
