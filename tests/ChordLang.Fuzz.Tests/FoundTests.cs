// Every input that ever broke something: it must hold now, and go on holding.
using ChordLang.Fuzz.Running;
using ChordLang.Fuzz.Targets;
using ChordLang.Testing;

namespace ChordLang.Fuzz.Tests;

public sealed class FoundTests
{
    private const string Folder = "tests/ChordLang.Fuzz/found";

    public static TheoryData<string> Files => [.. Repository.Files(Folder, "*.txt")];

    [Theory]
    [MemberData(nameof(Files))]
    public void What_was_found_once_holds(string file)
    {
        var found = FoundCase.Parse(Repository.Text(file));
        Assert.Null(Target.All.Single(t => t.Name == found.Target).Try(found.Input));
    }

    // Shares and processes go by these names.
    [Fact]
    public void Targets_have_names_of_their_own() => Assert.Equal(Target.All.Length, Target.All.Select(t => t.Name).Distinct().Count());
}
