// Accidentals by the bar: a sign holds for its line or space until the bar line, and what the signature says needs none (common practice).
using ChordLang.Arrangement.Music;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.Sheet;

/// <summary>Which struck notes of a bar need a sign.</summary>
internal static class Accidentals
{
    /// <summary>The SMuFL name of each note's sign; notes that need none are left out.</summary>
    public static Dictionary<Note, string> Of(Bar bar, IEnumerable<Strand> strands, Courtesies courtesies)
    {
        var signs = new Dictionary<Note, string>(ReferenceEqualityComparer.Instance);
        var fifths = bar.Settings.Key?.Fifths ?? 0;
        var now = new Dictionary<(Letter, int), int>();
        foreach (var stroke in strands.SelectMany(s => s.Strokes).Where(s => !s.Rest && s.First).OrderBy(s => s.Start))
            foreach (var e in stroke.Events)
                foreach (var n in e.Grace.Concat(e.Notes))
                {
                    var place = (n.Pitch.Name.Letter, n.Pitch.Octave);
                    var known = now.TryGetValue(place, out var written);
                    var before = known ? written : Signature(fifths, n.Pitch.Name.Letter);
                    if (n.Pitch.Name.Alteration == before && (known || !courtesies.Has(n)) || n.Dead || e.Kind != EventKind.Struck)
                        continue;
                    now[place] = n.Pitch.Name.Alteration;
                    signs[n] = Name(n.Pitch.Name.Alteration);
                }
        return signs;
    }

    /// <summary>What a signature does to a letter: -1, 0 or 1.</summary>
    public static int Signature(int fifths, Letter letter)
    {
        var place = new PitchName(letter, 0).Fifths;     // F is -1, B is 5
        return fifths > 0 && place + 1 < fifths ? 1 : fifths < 0 && 5 - place < -fifths ? -1 : 0;
    }

    private static string Name(int alteration) => alteration switch
    {
        1 => "accidentalSharp", -1 => "accidentalFlat", >= 2 => "accidentalDoubleSharp", <= -2 => "accidentalDoubleFlat", _ => "accidentalNatural",
    };
}
