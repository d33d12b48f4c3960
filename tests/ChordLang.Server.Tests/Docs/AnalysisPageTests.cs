// The page about analysis holds what the program says: every call of it is run again, and what it is meant to show is asserted by itself.
using System.Text.Json;
using System.Text.RegularExpressions;
using ChordLang.Server.Cli;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Docs;

public sealed partial class AnalysisPageTests
{
    private const string Page = "grammar/ANALYSIS.md";

    [Fact]
    public void Every_call_of_the_page_says_what_stands_there()
    {
        var page = Repository.Text(Page).Replace("\r\n", "\n", StringComparison.Ordinal);
        var written = Block().Replace(page, m =>
        {
            var call = Call.Of([.. Word().Matches(m.Groups[2].Value).Select(w => w.Value.Trim('"'))]);
            Assert.True(call.Code == Command.Clean && call.Error.Length == 0, $"{m.Groups[2].Value}: exit code {call.Code}\n{call.Error}");
            var said = call.Out.TrimEnd('\n');
            return $"<!-- {m.Groups[1].Value}: {m.Groups[2].Value} -->\n{(m.Groups[1].Value == "run" ? $"```text\n$ chordlang {m.Groups[2].Value}\n{said}\n```" : $"\n{said}\n")}\n<!-- end -->";
        });
        if (Environment.GetEnvironmentVariable("CHORDLANG_UPDATE") == "1")
            File.WriteAllText(Repository.At(Page), written);
        Assert.True(written == page || Environment.GetEnvironmentVariable("CHORDLANG_UPDATE") == "1", $"{Page} is not what the program says; write it with: {Snapshots.UpdateCommand}");
        Assert.True(Block().Count(page) >= 10, "the page has lost its examples");
    }

    // Sources beside each claim as on the page: Messiaen 1944 (modes 1 and 2), Forte 1973 (3-12, 4-28), Piston 1941, from memory; else common practice.
    [Theory]
    [InlineData("x-x-3-4-3-4", "F Ab B D", 3)]
    [InlineData("x-x-2-1-1-0", "E G# C", 4)]
    [InlineData("C3+E3+G#3+Bb3+D4", "C D E F# G# Bb", 2)]
    [InlineData("C3+E3+Bb3+Db4+A4", "C Eb Gb A", 3)]
    public void A_symmetrical_sound_has_its_equal_roots(string voicing, string roots, int shift)
    {
        var answer = Name(voicing);
        Assert.Equal(Classes(roots.Split(' ')), Classes(answer.GetProperty("equalRoots").EnumerateArray().Select(r => r.GetString()!)));
        Assert.Equal(shift, answer.GetProperty("shift").GetInt32());
    }

    [Theory]
    [InlineData("x-x-3-4-3-4", "E7b9 G7b9 Bb7b9 Db7b9", true)]
    [InlineData("x-x-3-4-x-x", "G7 Db7", true)]
    [InlineData("x-5-7-4-6-x", "G9", true)]
    [InlineData("x-5-7-4-6-x", "Dm6 Bm7b5/D", false)]
    [InlineData("C3+E3+G3+A3", "C6 Am7/C", false)]
    public void A_sound_bears_all_its_names(string voicing, string symbols, bool rootless)
    {
        var names = Name(voicing).GetProperty("names").EnumerateArray().Where(n => n.GetProperty("rootless").GetBoolean() == rootless)
            .Select(n => rootless ? n.GetProperty("symbol").GetString()!.Split('/')[0] : n.GetProperty("symbol").GetString()!).ToList();
        Assert.All(symbols.Split(' '), s => Assert.Contains(s, names));
    }

    [Theory]
    [InlineData("x-x-3-4-x-x", "--before", "Cmaj7", "G7")]
    [InlineData("x-x-3-4-x-x", "--before", "Gbmaj7", "Db7")]
    [InlineData("x-x-3-4-3-4", "--before", "Cmaj7", "Bdim7")]
    public void What_follows_says_which_name_is_meant(string voicing, string option, string chord, string first) =>
        Assert.StartsWith(first, Name(voicing, option, chord).GetProperty("names")[0].GetProperty("symbol").GetString(), StringComparison.Ordinal);

    private static JsonElement Name(params string[] words)
    {
        var call = Call.Of(["name", .. words, "--format", "json"]);
        Assert.Equal(Command.Clean, call.Code);
        return JsonDocument.Parse(call.Out).RootElement.GetProperty("voicings")[0];
    }

    private static IEnumerable<int> Classes(IEnumerable<string> names) =>
        names.Select(n => ("C D EF G A B".IndexOf(n[0], StringComparison.Ordinal) + n.Count(c => c == '#') - n.Skip(1).Count(c => c == 'b') + 12) % 12).Order();

    [GeneratedRegex(@"<!-- (run|prose): (.*?) -->\n.*?<!-- end -->", RegexOptions.Singleline)]
    private static partial Regex Block();

    [GeneratedRegex(@"""[^""]*""|\S+")]
    private static partial Regex Word();
}
