// The README says what is true: its commands run, its table is the list of commands, its picture is what check prints.
using System.Text;
using System.Text.RegularExpressions;
using ChordLang.Checks.Catalogue;
using ChordLang.Server.Cli;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Docs;

public sealed partial class ReadmeTests
{
    private const string Picture = ".github/finding.svg";
    private static readonly string Readme = Repository.Text("README.md").Replace("\r\n", "\n", StringComparison.Ordinal);

    [Fact]
    public void The_picture_is_what_check_prints()
    {
        var lesson = ExampleFence().Match(Readme).Groups[1].Value;
        var call = Call.With(Encoding.UTF8.GetBytes(lesson), true, "check", "-", "--stdin-path", "lesson.chl");
        Assert.Equal(Command.Found, call.Code);
        var drawn = TerminalPicture.Draw("chordlang check lesson.chl", call.Out);
        if (Environment.GetEnvironmentVariable("CHORDLANG_UPDATE") == "1")
            File.WriteAllText(Repository.At(Picture), drawn);
        Assert.True(drawn == Repository.Text(Picture).Replace("\r\n", "\n", StringComparison.Ordinal), $"{Picture} is not what check prints; write it with: {Snapshots.UpdateCommand}");
        Assert.Contains($"({Picture})", Readme, StringComparison.Ordinal);
    }

    [Fact]
    public void The_picture_of_the_sheet_is_what_export_draws()
    {
        const string sheet = ".github/sheet.svg";
        var drawn = Call.Of("export", "samples/valid/porch-step.chl", "--to", "svg").Out;
        if (Environment.GetEnvironmentVariable("CHORDLANG_UPDATE") == "1")
            File.WriteAllText(Repository.At(sheet), drawn);
        Assert.True(drawn == Repository.Text(sheet).Replace("\r\n", "\n", StringComparison.Ordinal), $"{sheet} is not what export draws; write it with: {Snapshots.UpdateCommand}");
        Assert.Contains($"({sheet})", Readme, StringComparison.Ordinal);
    }

    [Fact]
    public void The_table_is_the_list_of_commands()
    {
        var rows = CommandRow().Matches(Readme).Select(m => (m.Groups[1].Value, m.Groups[2].Value));
        Assert.Equal(CommandLine.Commands.Select(c => (c.Name, c.Summary)), rows);
    }

    [Fact]
    public void Every_command_of_the_README_runs()
    {
        var calls = CallLine().Matches(Readme).Select(m => m.Groups[1].Value).ToList();
        Assert.NotEmpty(calls);
        foreach (var line in calls)
        {
            var call = Call.Of([.. Word().Matches(line).Select(m => m.Value.Trim('"'))]);
            Assert.True(call.Code == Command.Clean && call.Error.Length == 0, $"{line}: exit code {call.Code}\n{call.Error}{call.Out}");
        }
    }

    [Fact]
    public void The_first_command_finds_what_is_broken_and_nothing_else()
    {
        Assert.Contains("dotnet run --project server/ChordLang.Server -- check samples\n", Readme, StringComparison.Ordinal);
        Assert.Contains("\nbash tests/run\n", Readme, StringComparison.Ordinal);
        var call = Call.Of("check", "samples");
        Assert.DoesNotContain("samples/valid/", call.Out, StringComparison.Ordinal);
        var broken = Repository.Samples("broken");
        Assert.Equal(broken.Count == 0 ? Command.Clean : Command.Found, call.Code);
        Assert.All(broken, path => Assert.Contains($"{path}, line ", call.Out, StringComparison.Ordinal));
    }

    [Fact]
    public void Files_that_are_named_exist()
    {
        foreach (var page in new[] { "README.md", "DEVELOPERS.md" })
            foreach (var link in Link().Matches(Repository.Text(page)).Concat(QuotedPath().Matches(Repository.Text(page))))
                Assert.True(Path.Exists(Repository.At(link.Groups[1].Value)), $"{page} points at {link.Groups[1].Value}");
    }

    [Fact]
    public void A_check_that_is_named_exists()
    {
        foreach (Match name in CheckName().Matches(Readme))
            Assert.Contains(CheckCatalogue.All, c => c.Code == name.Value);
    }

    [GeneratedRegex(@"```chl\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex ExampleFence();

    [GeneratedRegex(@"^\| `([a-z]+)` \| (.*) \|$", RegexOptions.Multiline)]
    private static partial Regex CommandRow();

    [GeneratedRegex(@"^chordlang (.*)$", RegexOptions.Multiline)]
    private static partial Regex CallLine();

    [GeneratedRegex(@"""[^""]*""|\S+")]
    private static partial Regex Word();

    [GeneratedRegex(@"\]\(([^):]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"`((?:server|grammar|tests|samples|editor-client|\.build|\.ci)/[A-Za-z./-]+)`")]
    private static partial Regex QuotedPath();

    [GeneratedRegex(@"\b(?:name|fret|count|text|form|hand|spelling|ring)-[a-z]+-[a-z]+\b")]
    private static partial Regex CheckName();
}
