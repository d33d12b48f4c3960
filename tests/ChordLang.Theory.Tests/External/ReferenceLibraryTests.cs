// Holds the chord reader against two reference libraries; tests/External/prepare writes what they know.
using System.Text.Json;
using ChordLang.Testing;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Tests.Chords;

namespace ChordLang.Theory.Tests.External;

[Trait("Needs", "npm")]
public class ReferenceLibraryTests
{
    private const string NamedThird = "MusicXML 4.0 builds the 11th on the ninth chord, third and all; players may leave it out, so it is optional here";
    private const string NamedEleventh = "MusicXML 4.0 builds the minor 13th on the minor 11th; over a minor third the eleventh agrees";
    private const string FifthStays = "b13 names a thirteenth, and the plain fifth stays, though optional: b13 is not another word for #5";
    private const string FifthFlat = "b5 alters the fifth, so no plain fifth remains; #11 is the symbol that keeps it";
    private const string FifthSharp = "#5 and b6 are not one: b6 joins a chord that keeps its fifth";
    private const string Alt = "alt asks for altered fifths and ninths (Levine 1995, altered scale, from memory); tonal picks one pair, and has another for alt7";

    // Every symbol that tonal reads otherwise, and why we do not follow.
    private static readonly Dictionary<string, string> Otherwise = new()
    {
        ["11"] = NamedThird, ["eleventh"] = NamedThird, ["11b9"] = NamedThird,
        ["m13"] = NamedEleventh, ["-13"] = NamedEleventh, ["minor thirteenth"] = NamedEleventh,
        ["7b13"] = FifthStays, ["9b13"] = FifthStays, ["M7b6"] = FifthSharp, ["^7b6"] = FifthSharp, ["major seventh flat sixth"] = FifthSharp,
        ["mb6M7"] = FifthSharp, ["mb6b9"] = FifthSharp,
        ["M6b5"] = FifthFlat, ["6b5"] = FifthFlat, ["7b5b13"] = FifthFlat, ["7b5#9"] = FifthFlat, ["7#9b5"] = FifthFlat, ["9b5b13"] = FifthFlat,
        ["7b5b9"] = FifthFlat, ["7b9b5"] = FifthFlat, ["7b5b9b13"] = FifthFlat,
        ["7alt"] = Alt, ["alt7"] = Alt, ["altered"] = Alt,
        ["4"] = "players write C4 for Csus4; quartal is a word of its own here",
        ["M7add13"] = "add13 adds the thirteenth and nothing else; tonal's own 7add13 has no ninth either",
        ["^"] = "the typed triangle is a major seventh, as Δ is in both",
        ["^#5"] = "the typed triangle is a major seventh, as Δ is in both",
    };

    [Fact]
    public void Every_chord_of_tonal_is_read_and_sounds_the_same_but_for_the_differences_listed()
    {
        var (wrong, unused) = (new List<string>(), Otherwise.Keys.ToHashSet());
        foreach (var type in Json("tonal.json").EnumerateArray())
        {
            var expected = type.GetProperty("intervals").EnumerateArray().Select(i => i.GetInt32()).Distinct().Order().ToArray();
            var names = type.GetProperty("aliases").EnumerateArray().Select(a => a.GetString()!).Append(type.GetProperty("name").GetString()!);
            foreach (var suffix in names.Where(n => n.Length > 0).Distinct())
                if (ChordReader.Read("C", suffix, null) is { Chord: { } chord })
                {
                    var same = Sounds.Intervals(chord).SequenceEqual(expected);
                    if (same != !Otherwise.ContainsKey(suffix))
                        wrong.Add($"{suffix}: tonal {string.Join(' ', expected)}, here {string.Join(' ', Sounds.Intervals(chord))}");
                    unused.Remove(suffix);
                }
                else
                    wrong.Add($"{suffix}: not read");
        }
        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
        Assert.True(unused.Count == 0, "No longer different: " + string.Join(", ", unused));
    }

    // Some published voicings are wrong, so one in eight may hold a tone that we do not name.
    private const double Agreed = 7.0 / 8;

    [Fact]
    public void Every_suffix_of_chords_db_is_read_and_its_voicings_hold_named_tones_only()
    {
        var wrong = new List<string>();
        foreach (var entry in Json("chords-db.json").EnumerateArray())
        {
            var suffix = entry.GetProperty("suffix").GetString()!;
            var (own, bass) = suffix.IndexOf('/') is var slash && slash >= 0 ? (suffix[..slash], suffix[(slash + 1)..]) : (suffix, null);
            if (ChordReader.Read("C", own, bass).Chord is null)
                wrong.Add($"{suffix}: not read");
            var (right, all) = (0, 0);
            foreach (var chord in entry.GetProperty("chords").EnumerateArray())
                foreach (var sound in chord.GetProperty("sounds").EnumerateArray())
                {
                    var key = chord.GetProperty("key").GetString()!.Replace("sharp", "#", StringComparison.Ordinal);
                    var read = ChordReader.Read(key, own, bass).Chord;
                    all++;
                    right += read is not null && sound.EnumerateArray().All(p => read.Names(p.GetInt32())) ? 1 : 0;
                }
            if (bass is null && right < Agreed * all)
                wrong.Add($"{suffix}: {right} of {all} voicings hold only named tones");
        }
        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    private static JsonElement Json(string name)
    {
        var path = Repository.At(".artifacts/external/" + name);
        Assert.True(File.Exists(path), $"{path} is missing: run tests/External/prepare");
        return JsonDocument.Parse(File.ReadAllText(path)).RootElement;
    }
}
