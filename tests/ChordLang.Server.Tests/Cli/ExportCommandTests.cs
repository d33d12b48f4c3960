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
    [InlineData("needs the format", "export", "-")]
    [InlineData("it can be musicxml, tab", "export", "-", "--to", "paper")]
    [InlineData("from 20 to 1000", "export", "-", "--to", "tab", "--width", "wide")]
    [InlineData("takes one file", "export", "samples/valid", "--to", "tab")]
    [InlineData("there is no such file", "export", "samples/none.chl", "--to", "tab")]
    public void Misuse_is_told_in_a_sentence(string says, params string[] arguments)
    {
        var call = Call.With(Text, arguments);
        Assert.Equal((Command.Trouble, ""), (call.Code, call.Out));
        Assert.Contains(says, call.Error, StringComparison.Ordinal);
    }
}
