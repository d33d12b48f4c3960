// Names of files and words of lessons that mean harm to whoever reads the answer: a terminal, a script, a code-scanning page.
using System.Globalization;
using System.Text.Json;

namespace ChordLang.Server.Tests.Cli;

public sealed class HostileOutputTests : IDisposable
{
    // Colours, a title for the window, a way back to the line's start, a turned direction of writing, an isolate, a line separator.
    private const string Steering = "\u001b[31m\u001b]0;x\u0007\u009b2J\u202e\u2066\u200f\u061c\u2028\u007f";
    private readonly TemporaryFolder folder = new();
    private readonly string hostile, clean, score;

    public HostileOutputTests()
    {
        var text = $"title A{Steering}\nby {Steering}\nkey C major\ntags a{Steering}\nuse \"none{Steering}.chl\"\n> Words{Steering}\nsection One{Steering}\nshape low{Steering} = x-3-5-4-5-x\n\n"
            + $"| Cmaj7 3 G{Steering}\n    1 x-3-5-4-6-x oops{Steering}   3 low{Steering}\n> More{Steering}\n| Dm7\n    1 x-5-7-5-6-x \"{Steering}\"\n// allow name{Steering}: {Steering}\n| [x](command:y) {{0}}\n";
        hostile = folder.Write($"red{Steering}\n::error::x.chl", text);
        clean = folder.Write("clean.chl", "key C major\n| Cmaj7\n    1 x-3-5-4-5-x\n");
        score = folder.Write($"tab{Steering}.txt", $"{Steering}\nE|--0--{Steering}\nB|--1--\nG|--0--\nD|--2--\nA|--3--\nE|-----\n");
        folder.Write("chordlang.json", $"{{ \"hand{JsonEncodedText.Encode(Steering)}\": \"{JsonEncodedText.Encode(Steering)}\" }}");
    }

    public void Dispose() => folder.Dispose();

    public static TheoryData<string> Commands =>
    [
        "check FILE", "check FOLDER", "check FILE --format json", "check FILE --format sarif", "check FILE --format github", "check FILE.none", "check FILE.none --format json", "check FILE.none --format sarif", "check FILE.none --format github",
        "format --check FILE", "format --diff FILE", "analyse FILE", "analyse FILE --format json", "analyse FILE --bar-by-bar", "place FILE", "place FILE --format json", "respell FILE", "respell FILE --format json",
        "practice FILE", "practice FILE --format json", "describe FILE", "describe FILE --brief", "describe FILE --format json", "diff FILE CLEAN", "diff CLEAN FILE --format json", "find FOLDER --chord Cmaj7", "find FOLDER --chord Cmaj7 --format json",
        "config show FILE", "config show FILE --format json", "export FILE --to sheet --out FILE.none/x", "transpose FILE --by STEER", "transpose FILE.none --by 2", "explain STEER", "chord STEER", "chord STEER --format json", "name STEER", "name x-3-5-4-5-x --key STEER",
        "import FILE", "import SCORE --format json", "import FILE.none", "STEER", "check --STEER", "check --format STEER", "serve STEER", "git STEER", "export FILE --to STEER", "serve --check FILE", "new STEER",
    ];

    [Theory]
    [MemberData(nameof(Commands))]
    public void Nothing_steers_the_terminal(string words)
    {
        var call = Call.Of([.. words.Split(' ').Select(w => w.Replace("FILE", hostile, StringComparison.Ordinal).Replace("FOLDER", folder.Path, StringComparison.Ordinal)
            .Replace("CLEAN", clean, StringComparison.Ordinal).Replace("SCORE", score, StringComparison.Ordinal).Replace("STEER", "x" + Steering, StringComparison.Ordinal))]);
        foreach (var (said, where) in new[] { (call.Out, "output"), (call.Error, "error") })
            Assert.False(said.Any(c => c is not ('\n' or '\t') && Steers(c)), $"{words}, {where}: {JsonEncodedText.Encode(said)}");
        // A line of its own would be a command to whoever reads annotations.
        Assert.DoesNotContain(call.Out.Split('\n'), l => l.StartsWith("::error::", StringComparison.Ordinal));
        if (words.Contains("json", StringComparison.Ordinal) && call.Out.Length > 0)
            JsonDocument.Parse(call.Out).Dispose();
    }

    // Controls and signs without a picture; the letters between them do nothing by themselves.
    private static bool Steers(char c) => char.GetUnicodeCategory(c) is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator;

    [Fact]
    public void JSON_says_what_the_lesson_says()
    {
        using var document = JsonDocument.Parse(Call.Of("check", hostile, "--format", "json").Out);
        Assert.EndsWith("::error::x.chl", document.RootElement.GetProperty("files")[0].GetProperty("path").GetString(), StringComparison.Ordinal);
        Assert.Contains("\u202e", document.RootElement.GetProperty("files")[0].GetProperty("path").GetString(), StringComparison.Ordinal);
    }

    // SARIF 2.1.0, 3.11.6: [text](target) in a message is a link, and a bracket that is none is written \[; 3.11.5: {0} is a place to fill, and a brace {{.
    [Fact]
    public void A_message_of_SARIF_holds_no_link_and_no_place_to_fill()
    {
        using var document = JsonDocument.Parse(Call.Of("check", hostile, "--format", "sarif").Out);
        var results = document.RootElement.GetProperty("runs")[0].GetProperty("results").EnumerateArray().ToList();
        var said = results.Select(r => r.GetProperty("message").GetProperty("text").GetString()!).ToList();
        Assert.Contains(said, s => s.Contains("\\[x\\](", StringComparison.Ordinal));
        Assert.DoesNotContain(said, s => s.Contains("x](", StringComparison.Ordinal));
        Assert.DoesNotContain(said, s => s.Replace("{{", "", StringComparison.Ordinal).Contains('{', StringComparison.Ordinal));
        Assert.All(results, r => Assert.True(Uri.TryCreate(r.GetProperty("locations")[0].GetProperty("physicalLocation").GetProperty("artifactLocation").GetProperty("uri").GetString(), UriKind.RelativeOrAbsolute, out _)));
    }
}
