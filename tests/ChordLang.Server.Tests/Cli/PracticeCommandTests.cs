// What `practice` answers: ranked spots with numbers and a hint, said with caution.
using System.Text.Json;
using ChordLang.Fretboard.Hands;
using ChordLang.Server.Cli;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Cli;

public sealed class PracticeCommandTests
{
    private const string Two = "tempo 90\n\n| N.C.\n    1 0@1   3 1@1\n\n| N.C.\n    top: 1 8@1 ring\n    low: 1& 7@4   2& 12@4\n";

    [Fact]
    public void Spots_are_ranked_with_reasons_numbers_and_a_hint()
    {
        using var document = JsonDocument.Parse(Call.With(Two, "practice", "-", "--format", "json").Out);
        var spots = document.RootElement.GetProperty("files")[0].GetProperty("spots").EnumerateArray().ToList();
        Assert.Equal([2, 1], spots.Select(s => s.GetProperty("bars")[0].GetInt32()));
        Assert.True(spots[0].GetProperty("score").GetDouble() > spots[1].GetProperty("score").GetDouble());
        Assert.NotEqual(0, spots[0].GetProperty("reasons").GetArrayLength());
        Assert.False(string.IsNullOrEmpty(spots[0].GetProperty("hint").GetString()));
        Assert.Equal(2, spots[0].GetProperty("numbers").GetProperty("ringHolds").GetInt32());
        Assert.Equal(Caution.Text, document.RootElement.GetProperty("files")[0].GetProperty("caution").GetString());
    }

    [Fact]
    public void It_says_likely_and_never_is()
    {
        var call = Call.Of("practice", "samples/valid", "--most", "0");
        Assert.Equal((Command.Clean, ""), (call.Code, call.Error));
        var own = call.Out.Replace(Caution.Text, "", StringComparison.Ordinal);
        Assert.Contains("likely", own, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\bis\b|\bare\b", own);
        Assert.Equal(Repository.Samples("valid").Count, call.Out.Split(Caution.Text).Length - 1);
    }

    [Fact]
    public void Most_says_how_many() =>
        Assert.Equal(1, Call.With(Two, "practice", "-", "--most", "1").Out.Split("score").Length - 1);

    [Fact]
    public void A_wrong_number_is_misuse() => Assert.Equal(Command.Trouble, Call.With(Two, "practice", "-", "--most", "few").Code);
}
