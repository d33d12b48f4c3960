// What `place` answers and writes.
using System.Text.Json;
using ChordLang.Server.Cli;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Cli;

public sealed class PlaceCommandTests
{
    private const string Passage = "key F major\n\n| Gm7  3 C7b9\n    top:  1 D4 ring   2& F4   3 E4   4 Db4\n    low:  1 3-x-3-3-x-x   3 x-3-2-3-x-x fingers x-3-2-4-x-x\n";

    // MIDI 1.0: middle C is 60; the open strings of standard tuning (common practice) are 40 45 50 55 59 64.
    private static readonly int[] Open = [64, 59, 55, 50, 45, 40];

    [Fact]
    public void Every_pitch_sounds_as_written_and_no_string_is_struck_twice_at_once()
    {
        using var document = JsonDocument.Parse(Call.With(Passage, "place", "-", "--format", "json").Out);
        var file = document.RootElement.GetProperty("files")[0];
        var taken = new HashSet<(string?, int)>();
        foreach (var e in file.GetProperty("events").EnumerateArray())
            foreach (var n in e.GetProperty("notes").EnumerateArray())
            {
                var (s, fret) = (n.GetProperty("string").GetInt32(), n.GetProperty("fret").GetInt32());
                Assert.True(Theory.Pitches.Pitch.TryParse(n.GetProperty("pitch").GetString(), out var pitch));
                Assert.Equal(pitch.Midi, Open[s - 1] + fret);
                Assert.True(taken.Add((e.GetProperty("count").GetString(), s)));
            }
        Assert.Equal(6, file.GetProperty("events").GetArrayLength());
    }

    [Fact]
    public void Given_strings_and_fingers_stay_and_open_strings_have_finger_0()
    {
        using var document = JsonDocument.Parse(Call.With(Passage, "place", "-", "--format", "json").Out);
        var events = document.RootElement.GetProperty("files")[0].GetProperty("events").EnumerateArray().ToList();
        var given = events.Single(e => e.GetProperty("count").GetString() == "3" && e.GetProperty("row").GetInt32() == 2);
        Assert.True(given.GetProperty("given").GetBoolean());
        Assert.Equal([(5, 3, 3), (4, 2, 2), (3, 3, 4)], given.GetProperty("notes").EnumerateArray()
            .Select(n => (n.GetProperty("string").GetInt32(), n.GetProperty("fret").GetInt32(), n.GetProperty("finger").GetInt32())));
        using var open = JsonDocument.Parse(Call.With("|\n    1 0@1\n", "place", "-", "--format", "json").Out);
        Assert.Equal(0, open.RootElement.GetProperty("files")[0].GetProperty("events")[0].GetProperty("notes")[0].GetProperty("finger").GetInt32());
    }

    // G2 lies on fret 3 of the sixth string only, Eb5 on fret 11 of the first at the lowest (common practice: the standard tuning).
    [Fact]
    public void What_no_hand_holds_is_said()
    {
        var told = Call.With("|\n    top: 1 G4   3 Eb5\n    low: 1 C3+Bb3   3 G2\n", "place", "-").Out;
        Assert.Contains("  Not a placement: bar 1, count 3. No hand holds these notes together, wherever they are put; 3-x-x-x-x-11 comes nearest.", told, StringComparison.Ordinal);
        Assert.Contains("Without Eb5 or G2 it can be played. It is not written into the file", told, StringComparison.Ordinal);
        Assert.Contains("Eb5 string 1 fret 11 (no hand holds this)", told, StringComparison.Ordinal);
        Assert.DoesNotContain("Not a placement", Call.With(Passage, "place", "-").Out, StringComparison.Ordinal);
    }

