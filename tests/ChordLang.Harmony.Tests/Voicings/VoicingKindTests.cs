// Kinds of voicing by the definitions of arranging (common practice).
using System.Collections.Immutable;
using ChordLang.Harmony.Voicings;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Tests.Voicings;

public class VoicingKindTests
{
    [Theory]
    [InlineData("C4 E4 G4 B4", "Cmaj7", "close", 0)]
    [InlineData("G3 C4 E4 B4", "Cmaj7", "drop-2", 2)]
    [InlineData("E3 C4 G4 B4", "Cmaj7", "drop-3", 1)]
    [InlineData("C3 G3 E4 B4", "Cmaj7", "drop-2-and-4", 0)]
    [InlineData("C3 E3 Bb3", "C7", "shell", 0)]
    [InlineData("C3 B3 E4", "Cmaj7", "shell", 0)]
    [InlineData("D3 G3 C4", "D7sus4", "quartal", 0)]
    [InlineData("C4 D4 E4", "Cadd9", "cluster", 0)]
    [InlineData("C2 G3 E5", "C", "spread", 0)]
    [InlineData("C3 G3 E4", "C", "open", 0)]
    [InlineData("C4 E4 G4", "C", "close", 0)]
    [InlineData("C3 Bb3", "C7", "shell", 0)]
    [InlineData("C3 E3", "C", "open", 0)]
    [InlineData("D3 G3 C4 F4 A4", "Dm11", "quartal", 0)]
    [InlineData("F3 B3 E4", "Fmaj7", "quartal", 0)]
    [InlineData("C3 E3 B3 E4", "Cmaj7", "open", 0)]
    public void A_voicing_has_the_kind_of_its_definition(string pitches, string symbol, string kind, int inversion)
    {
        var shape = VoicingKind.Of(Midi(pitches), ChordReader.Read(symbol).Chord!);
        Assert.Equal((kind, inversion, false), (shape.Kind, shape.Inversion, shape.Rootless));
    }

    // Piano and arranging handbooks call a voicing that leaves the root to the bass player rootless, however it is spaced (common practice).
    [Theory]
    [InlineData("E3 D4 A4", "C13", "rootless", "open")]
    [InlineData("E3 G3 B3 D4", "Cmaj9", "rootless", "close")]
    [InlineData("E3 B3 D4 G4", "Cmaj9", "drop-2", "open")]
    [InlineData("B3 F4", "G7", "shell", "open")]
    public void A_rootless_voicing_keeps_the_kind_of_its_build(string pitches, string symbol, string kind, string spacing)
    {
        var shape = VoicingKind.Of(Midi(pitches), ChordReader.Read(symbol).Chord!);
        Assert.Equal((kind, spacing, true), (shape.Kind, shape.Spacing, shape.Rootless));
    }

    [Fact]
    public void Without_its_root_a_voicing_is_rootless()
    {
        var shape = VoicingKind.Of(Midi("E3 Bb3 D4"), ChordReader.Read("C9").Chord!);
        Assert.True(shape.Rootless);
        Assert.Equal(["3", "b7", "9"], shape.Degrees.Select(d => d.ToString()));
    }

    // Property: dropping the voices of any close four-note voicing gives the kind of that name.
    [Theory]
    [InlineData("drop-2", new[] { 2 })]
    [InlineData("drop-3", new[] { 3 })]
    [InlineData("drop-2-and-4", new[] { 2, 4 })]
    public void Dropping_voices_gives_the_dropped_kind(string kind, int[] dropped)
    {
        foreach (var close in new[] { "C4 E4 G4 B4", "E4 G4 B4 C5", "G4 B4 C5 E5", "D4 F4 Ab4 B4", "F4 G4 B4 D5" })
        {
            var voices = Midi(close);
            var down = voices.Select((p, i) => dropped.Contains(voices.Length - i) ? p - 12 : p).Order().ToImmutableArray();
            Assert.Equal(kind, VoicingKind.Of(down, ChordReader.Read("G7").Chord!).Kind);
        }
    }

    [Theory]
    [InlineData("D3 F3 C4", "G3 F3 B3", "contrary")]
    [InlineData("C3 E3", "D3 F#3", "parallel")]
    [InlineData("C3 E3", "D3 F3", "similar")]
    [InlineData("C3 E3", "C3 F3", "oblique")]
    [InlineData("C3 E3", "C3 E3", "none")]
    public void Outer_voices_move_by_the_names_of_counterpoint(string from, string to, string motion) =>
        Assert.Equal(motion, VoicingKind.Between(Midi(from), Midi(to)).Motion);

    [Fact]
    public void Common_tones_and_moves_are_told()
    {
        var motion = VoicingKind.Between(Midi("F3 C4 E4"), Midi("F3 B3 D4"));
        Assert.Equal([53], motion.Common.ToArray());
        Assert.Equal([0, -1, -2], motion.Moves.ToArray());
    }

    private static ImmutableArray<int> Midi(string pitches) =>
        [.. pitches.Split(' ').Select(t => Pitch.TryParse(t, out var p) ? p.Midi : throw new FormatException(t))];
}
