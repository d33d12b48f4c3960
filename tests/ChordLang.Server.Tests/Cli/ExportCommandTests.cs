// What `export` takes, writes and refuses.
using System.Xml.Linq;
using ChordLang.Server.Cli;
using ChordLang.Server.Workspace;

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
    public void A_page_sounds_only_where_it_is_asked_to()
    {
        Assert.DoesNotContain("<script", Call.With(Text, "export", "-", "--to", "sheet").Out, StringComparison.Ordinal);
        var page = Call.With(Text, "export", "-", "--to", "sheet", "--sound").Out;
        Assert.Contains("id=\"heard\"", page, StringComparison.Ordinal);
        Assert.Contains(">Practise bar 1<", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Tablature_carries_no_control_character() =>
        Assert.DoesNotContain(Call.With(Text, "export", "-", "--to", "tab").Out, c => char.IsControl(c) && c != '\n');

    [Fact]
    public void Without_a_synthesiser_or_a_font_the_way_out_is_told()
    {
        using var folder = new TemporaryFolder();
        var path = Path.Combine(folder.Path, "out.wav");
        Assert.Contains("install FluidSynth", Synthesiser.Write([], null, path, folder.Path), StringComparison.Ordinal);
        folder.Write("fluidsynth", "");
        Assert.Contains("there is no sound font", Synthesiser.Write([], Path.Combine(folder.Path, "none.sf2"), path, folder.Path), StringComparison.Ordinal);
        Assert.False(File.Exists(path));
    }

    // A stand-in that copies the MIDI file it is called with: what is called, and with which file, is ours to test; its sound is not.
    [Fact]
    public void The_synthesiser_is_called_with_the_font_and_the_music()
    {
        if (OperatingSystem.IsWindows())
            return;
        using var folder = new TemporaryFolder();
        var (program, path) = (folder.Write("fluidsynth", "#!/bin/sh\n# -ni -q -r 44100 -F OUT FONT MIDI\ncat \"$7\" \"$8\" > \"$6\"\n"), Path.Combine(folder.Path, "out.wav"));
        File.SetUnixFileMode(program, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        Assert.Null(Synthesiser.Write("MThd"u8.ToArray(), folder.Write("a.sf2", "font "), path, folder.Path));
        Assert.Equal("font MThd", File.ReadAllText(path));
    }

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
    [InlineData("it can be sheet, svg, pdf, musicxml, midi, wav, tab", "export", "-", "--to", "paper")]
    [InlineData("sound is no text", "export", "-", "--to", "wav")]
    [InlineData("a MIDI file is no text", "export", "-", "--to", "midi")]
    [InlineData("from 20 to 1000", "export", "-", "--to", "tab", "--width", "wide")]
    [InlineData("needs a file to write", "export", "-", "--to", "pdf")]
    [InlineData("--sound is for a page", "export", "-", "--to", "svg", "--sound")]
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
