// The reference cannot say what the parser does not do: its examples are read here.
using ChordLang.Testing;

namespace ChordLang.Grammar.Tests;

public class LanguagePageTests
{
    public static TheoryData<string, int> Fences()
    {
        var data = new TheoryData<string, int>();
        var lines = Repository.Text("grammar/LANGUAGE.md").Split('\n');
        for (var i = 0; i < lines.Length; i++)
            if (lines[i].StartsWith("```chl", StringComparison.Ordinal))
                data.Add(string.Join('\n', lines.Skip(i + 1).TakeWhile(l => l != "```")), i + 1);
        return data;
    }

    [Theory]
    [MemberData(nameof(Fences))]
    public void Every_example_is_read_as_the_page_says(string example, int line)
    {
        Assert.True(line > 0);
        Snippet.ShouldParseAsMarked(example);
    }

    [Fact]
    public void Examples_with_marks_are_called_broken()
    {
        var lines = Repository.Text("grammar/LANGUAGE.md").Split('\n');
        for (var i = 0; i < lines.Length; i++)
            if (lines[i].StartsWith("```chl", StringComparison.Ordinal))
                Assert.Equal(lines[i] == "```chl broken", lines.Skip(i + 1).TakeWhile(l => l != "```").Any(l => l.TrimStart().StartsWith('^')));
    }
}
