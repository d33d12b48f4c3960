// Which value holds where several sources speak, and what is said of a source that speaks wrongly.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Configuring;
using ChordLang.Checks.Tests.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Tests.Configuring;

public sealed class ConfigurationTests
{
    private const string Wide = "key C major\n\n| Cmaj7\n    1 x-3-5-4-5-x unsure\n";

    [Fact]
    public void The_piece_goes_before_the_nearest_file_and_every_file_before_the_editor()
    {
        var near = ConfigurationReader.ReadFile("{ \"naming\": \"strict\" }", "near.json");
        var far = ConfigurationReader.ReadFile("{\n  \"naming\": \"jazz\",\n  \"frets\": 15 }", "far.json");
        var editor = ConfigurationReader.ReadEditor("""{ "naming": "jazz", "frets": 12, "hand": "small", "theme": "dark" }""");
        Assert.Empty(near.Troubles.Concat(far.Troubles).Concat(editor.Troubles));
        var all = Configuration.Of([.. near.For(null), .. far.For(null), .. editor.For(null)]);
        Assert.Equal(("strict", "near.json, line 1"), (all["naming"]!.Value, all["naming"]!.Origin));
        Assert.Equal(("15", "far.json, line 3"), (all["frets"]!.Value, all["frets"]!.Origin));
        Assert.Equal(("small", "editor"), (all["hand"]!.Value, all["hand"]!.Origin));
        Assert.Null(all["capo"]);
        var settings = Bind("| C\n", all).Settings;
        Assert.Equal((true, 15, "small"), (settings.Strict, settings.Neck.Frets, settings.Hand.Name));
        Assert.False(Bind("naming jazz\n\n| C\n", all).Settings.Strict);
    }

    [Fact]
    public void A_name_goes_before_its_family_and_a_near_family_before_a_far_name()
    {
        var near = ConfigurationReader.ReadFile("""{ "checks": { "text": "off", "text-unsure": "warning" } }""", "near.json");
        var far = ConfigurationReader.ReadFile("""{ "checks": { "text-typing": "error" } }""", "far.json");
        var levels = Configuration.Of([.. near.For(null), .. far.For(null)]).Levels;
        Assert.Equal(("warning", "off"), (levels["text-unsure"].Value, levels["text-typing"].Value));
        Assert.False(levels.ContainsKey("hand-wide-stretch"));
    }

    [Theory]
    [InlineData("error", Severity.Error)]
    [InlineData("hint", Severity.Hint)]
    [InlineData("off", null)]
    public void A_finding_has_the_level_that_is_configured(string level, Severity? severity)
    {
        var configuration = Of($$"""{ "checks": { "text-unsure": "{{level}}" } }""");
        var found = CheckCatalogue.Run(Bind(Wide, configuration), configuration);
        Assert.Equal(severity is null ? [] : [severity], found.Select(f => (Severity?)f.Severity));
    }

    [Fact]
    public void What_is_off_breaks_no_expectation_and_its_allow_is_not_called_useless()
    {
        var configuration = Of("""{ "checks": { "text-unsure": "off" } }""");
        foreach (var text in new[] { "expect no findings\n\n" + Wide, Wide.Replace("|", "// allow text-unsure: by ear\n|", StringComparison.Ordinal) })
            Assert.Empty(CheckCatalogue.Run(Bind(text, configuration), configuration));
    }

    [Fact]
    public void What_a_comment_allows_is_kept_with_its_reason()
    {
        var piece = Checked.Bind(Wide.Replace("|", "// allow text-unsure: by ear\n|", StringComparison.Ordinal));
        var allowed = Assert.Single(CheckCatalogue.Report(piece, Configuration.None).Allowed);
        Assert.Equal(("text-unsure", "by ear", 1), (allowed.Finding.Code, allowed.Allow.Reason, allowed.Finding.Bar));
    }

    [Theory]
    [InlineData("exercises/**", "exercises/week1/scale.chl", true)]
    [InlineData("exercises/*.chl", "exercises/week1/scale.chl", false)]
    [InlineData("**/draft-*.chl", "a/b/draft-one.chl", true)]
    [InlineData("*.chl", "Lesson.chl", true)]
    [InlineData("lesson.chl", "Lesson.chl", false)]
    public void Globs_pick_files(string glob, string path, bool meant)
    {
        var file = ConfigurationReader.ReadFile($$"""{ "naming": "jazz", "files": { "{{glob}}": { "naming": "strict" } }, "ignore": ["{{glob}}"] }""", "chordlang.json");
        Assert.Equal(meant ? "strict" : "jazz", Configuration.Of(file.For(path))["naming"]!.Value);
        Assert.Equal(meant, file.Ignores(path));
    }

