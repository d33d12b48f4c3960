// What `describe` prints and answers.
using System.Text.Json;
using ChordLang.Server.Cli;

namespace ChordLang.Server.Tests.Cli;

public sealed class DescribeCommandTests
{
    private const string Text = "title Two\n\n| Gmaj7\n    1 3-x-4-4-3-x   3& 7@1 accent\n";

    [Fact]
    public void Sentences_come_in_order_with_bar_and_count()
    {
        using var document = JsonDocument.Parse(Call.With(Text, "describe", "-", "--format", "json").Out);
        var sentences = document.RootElement.GetProperty("files")[0].GetProperty("sentences").EnumerateArray().ToList();
        Assert.Equal(JsonValueKind.Null, sentences[0].GetProperty("bar").ValueKind);
        Assert.Equal((1, "3&", "Count 3 and: B 4 on string 1 fret 7; for 1 and 1/2 counts; accent."),
            (sentences[^1].GetProperty("bar").GetInt32(), sentences[^1].GetProperty("count").GetString(), sentences[^1].GetProperty("text").GetString()));
    }

    [Fact]
    public void The_brief_level_has_a_sentence_a_bar() =>
        Assert.Contains("Bar 1: G major 7; 5 notes, the highest B 4, between frets 3 and 7.", Call.With(Text, "describe", "-", "--brief").Out, StringComparison.Ordinal);

    [Fact]
    public void All_samples_can_be_told() => Assert.Equal(Command.Clean, Call.Of("describe", "samples").Code);
}
