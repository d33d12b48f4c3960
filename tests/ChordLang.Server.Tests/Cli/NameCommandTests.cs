// What `name` says of a voicing beside its names.
using System.Text.Json;

namespace ChordLang.Server.Tests.Cli;

public sealed class NameCommandTests
{
    // Kinds by the definitions of arranging, strings by number from the highest, pitches of standard tuning (common practice). On 25.5 inches
    // fret 3 and fret 5 are 59.4 mm apart by the rule of the twelfth root of two.
    [Theory]
    [InlineData("x-3-5-4-5-x", "drop-2", 0, 2, "5 4 3 2", "", "C3", "E4")]
    [InlineData("3-x-3-4-3-x", "drop-3", 0, 1, "6 4 3 2", "", "G2", "D4")]
    [InlineData("x-3-2-0-1-0", "open", 0, 2, "5 4 3 2 1", "3 1", "C3", "E4")]
    [InlineData("8-x-9-9-x-x", "shell", 0, 1, "6 4 3", "", "C3", "E4")]
    [InlineData("x-x-10-9-8-x", "close", 0, 2, "4 3 2", "", "C4", "G4")]
    [InlineData("C4+E4+G4+B4", "close", 0, null, "", "", "C4", "B4")]
    public void A_voicing_has_kind_strings_and_outer_voices(string voicing, string kind, int inversion, int? span, string strings, string open, string bottom, string top)
    {
        var shape = Answer(voicing)[0].GetProperty("shape");
        Assert.Equal((kind, inversion), (shape.GetProperty("kind").GetString(), shape.GetProperty("inversion").GetInt32()));
        Assert.Equal(span, shape.GetProperty("span").ValueKind == JsonValueKind.Null ? null : shape.GetProperty("span").GetInt32());
        Assert.Equal((strings, open), (List(shape, "stringSet"), List(shape, "open")));
        Assert.Equal((bottom, top), (shape.GetProperty("bottom").GetString(), shape.GetProperty("top").GetString()));
    }

    [Fact]
    public void Millimetres_follow_the_fret_rule() => Assert.Equal(59.4, Answer("x-3-5-4-5-x")[0].GetProperty("shape").GetProperty("mm").GetDouble(), 0.1);

    // Common practice: what is fretted is spelled as the chord it is called; what is written as pitches stays as it was written.
    [Theory]
    [InlineData("3-x-3-4-3-x", "C minor", "G2 F3 B3 D4")]
    [InlineData("x-2-1-2-0-x", "E minor", "B2 D#3 A3 B3")]
    [InlineData("0-2-2-1-0-0", null, "E2 B2 E3 G#3 B3 E4")]
    [InlineData("x-4-6-6-6-4", null, "Db3 Ab3 Db4 F4 Ab4")]
    [InlineData("E2+B2+E3+Ab3", null, "E2 B2 E3 Ab3")]
    [InlineData("C3+E3+A3", "A minor", "C3 E3 A3")]
    public void The_pitches_are_spelled_as_the_first_name(string voicing, string? key, string pitches)
    {
        var answer = Answer([voicing, .. key is null ? Array.Empty<string>() : ["--key", key]])[0];
        Assert.Equal(pitches, List(answer, "pitches"));
        var names = pitches.Split(' ');
        Assert.Equal((names[0][..^1], names[0], names[^1]),
            (answer.GetProperty("bass").GetString(), answer.GetProperty("shape").GetProperty("bottom").GetString(), answer.GetProperty("shape").GetProperty("top").GetString()));
    }

    [Fact]
    public void One_voicing_moves_to_the_next()
    {
        var answer = Answer("10-x-10-10-x-x", "x-10-9-10-x-x");
        var next = answer[0].GetProperty("next");
        Assert.Equal(("F4", "5 -1 0", "oblique"), (List(next, "common"), List(next, "moves"), next.GetProperty("motion").GetString()));
        Assert.Equal(JsonValueKind.Null, answer[1].GetProperty("next").ValueKind);
    }

    private static List<JsonElement> Answer(params string[] voicings) =>
        [.. JsonDocument.Parse(Call.Of(["name", .. voicings, "--format", "json"]).Out).RootElement.GetProperty("voicings").EnumerateArray()];

    private static string List(JsonElement of, string name) => string.Join(' ', of.GetProperty(name).EnumerateArray().Select(e => e.ToString()));
}
