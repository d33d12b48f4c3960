// Findings where a workflow shows them: GitHub's workflow commands, and the problem matcher for the text of `check`.
using System.Text.Json;
using System.Text.RegularExpressions;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Cli;

public sealed class AnnotationReportTests
{
    private const string Slip = "key     C major\nmeter   4/4\n\n| Dm7                3 G13\n    1 x-5-7-5-6-x    3 3-x-3-4-4-x\n";

    // The form ::warning file={name},line={line},endLine={endLine},title={title}::{message}: GitHub, "Workflow commands", from memory.
    [Fact]
    public void A_finding_is_one_line_with_its_place()
    {
        var line = Call.With(Slip, "check", "-", "--stdin-path", "week 1/a,b.chl", "--format", "github").Out.Split('\n')[0];
        Assert.StartsWith("::warning file=week 1/a%2Cb.chl,line=5,endLine=5,col=32,endColumn=33,title=name-fret-slip::Bar 1, count 3: ", line, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_in_a_file_can_begin_a_command_of_its_own()
    {
        var call = Call.With("title x\n| Cmaj7\n    1 x-3-5-4-5-x \"a\" ::error::%0A\n", "check", "-", "--format", "github");
        Assert.All(call.Out.Split('\n').Where(l => l.StartsWith("::", StringComparison.Ordinal)), l => Assert.Matches("^::(error|warning|notice) file=[^:]*::[^\r\n]*$", l));
        Assert.DoesNotContain("%0A.", call.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Slip, "warning", "5")]
    [InlineData("| Cmaj7\n    1 x-3-5-4-5-x unsure\n", "information", "2")]
    public void The_problem_matcher_reads_the_text_of_check(string text, string severity, string line)
    {
        using var matcher = JsonDocument.Parse(Repository.Text("editor-client/problem-matcher.json"));
        var patterns = matcher.RootElement.GetProperty("problemMatcher")[0].GetProperty("pattern").EnumerateArray().ToList();
        var said = Call.With(text, "check", "-", "--stdin-path", "week 1/lesson.chl").Out.Split('\n');
        var (first, second) = (Regex.Match(said[0], patterns[0].GetProperty("regexp").GetString()!), Regex.Match(said[1], patterns[1].GetProperty("regexp").GetString()!));
        Assert.Equal("week 1/lesson.chl", first.Groups[patterns[0].GetProperty("file").GetInt32()].Value);
        Assert.Equal(line, first.Groups[patterns[0].GetProperty("line").GetInt32()].Value);
        Assert.Equal(severity, second.Groups[patterns[1].GetProperty("severity").GetInt32()].Value);
        Assert.NotEmpty(second.Groups[patterns[1].GetProperty("message").GetInt32()].Value);
        Assert.DoesNotMatch(patterns[0].GetProperty("regexp").GetString()!, "1 file checked: 1 warning.");
    }
}