    [Fact]
    public void Of_two_globs_that_meet_the_later_holds() =>
        Assert.Equal("12", Configuration.Of(ConfigurationReader.ReadFile("""{ "files": { "**": { "frets": 15 }, "a/*": { "frets": 12 } } }""", "c").For("a/b.chl"))["frets"]!.Value);

    [Theory]
    [InlineData("{\n\"namming\": \"strict\" }", 1, "There is no setting 'namming'. Did you mean naming?")]
    [InlineData("{ \"volume\": 3 }", 0, "There is no setting 'volume'. These are known: naming, hand, reach")]
    [InlineData("{ \"checks\": {\n\n\"hand-wide-strech\": \"off\" } }", 2, "There is no check or family of checks 'hand-wide-strech'. Did you mean hand-wide-stretch?")]
    [InlineData("{ \"checks\": { \"hand\": \"loud\" } }", 0, "The level of hand can be error, warning, information, hint, off.")]
    [InlineData("{ \"checks\": [] }", 0, "checks takes an object of levels")]
    [InlineData("{ \"hand\": \"huge\" }", 0, "hand is small, medium or large.")]
    [InlineData("{ \"frets\": true }", 0, "frets takes a text, such as \"21\".")]
    [InlineData("{ \"frets\": 400 }", 0, "frets wants how many frets the neck has")]
    [InlineData("{ \"strings\": \"E2 A2\" }", 0, "strings wants the open strings with their octaves")]
    [InlineData("{ \"reach\": \"5 to 20\", \"frets\": 12 }", 0, "The hand cannot reach from fret 5 to fret 20 on a neck of 12 frets.")]
    [InlineData("{ \"files\": { \"a\": 1 } }", 0, "files takes an object of globs")]
    [InlineData("{ \"files\": { \"a\": { \"ignore\": [] } } }", 0, "There is no setting 'ignore'.")]
    [InlineData("{ \"ignore\": \"a\" }", 0, "ignore takes a list of globs")]
    [InlineData("{ \"naming\": \"strict\"\n\"frets\": 3 }", 1, "This is no JSON")]
    [InlineData("[]", 0, "A configuration is one object")]
    [InlineData("", 0, "This is no JSON")]
    public void What_cannot_be_used_is_told_with_its_line(string text, int line, string says)
    {
        var trouble = Assert.Single(ConfigurationReader.ReadFile(text, "chordlang.json").Troubles);
        Assert.Equal(line, trouble.Line);
        Assert.Contains(says, trouble.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void One_slip_takes_nothing_else_with_it()
    {
        var file = ConfigurationReader.ReadFile("""{ "naming": "loud", "frets": 21, /* a note */ "strings": "D2 A2 D3 G3 B3 E4", }""", "c");
        var settings = Configuration.Of(file.For(null)).Defaults;
        Assert.Equal((21, "D2 A2 D3 G3 B3 E4", false), (settings.Neck.Frets, settings.Neck.Tuning.ToString(), settings.Strict));
        Assert.Single(file.Troubles);
    }

    [Fact]
    public void The_example_of_every_setting_can_be_used() =>
        Assert.All(ConfigurationKeys.Settings, key => Assert.Empty(ConfigurationReader.ReadFile($$"""{ "{{key.Key}}": "{{key.Example}}" }""", "c").Troubles));

    [Fact]
    public void The_hand_that_is_configured_is_the_one_that_stretches()
    {
        // Fret 1 to fret 6 with two fingers between: beyond the limit of a small hand, not of a large one (figures: HandFigure.All).
        const string Text = "| N.C.\n    1 1-x-3-5-6-x\n";
        var (small, large) = (Of("""{ "hand": "small" }"""), Of("""{ "hand": "large" }"""));
        Assert.Contains(CheckCatalogue.Run(Bind(Text, small), small), f => f.Code == "hand-impossible-stretch");
        Assert.DoesNotContain(CheckCatalogue.Run(Bind(Text, large), large), f => f.Code == "hand-impossible-stretch");
    }

    private static Configuration Of(string json) => Configuration.Of(ConfigurationReader.ReadFile(json, "chordlang.json").For(null));

    private static Piece Bind(string text, Configuration configuration) => Binder.Bind(SyntaxTree.Parse(text), new Shelf(configuration.Defaults));

    private sealed class Shelf(Settings defaults) : ILibrary
    {
        public Settings Defaults => defaults;

        public UsedFile Open(string path, string? usedBy) => new(path, null, null);
    }
}
