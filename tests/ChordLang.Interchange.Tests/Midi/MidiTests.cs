// What a MIDI file carries of every sample, and what comes back of it.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Midi;
using ChordLang.Interchange.Scores;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.Midi;

public sealed class MidiTests
{
    public static TheoryData<string> Samples => [.. Repository.Samples("valid")];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Onsets_sounds_and_lengths_come_back(string sample)
    {
        var piece = Sample.Bind(sample);
        var back = Binder.Bind(SyntaxTree.Parse(LessonWriter.Write(MidiReader.Read(MidiWriter.Write(piece)).Score)));
        var wanted = Played(piece);
        var got = back.Events.Where(e => e.Kind == EventKind.Struck).SelectMany(e => e.Notes.Select(n => $"{e.Onset} {n.Midi}")).Order(StringComparer.Ordinal).ToList();
        Assert.True(wanted.SequenceEqual(got), $"missing: {string.Join(", ", wanted.Except(got).Take(9))}\ninvented: {string.Join(", ", got.Except(wanted).Take(9))}");
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void The_same_piece_gives_the_same_bytes(string sample) => Assert.Equal(MidiWriter.Write(Sample.Bind(sample)), MidiWriter.Write(Sample.Bind(sample)));

    [Fact]
    public void A_take_played_by_hand_comes_to_its_counts()
    {
        // Eighths, a triplet and quarters, each up to 18 ms early or late at 60 beats a minute; 480 ticks a quarter.
        int[] on = [4, 233, 487, 725, 955, 1130, 1275, 1447], key = [60, 62, 64, 65, 67, 69, 71, 72];
        var track = new List<byte>();
        var at = 0;
        foreach (var (time, status, note) in on.SelectMany((t, i) => new[] { (t, 0x90, key[i]), ((i + 1 < on.Length ? on[i + 1] : 1920) - 9, 0x80, key[i]) }).OrderBy(x => x.Item1))
        {
            var delta = time - at;
            track.AddRange([(byte)(0x80 | delta >> 7), (byte)(delta & 0x7F), (byte)status, (byte)note, 64]);
            at = time;
        }
        var score = MidiReader.Read(Hostile.HostileFiles.Midi([.. track, 0, 0xFF, 0x2F, 0]));
        var counts = score.Score.Bars[0].Voices[0].Events.Where(e => !e.Tied).Select(e => CountSyntax.Write(e.Offset));
        Assert.Equal(["1", "1&", "2", "2&", "3", "3trip", "3let", "4"], counts);
        Assert.Contains(score.Losses, l => l.Message.Contains("played, not written", StringComparison.Ordinal));
    }

    // As played through: bars in their order, notes without the dead ones, grace notes a 32nd before.
    private static List<string> Played(Piece piece)
    {
        var all = new HashSet<string>();
        foreach (var (bar, start) in MidiWriter.Played(piece))
            foreach (var e in bar.Rows.SelectMany(r => r.Events).Where(e => e.Kind == EventKind.Struck))
            {
                var onset = e.Onset - bar.Start + start;
                foreach (var n in e.Notes.Where(n => !n.Dead))
                    all.Add($"{onset} {n.Midi} {bar.Rows.First(r => r.Events.Contains(e)).VoiceKey}");
                foreach (var g in e.Grace)
                    all.Add($"{Rational.Max(Rational.Zero, onset - Rational.Of(1, 32))} {g.Midi} {e.VoiceKey}");
            }
        return [.. all.Select(a => a[..a.LastIndexOf(' ')]).Order(StringComparer.Ordinal)];
    }
}
