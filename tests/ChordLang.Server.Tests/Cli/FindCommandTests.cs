// What `find` answers. The lessons are inventions; what their chords are called is common practice.
using System.Text.Json;
using ChordLang.Harmony.Functions;
using ChordLang.Server.Cli;

namespace ChordLang.Server.Tests.Cli;

public sealed class FindCommandTests
{
    private const string Lesson = """
        title  Two Doors
        key    C major
        tags   cadence, shells
        shape  low-shell = 3-x-2-4-x-x

        | Cmaj7 3 A7 | Dm7 3 G7 | Cmaj7
            1 x-3-5-4-5-x   3 5-x-5-6-x-x
            1 x-5-7-6-7-x   3 low-shell
        | Gm7 3 C7 | Fmaj7 | D-7 3 Db7 | C6
        key A minor
        | Am7 | Bm7b5 3 E7b9 | Am7
        """;

    [Theory]
    [InlineData("--chord", "Dm7", "2:1 6:1")]
    [InlineData("--chord", "Dmin7", "2:1 6:1")]
    [InlineData("--chord", "m7b5", "9:1")]
    [InlineData("--chord", "C#7", "")]
    [InlineData("--role", "tritone-substitute", "6:3")]
    [InlineData("--role", "applied dominant", "1:3 4:3")]
    [InlineData("--key", "A minor", "8:1")]
    [InlineData("--key", "C major", "1:1")]
    [InlineData("--tag", "Shells", "-")]
    [InlineData("--tag", "shell", "")]
    [InlineData("--progression", "ii V I", "2:1 4:1")]
    [InlineData("--progression", "ii bII7 I", "6:1")]
    [InlineData("--progression", "iiø V7b9 i", "9:1")]
    [InlineData("--progression", "ii-V-i", "9:1")]
    [InlineData("--progression", "2 5 1", "2:1 4:1 9:1")]
    [InlineData("--progression", "vi ii V I", "")]
    [InlineData("--progression", "I V7/ii", null)]
    [InlineData("--role", "magic", null)]
    [InlineData("--key", "H major", null)]
    [InlineData("--chord", "Cqq", null)]
    [InlineData("--shape", "x 3 5", null)]
    [InlineData("--tag", null, null)]
    public void Every_criterion_finds_its_places(string option, string? value, string? places)
    {
        var call = value is null ? Call.With(Lesson, "find", "-", "--format", "json") : Call.With(Lesson, "find", "-", "--format", "json", option, value);
        Assert.Equal(places is null ? Command.Trouble : Command.Clean, call.Code);
        if (places is not null)
            Assert.Equal(places, Places(call));
    }

    // A grip without open strings is the same shape wherever it is played; one with open strings is not.
    [Theory]
    [InlineData("x-3-5-4-5-x", "1:1")]
    [InlineData("x-8-10-9-10-x", "1:1")]
    [InlineData("x8-10-9-10x", null)]
    [InlineData("x-5-7-6-7-x", "1:1")]
    [InlineData("low-shell", "-")]
    [InlineData("5-x-4-6-x-x", "-")]
    [InlineData("x-3-5-4-4-x", "")]
    public void A_shape_is_found_at_any_fret(string shape, string? places)
    {
        var call = Call.With("shape low-shell = 3-x-2-4-x-x\n\n| Cmaj7\n    1 x-3-5-4-5-x   3 x-0-2-1-2-x\n", "find", "-", "--format", "json", "--shape", shape);
        Assert.Equal(places is null ? Command.Trouble : Command.Clean, call.Code);
        if (places is not null)
            Assert.Equal(places, Places(call));
    }

    [Fact]
    public void An_open_string_holds_a_shape_where_it_is()
    {
        const string Open = "| C\n    1 x-3-2-0-1-0   3 x-5-4-2-3-2\n";
        Assert.Equal("1:1", Places(Call.With(Open, "find", "-", "--format", "json", "--shape", "x-3-2-0-1-0")));
        Assert.Equal("1:3", Places(Call.With(Open, "find", "-", "--format", "json", "--shape", "x-4-3-1-2-1")));
    }

    [Fact]
    public void Of_several_criteria_all_hold_at_one_place()
    {
        Assert.Equal("2:1", Places(Call.With(Lesson, "find", "-", "--format", "json", "--chord", "Dm7", "--progression", "ii V I")));
        Assert.Equal("", Places(Call.With(Lesson, "find", "-", "--format", "json", "--chord", "Dm7", "--key", "A minor")));
        Assert.Equal("9:1", Places(Call.With(Lesson, "find", "-", "--format", "json", "--role", "two-five-one", "--key", "A minor", "--chord", "Bm7b5")));
        Assert.Equal("", Places(Call.With(Lesson, "find", "-", "--format", "json", "--chord", "Dm7", "--tag", "waltz")));
    }

    [Fact]
    public void People_read_a_sentence_a_match()
    {
        var text = Call.With(Lesson, "find", "-", "--progression", "ii V I").Out;
        Assert.Contains("<stdin>, bar 2, count 1: Dm7 G7 Cmaj7, ii V I of C major\n", text, StringComparison.Ordinal);
        Assert.Contains("<stdin>, bar 4, count 1: Gm7 C7 Fmaj7, ii V I of F major, in passing\n", text, StringComparison.Ordinal);
        Assert.EndsWith("2 places in 1 of 1 lesson.\n", text, StringComparison.Ordinal);
        Assert.Contains("Nothing found in one lesson.", Call.With(Lesson, "find", "-", "--chord", "F#m7").Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_library_is_searched_in_order_and_what_cannot_be_read_is_said()
    {
        using var folder = new TemporaryFolder();
        folder.Write("b.chl", "| Dm7 | G7 | C |\n");
        folder.Write("a/a.chl", "| Gm7 | C7 | F |\n");
        folder.Write("c.txt", "| Gm7 | C7 | F |\n");
        var call = Call.Of("find", folder.Path, folder.Path + "/none.chl", "--progression", "ii V I", "--format", "json");
        Assert.Equal(Command.Trouble, call.Code);
        Assert.Contains("none.chl cannot be read", call.Error, StringComparison.Ordinal);
        using var document = JsonDocument.Parse(call.Out);
        Assert.Equal(1, document.RootElement.GetProperty("version").GetInt32());
        var matches = document.RootElement.GetProperty("matches").EnumerateArray().ToList();
        Assert.Equal(["a.chl", "b.chl"], matches.Select(m => m.GetProperty("path").GetString()!.Split('/')[^1]));
        Assert.Equal(["path", "bar", "count", "text"], matches[0].EnumerateObject().Select(p => p.Name));
    }

    [Fact]
    public void Every_role_there_is_can_be_asked_for() =>
        Assert.All(ChordRoles.Names, role => Assert.Equal(Command.Clean, Call.With(Lesson, "find", "-", "--role", role).Code));

    private static string Places(Call call)
    {
        using var document = JsonDocument.Parse(call.Out);
        return string.Join(' ', document.RootElement.GetProperty("matches").EnumerateArray()
            .Select(m => m.GetProperty("bar").ValueKind == JsonValueKind.Null ? "-" : $"{m.GetProperty("bar")}:{m.GetProperty("count")}"));
    }
}
