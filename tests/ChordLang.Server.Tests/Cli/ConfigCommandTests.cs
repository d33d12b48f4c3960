// Where a setting comes from, through real folders; and that the published schema is the one that is read.
using System.Text.Json;
using ChordLang.Checks.Configuring;
using ChordLang.Server.Cli;
using ChordLang.Testing;
using NJsonSchema;

namespace ChordLang.Server.Tests.Cli;

public sealed class ConfigCommandTests
{
    private const string Piece = "key C major\nfrets 19\n\n| Cmaj7\n    1 x-3-5-4-5-x unsure\n";

    [Fact]
    public void Each_value_says_where_it_comes_from()
    {
        using var folder = new TemporaryFolder();
        folder.Write("lessons/chordlang.json", """
            {
              "naming": "jazz",
              "frets": 12, "capo": 1,
              "files": { "week1/*": { "scale-length": "628 mm" } },
              "checks": { "text-unsure": "hint" }
            }
            """);
        folder.Write("lessons/week1/chordlang.json", "{ \"naming\": \"strict\" }");
        var call = Call.Of("config", "show", folder.Write("lessons/week1/piece.chl", Piece), "--format", "json");
        Assert.Equal((Command.Clean, ""), (call.Code, call.Error));
        using var document = JsonDocument.Parse(call.Out);
        var settings = document.RootElement.GetProperty("settings").EnumerateArray().ToDictionary(s => s.GetProperty("name").GetString()!, s => (s.GetProperty("value").GetString(), s.GetProperty("origin").GetString()));
        Assert.Equal(("strict", "chordlang.json, line 1"), settings["naming"]);
        Assert.Equal(("19", "piece, line 2"), settings["frets"]);
        Assert.Equal(("1", "../chordlang.json, line 3"), settings["capo"]);
        Assert.Equal(("628 mm", "../chordlang.json, line 4"), settings["scale-length"]);
        Assert.Equal(("E2 A2 D3 G3 B3 E4", "default"), settings["strings"]);
        Assert.Equal(("medium", "default"), settings["hand"]);
        Assert.Equal(("hint", "../chordlang.json, line 5"), settings["checks.text-unsure"]);
        Assert.Equal(("C major", "piece, line 1"), settings["key"]);
    }

    [Fact]
    public void Nothing_above_the_folder_of_the_repository_is_read()
    {
        using var folder = new TemporaryFolder();
        folder.Write("chordlang.json", """{ "naming": "strict" }""");
        Directory.CreateDirectory(Path.Combine(folder.Path, "inner", ".git"));
        Assert.Matches(@"\nnaming +jazz +default\n", Call.Of("config", "show", folder.Write("inner/a.chl", Piece)).Out);
        Assert.Matches(@"\nnaming +strict +chordlang.json, line 1\n", Call.Of("config", "show", folder.Write("b.chl", Piece)).Out);
    }

    [Fact]
    public void A_slip_in_the_file_is_told_once_and_the_lessons_are_checked_all_the_same()
    {
        using var folder = new TemporaryFolder();
        folder.Write("chordlang.json", "{\n  \"namming\": \"strict\"\n}");
        folder.Write("a.chl", Piece);
        folder.Write("b.chl", Piece);
        var call = Call.Of("check", folder.Path);
        Assert.Equal(Command.Clean, call.Code);
        Assert.EndsWith("chordlang.json, line 2: There is no setting 'namming'. Did you mean naming?\n", call.Error, StringComparison.Ordinal);
        Assert.Equal(1, call.Error.Count(c => c == '\n'));
        Assert.Contains("2 files checked: 2 informations.", call.Out, StringComparison.Ordinal);
        folder.Write("chordlang.json", "{ \"naming\": ");
        Assert.Equal(Command.Trouble, Call.Of("check", folder.Path).Code);
    }

    [Fact]
    public void Levels_reach_check_and_ignored_files_are_left_out_of_folders_only()
    {
        using var folder = new TemporaryFolder();
        folder.Write("chordlang.json", """{ "checks": { "text-unsure": "error" }, "ignore": ["drafts/**"] }""");
        folder.Write("a.chl", Piece);
        var draft = folder.Write("drafts/b.chl", Piece);
        var call = Call.Of("check", folder.Path);
        Assert.Equal(Command.Found, call.Code);
        Assert.EndsWith("1 file checked: 1 error.\n", call.Out, StringComparison.Ordinal);
        Assert.EndsWith("1 file checked: 1 error.\n", Call.Of("check", draft).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_published_schema_is_the_one_that_is_read()
    {
        const string Published = "editor-client/chordlang.schema.json";
        if (Environment.GetEnvironmentVariable("CHORDLANG_UPDATE") == "1")
            await File.WriteAllTextAsync(Repository.At(Published), ConfigurationSchema.Text);
        var call = Call.Of("config", "schema");
        Assert.Equal(Command.Clean, call.Code);
        Assert.True(File.Exists(Repository.At(Published)) && Repository.Text(Published).Replace("\r\n", "\n", StringComparison.Ordinal) == call.Out,
            $"{Published} is not what `config schema` prints (a check is new, perhaps); write it with: {Snapshots.UpdateCommand} tests/ChordLang.Server.Tests");
        var schema = await JsonSchema.FromJsonAsync(call.Out);
        foreach (var (text, good) in new[]
        {
            ("{}", true), ("""{ "naming": "strict", "frets": 21, "capo": "2", "reach": "5 to 9", "strings": "D2 A2 D3 G3 B3 E4" }""", true),
            ("""{ "checks": { "hand": "off", "name-fret-slip": "hint" }, "files": { "a/**": { "hand": "small" } }, "ignore": ["b"] }""", true),
            ("""{ "namming": "strict" }""", false), ("""{ "naming": "loud" }""", false), ("""{ "checks": { "hand": "loud" } }""", false), ("""{ "checks": { "nothing": "off" } }""", false),
            ("""{ "files": { "a": { "ignore": [] } } }""", false), ("""{ "ignore": "a" }""", false),
        })
        {
            Assert.Equal(good, schema.Validate(text).Count == 0);
            Assert.Equal(good, ConfigurationReader.ReadFile(text, "c").Troubles.IsEmpty);
        }
        foreach (var key in ConfigurationKeys.Settings)
            Assert.Empty(schema.Validate($$"""{ "{{key.Key}}": "{{key.Example}}" }"""));
    }

    [Theory]
    [InlineData("config")]
    [InlineData("config show")]
    [InlineData("config set x")]
    [InlineData("config show samples/none.chl")]
    public void Misuse(string line) => Assert.Equal(Command.Trouble, Call.Of(line.Split(' ')).Code);
}
