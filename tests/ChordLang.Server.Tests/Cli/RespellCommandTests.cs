// What `respell` answers and writes.
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Grammar.Syntax;
using ChordLang.Server.Cli;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Tests.Cli;

public sealed class RespellCommandTests
{
    // Common practice: Cb is the fourth of Gb major and sounds as B, an octave number lower; the seventh of Cb7 is Bbb.
    private const string Flats = "key Gb major\n\n| Gb\n    top:  1 F#4   2 B3   3 Bb3@3   4 A#3+Db4\n| Cb7\n    top:  1 D#4   2 A3   3 B3   4 Gb3\n";

    [Fact]
    public void Every_written_pitch_is_an_entry_with_its_place_and_its_reason()
    {
        using var document = JsonDocument.Parse(Call.With(Flats, "respell", "-", "--format", "json").Out);
        var file = document.RootElement.GetProperty("files")[0];
        Assert.Equal(["path", "notes"], file.EnumerateObject().Select(p => p.Name));
        var notes = file.GetProperty("notes").EnumerateArray().ToList();
        Assert.Equal(["bar", "row", "count", "written", "proposed", "why"], notes[0].EnumerateObject().Select(p => p.Name));
        Assert.Equal(["1:1 F#4 Gb4", "1:2 B3 Cb4", "1:3 Bb3 Bb3", "1:4 A#3 Bb3", "1:4 Db4 Db4", "2:1 D#4 Eb4", "2:2 A3 Bbb3", "2:3 B3 Cb4", "2:4 Gb3 Gb3"],
            notes.Select(n => $"{n.GetProperty("bar")}:{n.GetProperty("count")} {n.GetProperty("written")} {n.GetProperty("proposed")}"));
        Assert.Equal("it is the root of Cb7", notes[7].GetProperty("why").GetString());
    }

    [Fact]
    public void What_is_only_fretted_repeated_or_dead_has_no_entry()
    {
        using var document = JsonDocument.Parse(Call.With("key C major\n\n| C\n    1 E4   2 again   3 5@1   4 G4 dead\n| %\n", "respell", "-", "--format", "json").Out);
        Assert.Single(document.RootElement.GetProperty("files")[0].GetProperty("notes").EnumerateArray());
    }

    [Fact]
    public void Writing_changes_letters_and_no_sound_and_once_is_enough()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("a.chl", Flats);
        var before = Midi(path);
        Assert.Equal(Command.Clean, Call.Of("respell", "--write", path).Code);
        var written = File.ReadAllText(path);
        Assert.Contains("1 Gb4   2 Cb4   3 Bb3@3   4 Bb3+Db4", written, StringComparison.Ordinal);
        Assert.Contains("1 Eb4   2 Bbb3   3 Cb4   4 Gb3", written, StringComparison.Ordinal);
        Assert.Equal(before, Midi(path));
        Assert.Equal(Command.Clean, Call.Of("respell", "--write", path).Code);
        Assert.Equal(written, File.ReadAllText(path));
    }

    // An octave left out follows from the pitch before, and at six semitones from its letter (see LANGUAGE.md): those octaves are written out.
    [Theory]
    [InlineData("key F major\n\n| Bb7\n    1 A#3   2 E   3 A#   4 D\n")]
    [InlineData("key Gb major\n\n| Gb\n    1 Gb3   2 B   3 F   4 Gb\n")]
    [InlineData("key E major\n\n| E\n    1 to 4& Ab4 F# E Eb E Gb Ab B\n")]
    [InlineData("key C minor\n\n| Cm\n    1 C4 grace B3   2 D#4 grace D   3 G = 3@1   4 Ab+C+D#\n")]
    public void Octaves_that_were_left_out_stay_what_they_were(string text)
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("a.chl", text);
        var before = Midi(path);
        Assert.Equal(Command.Clean, Call.Of("respell", "--write", path).Code);
        Assert.NotEqual(text, File.ReadAllText(path));
        Assert.Equal(before, Midi(path));
    }

    [Fact]
    public void Without_a_key_the_chords_tell_it()
    {
        const string Chart = "| Dm7b5\n    1 G#3   3 C4\n| G7b9\n    1 B3   3 G#3\n| Cm6\n    1 D#4   3 A3\n";
        var text = Call.With(Chart, "respell", "-").Out;
        Assert.Contains("bar 1, count 1, row 1: G#3 is written Ab3: it is the diminished fifth of Dm7b5.", text, StringComparison.Ordinal);
        Assert.Contains("D#4 is written Eb4", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("title Empty\n", "no pitches are written")]
    [InlineData("key F major\n\n| F\n    1 A4   2 C5   3 Bb4   4 A4\n", "every written pitch is spelled")]
    public void People_are_told_in_a_sentence(string text, string said) => Assert.Contains(said, Call.With(text, "respell", "-").Out, StringComparison.Ordinal);

    [Fact]
    public void The_valid_samples_are_spelled_as_they_should_be() =>
        Assert.DoesNotContain(" is written ", Call.Of("respell", "samples/valid").Out, StringComparison.Ordinal);

    [Fact]
    public void Nothing_to_read_is_misuse() => Assert.Equal(Command.Trouble, Call.Of("respell").Code);

    private static IEnumerable<int> Midi(string path)
    {
        var piece = Binder.Bind(SyntaxTree.Parse(File.ReadAllText(path)), new Library(path));
        Assert.Empty(piece.Troubles.Select(t => t.Message));
        return [.. piece.Events.SelectMany(e => e.Grace.Concat(e.Notes)).Select(n => n.Midi)];
    }
}
