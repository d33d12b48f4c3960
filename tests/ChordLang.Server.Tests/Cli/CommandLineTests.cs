// Calls that cannot be understood, help, and the small commands.
using System.Text.Json;
using ChordLang.Checks.Catalogue;
using ChordLang.Server.Cli;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Cli;

public sealed class CommandLineTests
{
    [Theory]
    [InlineData("chek samples", "there is no command 'chek'. Did you mean check?")]
    [InlineData("check", "check needs a file, a folder, or - for standard input.")]
    [InlineData("check - --fial-on hint", "check has no option '--fial-on'. Did you mean --fail-on?")]
    [InlineData("check - --fail-on", "--fail-on needs a value")]
    [InlineData("check - --fail-on loud", "it can be error, warning, information, hint.")]
    [InlineData("check - --format loud", "it can be text, json, sarif, github.")]
    [InlineData("check - --fix=yes", "--fix takes no value.")]
    [InlineData("explain name-fret", "Did you mean name-fret-slip?")]
    [InlineData("explain a b", "explain takes the name of one check")]
    [InlineData("chord", "chord needs a symbol")]
    [InlineData("name", "name needs a voicing")]
    [InlineData("name C4 --after H7", "--after: ")]
    public void Misuse_is_one_line_and_exit_code_2(string line, string says)
    {
        var call = Call.Of(line.Split(' '));
        Assert.Equal((Command.Trouble, ""), (call.Code, call.Out));
        Assert.StartsWith("chordlang: ", call.Error, StringComparison.Ordinal);
        Assert.Contains(says, call.Error, StringComparison.Ordinal);
        Assert.Equal(1, call.Error.Count(c => c == '\n'));
    }

    // The system's own words about a file may repeat its name, and a name may hold anything.
    [Theory, InlineData("check"), InlineData("analyse"), InlineData("describe"), InlineData("place"), InlineData("respell"), InlineData("practice"), InlineData("format"), InlineData("transpose", "--by", "1")]
    public void A_file_name_steers_no_terminal(string command, params string[] options)
    {
        var call = Call.Of([command, "no such\u001b[2J file.chl", .. options]);
        Assert.Equal(2, call.Code);
        Assert.Contains("cannot be read", call.Error);
        Assert.DoesNotContain('\u001b', call.Error);
    }

    [Fact]
    public void Help_of_all_and_of_each()
    {
        var pages = CommandLine.Commands.Select(c => Call.Of(c.Name, "--help")).Prepend(Call.Of("--help"));
        Assert.All(pages, p => Assert.Equal((Command.Clean, ""), (p.Code, p.Error)));
        Snapshots.Match(string.Join("\n", pages.Select(p => p.Out)), "help");
    }

    [Fact]
    public void Version_is_a_number() => Assert.Matches(@"^chordlang \d+\.\d+\.\d+\n$", Call.Of("--version").Out);

    [Fact]
    public void Explain_shows_every_page()
    {
        using var document = JsonDocument.Parse(Call.Of("explain", "--format", "json").Out);
        var pages = document.RootElement.GetProperty("checks").EnumerateArray().ToList();
        Assert.Equal(CheckCatalogue.All.Select(c => c.Code), pages.Select(p => p.GetProperty("code").GetString()));
        Assert.All(pages, p => Assert.Contains("## What", p.GetProperty("page").GetString(), StringComparison.Ordinal));
        Assert.Equal(CheckCatalogue.All.Length, Call.Of("explain").Out.Count(c => c == '\n'));
        Assert.StartsWith("# ", Call.Of("explain", "name-fret-slip").Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Chord_gives_kind_and_tones()
    {
        // Tones by common practice; kinds are values of MusicXML 4.0, type kind-value.
        using var document = JsonDocument.Parse(Call.Of("chord", "C13(b9)", "Bm7b5", "C7/Bb", "--format", "json").Out);
        var chords = document.RootElement.GetProperty("chords");
        Assert.Equal(["dominant-13th", "half-diminished", "dominant"], chords.EnumerateArray().Select(c => c.GetProperty("kind").GetString()));
        Assert.Equal("Bb", chords[2].GetProperty("bass").GetString());
        Assert.Equal([0, 3, 6, 10], chords[1].GetProperty("tones").EnumerateArray().Select(t => t.GetProperty("semitones").GetInt32()));
        Assert.Contains(chords[0].GetProperty("tones").EnumerateArray(), t => t.GetProperty("pitch").GetString() == "Db" && t.GetProperty("semitones").GetInt32() == 13);
    }

    [Fact]
    public void A_symbol_that_is_none_points_at_the_place()
    {
        var call = Call.With("Cmaj7\n\nCmaj7(b\n", "chord", "-");
        Assert.Equal(Command.Found, call.Code);
        Assert.Contains("^", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Name_gives_the_best_name_first()
    {
        // Common practice: C G B E is a major seventh chord, and a diminished seventh is the same sound three frets up.
        using var document = JsonDocument.Parse(Call.Of("name", "x-3-5-4-5-x", "x-x-1-2-1-2", "E2+x", "--format", "json").Out);
        var voicings = document.RootElement.GetProperty("voicings");
        Assert.Equal("Cmaj7", voicings[0].GetProperty("names")[0].GetProperty("symbol").GetString());
        Assert.Equal(["C3", "G3", "B3", "E4"], voicings[0].GetProperty("pitches").EnumerateArray().Select(p => p.GetString()));
        Assert.Equal(3, voicings[1].GetProperty("shift").GetInt32());
        Assert.Equal(JsonValueKind.String, voicings[2].GetProperty("trouble").ValueKind);
    }

    [Fact]
    public void New_prints_what_checks_clean()
    {
        foreach (var options in new string[][] { ["A", "Title"], ["--key", "Eb major", "--meter", "3/4"], ["--strings", "D2 A2 D3 G3 B3 E4"], ["--strings", "B1 E2 A2 D3 G3 B3 E4"] })
        {
            var made = Call.Of(["new", .. options]);
            Assert.Equal((Command.Clean, ""), (made.Code, made.Error));
            Assert.Equal("1 file checked: nothing to say.\n", Call.With(made.Out, "check", "-", "--fail-on", "hint").Out);
            Assert.Equal(made.Out, Call.With(made.Out, "format", "-").Out);
        }
    }

    [Fact]
    public void Format_checks_shows_and_writes()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("loose.chl", "key C major\r\n| Cmaj7\r\n  1 x35453\r\n");
        Assert.Equal(Command.Found, Call.Of("format", "--check", path).Code);
        var shown = Call.Of("format", "--diff", path);
        Assert.Equal(Command.Found, shown.Code);
        Assert.Contains("+     1 x-3-5-4-5-3\n", shown.Out, StringComparison.Ordinal);
        Assert.Equal(Command.Clean, Call.Of("format", path).Code);
        Assert.Contains("    1 x-3-5-4-5-3\r\n", File.ReadAllText(path), StringComparison.Ordinal);
        Assert.Equal((Command.Clean, ""), (Call.Of("format", "--check", path) is var c ? c.Code : 0, c.Out));
    }
}
