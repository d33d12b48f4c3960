// What `export` takes, writes and refuses.
using System.Xml.Linq;
using ChordLang.Server.Cli;

namespace ChordLang.Server.Tests.Cli;

public sealed class ExportCommandTests
{
    private const string Text = "title Two\u0007 Bars\n\n| Gmaj7\n    1 3-x-4-4-3-x   3 7@1\n";

    [Fact]
    public void MusicXml_goes_to_standard_output_or_to_a_new_file()
    {
        var call = Call.With(Text, "export", "-", "--to", "musicxml");
        Assert.Equal((Command.Clean, ""), (call.Code, call.Error));
        Assert.Equal("4.0", XDocument.Parse(call.Out).Root!.Attribute("version")!.Value);
        using var folder = new TemporaryFolder();
        var path = Path.Combine(folder.Path, "out.musicxml");
        Assert.Equal(Command.Clean, Call.With(Text, "export", "-", "--to", "musicxml", "--out", path).Code);
        Assert.Equal(call.Out, File.ReadAllText(path));
    }

    [Fact]
    public void Tablature_carries_no_control_character() =>
        Assert.DoesNotContain(Call.With(Text, "export", "-", "--to", "tab").Out, c => char.IsControl(c) && c != '\n');

    [Theory]
    [InlineData("sheet", "<!DOCTYPE html>")]
    [InlineData("svg", "<svg ")]
    public void A_sheet_is_a_page_or_a_drawing(string format, string starts)
    {
        var call = Call.With(Text, "export", "-", "--to", format, "--numerals", "--skeleton", "--large", "--staves", "tab", "--diagrams", "every", "--paper", "a4");
        Assert.Equal((Command.Clean, ""), (call.Code, call.Error));
        Assert.StartsWith(starts, call.Out, StringComparison.Ordinal);
        Assert.Contains("data-fret=\"7\"", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    [Trait("Needs", "browser")]
    public void A_browser_of_the_machine_prints_the_page()
    {
        using var folder = new TemporaryFolder();
        var path = Path.Combine(folder.Path, "out.pdf");
        var call = Call.With(Text, "export", "-", "--to", "pdf", "--paper", "letter", "--out", path);
        Assert.Equal((Command.Clean, "", ""), (call.Code, call.Out, call.Error));
        var pdf = System.Text.Encoding.Latin1.GetString(File.ReadAllBytes(path));
        Assert.StartsWith("%PDF-", pdf, StringComparison.Ordinal);
        Assert.Contains("/MediaBox [0 0 612 792]", pdf, StringComparison.Ordinal);     // Letter in points
        Assert.DoesNotContain("/Subtype /Image", pdf, StringComparison.Ordinal);
        Assert.Equal([path], Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void Where_no_browser_starts_the_message_says_what_to_do()
    {
        var before = Environment.GetEnvironmentVariable(HeadlessBrowser.Variable);
        using var folder = new TemporaryFolder();
        try
        {
            Environment.SetEnvironmentVariable(HeadlessBrowser.Variable, Path.Combine(folder.Path, "none"));
            var call = Call.With(Text, "export", "-", "--to", "pdf", "--out", Path.Combine(folder.Path, "out.pdf"));
            Assert.Equal((Command.Trouble, ""), (call.Code, call.Out));
            Assert.Contains("cannot be started", call.Error, StringComparison.Ordinal);
            Assert.Contains(HeadlessBrowser.Variable, call.Error, StringComparison.Ordinal);
            Assert.Empty(Directory.GetFiles(folder.Path));
        }
        finally
        {
            Environment.SetEnvironmentVariable(HeadlessBrowser.Variable, before);
        }
    }

    [Theory]
    [InlineData("needs the format", "export", "-")]
    [InlineData("it can be sheet, svg, pdf, musicxml, tab", "export", "-", "--to", "paper")]
    [InlineData("from 20 to 1000", "export", "-", "--to", "tab", "--width", "wide")]
    [InlineData("needs a file to write", "export", "-", "--to", "pdf")]
    [InlineData("it can be both, tab, staff", "export", "-", "--to", "sheet", "--staves", "three")]
    [InlineData("takes one file", "export", "samples/valid", "--to", "tab")]
    [InlineData("there is no such file", "export", "samples/none.chl", "--to", "tab")]
    public void Misuse_is_told_in_a_sentence(string says, params string[] arguments)
    {
        var call = Call.With(Text, arguments);
        Assert.Equal((Command.Trouble, ""), (call.Code, call.Out));
        Assert.Contains(says, call.Error, StringComparison.Ordinal);
    }
}