    // Two voices that meet in one pitch, with a third beside them: every note has its place in the answer, and none of them is written, so that the
    // file says no more than can be played, and `check` goes on saying what is wrong with it.
    [Fact]
    public void What_no_hand_holds_is_not_written()
    {
        using var folder = new TemporaryFolder();
        const string Text = "key Eb major\n\n| Cm7\n    top:  1 Eb4+B4   3 G4\n    low:  1 F2+Bb3   3 Eb3\n";
        var path = folder.Write("a.chl", Text);
        using var document = JsonDocument.Parse(Call.Of("place", "--write", "--format", "json", path).Out);
        var events = document.RootElement.GetProperty("files")[0].GetProperty("events").EnumerateArray().ToList();
        Assert.Equal(events.Where(e => e.GetProperty("count").GetString() == "1"), events.Where(e => e.TryGetProperty("unheld", out _)), (a, b) => a.GetRawText() == b.GetRawText());
        Assert.All(events.SelectMany(e => e.GetProperty("notes").EnumerateArray()), n => Assert.Equal(JsonValueKind.Number, n.GetProperty("fret").ValueKind));
        var lines = File.ReadAllText(path).Split('\n');
        Assert.Matches("^    top:  1 Eb4\\+B4   3 G4@[1-6]$", lines[3]);
        Assert.Matches("^    low:  1 F2\\+Bb3   3 Eb3@[1-6]$", lines[4]);
        Assert.Contains("hand-no-place", Call.Of("check", path).Out, StringComparison.Ordinal);
        Assert.DoesNotContain("hand-impossible-stretch", Call.Of("check", path).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Writing_adds_a_string_to_each_open_pitch_and_nothing_else()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("a.chl", Passage);
        Assert.Equal(Command.Clean, Call.Of("place", "--write", path).Code);
        var written = File.ReadAllText(path);
        Assert.Equal(Passage, System.Text.RegularExpressions.Regex.Replace(written, "(?<=[A-G]b?[0-9])@[1-6]", ""));
        Assert.Equal(4, written.Count(c => c == '@'));
        Assert.Equal(Command.Clean, Call.Of("place", "--write", path).Code);
        Assert.Equal(written, File.ReadAllText(path));
    }

    [Fact]
    public void A_pitch_below_the_neck_has_no_place_and_is_said_so() =>
        Assert.Contains("no place was found for C2", Call.With("|\n    1 C2   3 C4\n", "place", "-").Out, StringComparison.Ordinal);

    [Fact]
    public void Of_notes_that_lack_a_string_beside_each_other_it_is_not_said_that_the_neck_has_none() =>
        Assert.Contains("no place was found for F2, no place was found for G2", Call.With("|\n    1 F2+G2\n", "place", "-").Out, StringComparison.Ordinal);

    [Fact]
    public void Samples_are_placed_and_every_answer_carries_the_caution()
    {
        var call = Call.Of("place", "samples/valid");
        Assert.Equal((Command.Clean, ""), (call.Code, call.Error));
        Assert.Equal(Repository.Samples("valid").Count, call.Out.Split(Fretboard.Hands.Caution.Text).Length - 1);
    }

    [Fact]
    public void Others_are_offered_for_some_bars_and_can_be_written()
    {
        const string line = "|\n    1 C4   2 D4   3 E4   4 F4\n|\n    1 G4   2 F4   3 E4   4 D4\n";
        using var document = JsonDocument.Parse(Call.With(line, "place", "-", "--bars", "2", "--others", "--format", "json").Out);
        var file = document.RootElement.GetProperty("files")[0];
        var others = file.GetProperty("others").EnumerateArray().ToList();
        Assert.Equal(3, others.Count);
        Assert.All(others.SelectMany(o => o.GetProperty("events").EnumerateArray()).Concat(file.GetProperty("events").EnumerateArray()), e => Assert.Equal(2, e.GetProperty("bar").GetInt32()));
        using var folder = new TemporaryFolder();
        var path = folder.Write("a.chl", line);
        Assert.Equal(Command.Clean, Call.Of("place", "--write", "--bars", "2", "--take", "1", path).Code);
        var strings = others[0].GetProperty("events").EnumerateArray().Select(e => $"@{e.GetProperty("notes")[0].GetProperty("string").GetInt32()}");
        Assert.Equal(strings, System.Text.RegularExpressions.Regex.Matches(File.ReadAllText(path), "@[1-6]").Select(m => m.Value));
    }

    [Theory]
    [InlineData("")]
    [InlineData("| Gm7\n")]
    [InlineData("> Only words.\n")]
    public void A_text_without_a_note_has_no_others(string text)
    {
        using var document = JsonDocument.Parse(Call.With(text, "place", "-", "--others", "--format", "json").Out);
        Assert.Equal(0, document.RootElement.GetProperty("files")[0].GetProperty("others").GetArrayLength());
        Assert.Equal(Command.Clean, Call.With(text, "place", "-", "--others").Code);
    }

    [Fact]
    public void A_written_position_is_kept_and_anew_writes_other_strings_over_written_ones()
    {
        var told = Call.With("position 5\n\n|\n    1 A4   2 C5   3 G4   4 F4\n", "place", "-").Out;
        Assert.Contains("A4 string 1 fret 5", told, StringComparison.Ordinal);
        Assert.Contains("F4 string 2 fret 6", told, StringComparison.Ordinal);
        using var folder = new TemporaryFolder();
        var path = folder.Write("a.chl", "position 5\n\n|\n    1 A4@3   2 C5@1\n");
        Call.Of("place", "--all", "--write", path);
        Assert.Contains("A4@1   2 C5@1", File.ReadAllText(path), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--bars", "x")]
    [InlineData("--take", "9")]
    public void Wrong_numbers_are_misuse(string option, string value) => Assert.Equal(Command.Trouble, Call.With("|\n    1 A4\n", "place", "-", option, value).Code);

    // Worked out by hand: three notes ring together on frets 4, 2 and 3, so the first of them cannot take the finger that is nearest.
    [Fact]
    public void A_finger_stays_where_its_note_rings()
    {
        using var document = JsonDocument.Parse(Call.With("|\n    1 B3@3 ring   2 F#4@1 ring   3 D4@2 ring\n", "place", "-", "--format", "json").Out);
        Assert.Equal([3, 1, 2], document.RootElement.GetProperty("files")[0].GetProperty("events").EnumerateArray().Select(e => e.GetProperty("notes")[0].GetProperty("finger").GetInt32()));
    }

    [Fact]
    public void A_line_in_position_has_a_finger_a_fret()
    {
        using var document = JsonDocument.Parse(Call.With("position 5\n\n|\n    1 A4@1   2 B4@1   3 C5@1   4 F4@2\n", "place", "-", "--format", "json").Out);
        Assert.Equal([1, 3, 4, 2], document.RootElement.GetProperty("files")[0].GetProperty("events").EnumerateArray().Select(e => e.GetProperty("notes")[0].GetProperty("finger").GetInt32()));
    }
}
