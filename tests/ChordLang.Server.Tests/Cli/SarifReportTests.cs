// The SARIF log against the schema of the standard, and what a schema cannot say: places, fingerprints, fixes, suppressions.
using System.Text.Json;
using ChordLang.Checks.Catalogue;
using ChordLang.Server.Cli;
using ChordLang.Testing;
using NJsonSchema;

namespace ChordLang.Server.Tests.Cli;

public sealed class SarifReportTests
{
    private const string Slip = "key     C major\nmeter   4/4\n\n| Dm7                3 G13\n    1 x-5-7-5-6-x    3 3-x-3-4-4-x\n";

    // OASIS, Static Analysis Results Interchange Format 2.1.0, JSON schema rtm.5 (npm @microsoft/jest-sarif carries it).
    [Fact, Trait("Needs", "npm")]
    public async Task Every_sample_makes_a_log_that_the_schema_of_the_standard_allows()
    {
        var path = Repository.At(".artifacts/external/sarif-schema.json");
        Assert.True(File.Exists(path), $"{path} is missing: run tests/External/prepare");
        var schema = await JsonSchema.FromJsonAsync(await File.ReadAllTextAsync(path));
        var log = Call.Of("check", "samples", "samples/none.chl", "--format", "sarif").Out;
        Assert.Empty(schema.Validate(log));
        Assert.NotEmpty(schema.Validate(log.Replace("\"ruleId\"", "\"rule\"", StringComparison.Ordinal)));
        Assert.NotEmpty(schema.Validate(log.Replace("utf16CodeUnits", "utf8", StringComparison.Ordinal)));
    }

    [Fact]
    public void Rules_are_the_checks_and_their_help_is_the_page()
    {
        var driver = Run(Slip).GetProperty("tool").GetProperty("driver");
        var rules = driver.GetProperty("rules").EnumerateArray().ToList();
        Assert.Equal(CheckCatalogue.All.Select(c => c.Code), rules.Select(r => r.GetProperty("id").GetString()));
        Assert.All(rules, r => Assert.Contains("## When to ignore", r.GetProperty("help").GetProperty("markdown").GetString(), StringComparison.Ordinal));
        Assert.All(rules, r => Assert.DoesNotContain("#", r.GetProperty("fullDescription").GetProperty("text").GetString()![..1], StringComparison.Ordinal));
    }

    [Fact]
    public void A_region_has_four_corners_in_UTF_16_units()
    {
        // 𝄪 is two UTF-16 units and ♭ is one (Unicode); lines and columns count from 1, the end is exclusive (SARIF 3.30).
        var run = Run("key C major\n\n| E♭maj7\n    1 x-3-5-4-5-x \"𝄪\" oops\n");
        Assert.Equal("utf16CodeUnits", run.GetProperty("columnKind").GetString());
        var region = Assert.Single(run.GetProperty("results").EnumerateArray(), r => r.GetProperty("ruleId").GetString() == "text-unknown-mark")
            .GetProperty("locations")[0].GetProperty("physicalLocation").GetProperty("region");
        Assert.Equal([4, 24, 4, 28], new[] { "startLine", "startColumn", "endLine", "endColumn" }.Select(n => region.GetProperty(n).GetInt32()));
    }

    [Fact]
    public void Fingerprints_survive_a_bar_inserted_above_and_tell_equal_findings_apart()
    {
        var twice = Slip + "\n| Cmaj7\n    1 x-3-5-4-5-x\n\n| Dm7                3 G13\n    1 x-5-7-5-6-x    3 3-x-3-4-4-x\n";
        var before = Prints(twice);
        Assert.Equal(2, before.Count);
        Assert.Equal(2, before.Distinct().Count());
        Assert.Equal(before, Prints(twice.Replace("4/4\n\n", "4/4\n\n| Em7\n    1 x-7-9-7-8-x\n\n", StringComparison.Ordinal)));
        Assert.Equal(before, Prints(twice.Replace("    1 x-5-7-5-6-x    3", "  1 x-5-7-5-6-x 3", StringComparison.Ordinal)));
        Assert.NotEqual(before[0], Prints(Slip.Replace("3-x-3-4-4-x", "3-x-3-4-3-x", StringComparison.Ordinal)).FirstOrDefault());
    }

    [Fact]
    public void Paths_are_relative_to_the_repository_and_escaped()
    {
        var uri = Run(Slip, "samples/valid/a piece #1.chl").GetProperty("results")[0].GetProperty("locations")[0].GetProperty("physicalLocation").GetProperty("artifactLocation");
        Assert.Equal(("samples/valid/a%20piece%20%231.chl", SarifReport.Base), (uri.GetProperty("uri").GetString(), uri.GetProperty("uriBaseId").GetString()));
    }

    [Fact]
    public void Only_safe_fixes_are_offered()
    {
        var results = Run("key: C major\n\n| Cmaj7\n    1 x–3–5–4–5–x\n| Dm7   3 G13\n    1 x-5-7-5-6-x    3 3-x-3-4-4-x\n").GetProperty("results").EnumerateArray().ToList();
        var typing = results.Where(r => r.GetProperty("ruleId").GetString() == "text-typing").ToList();
        Assert.NotEmpty(typing);
        Assert.All(typing, r => Assert.NotEmpty(r.GetProperty("fixes")[0].GetProperty("artifactChanges")[0].GetProperty("replacements").EnumerateArray()));
        Assert.False(results.First(r => r.GetProperty("ruleId").GetString() == "name-fret-slip").TryGetProperty("fixes", out _));
    }

    [Fact]
    public void What_is_allowed_is_a_suppressed_result_with_its_reason()
    {
        var call = Call.With(Slip.Replace("| Dm7", "// allow name-fret-slip: heard so\n| Dm7", StringComparison.Ordinal), "check", "-", "--format", "sarif");
        Assert.Equal(Command.Clean, call.Code);
        using var document = JsonDocument.Parse(call.Out);
        var result = document.RootElement.GetProperty("runs")[0].GetProperty("results")[0];
        Assert.Equal(("inSource", "heard so"), (result.GetProperty("suppressions")[0].GetProperty("kind").GetString(), result.GetProperty("suppressions")[0].GetProperty("justification").GetString()));
        Assert.Equal(0, Run(Slip).GetProperty("results")[0].GetProperty("suppressions").GetArrayLength());
    }

    [Fact]
    public void A_file_that_cannot_be_read_is_told_and_the_run_is_no_success()
    {
        var call = Call.Of("check", "samples/none.chl", "--format", "sarif");
        Assert.Equal(Command.Trouble, call.Code);
        using var document = JsonDocument.Parse(call.Out);
        var invocation = document.RootElement.GetProperty("runs")[0].GetProperty("invocations")[0];
        Assert.False(invocation.GetProperty("executionSuccessful").GetBoolean());
        Assert.Contains("samples/none.chl cannot be read", invocation.GetProperty("toolExecutionNotifications")[0].GetProperty("message").GetProperty("text").GetString(), StringComparison.Ordinal);
    }

    private static JsonElement Run(string text, string path = "lesson.chl") =>
        JsonDocument.Parse(Call.With(text, "check", "-", "--stdin-path", path, "--format", "sarif").Out).RootElement.GetProperty("runs")[0];

    private static List<string> Prints(string text) =>
        [.. Run(text).GetProperty("results").EnumerateArray().Select(r => r.GetProperty("partialFingerprints").GetProperty("chordlangFinding/v1").GetString()!)];
}
