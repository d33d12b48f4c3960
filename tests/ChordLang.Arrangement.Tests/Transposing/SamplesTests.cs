// What holds for every clean sample in every key: there and back is the same music, and what is lost keeps its function.
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Transposing;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Formatting;
using ChordLang.Testing;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Tests.Transposing;

public class SamplesTests
{
    private static readonly int[] Steps = [1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6];

    public static TheoryData<string> Samples => [.. Repository.Samples("valid")];

    [Theory, MemberData(nameof(Samples))]
    public void There_and_back_by_any_step_is_the_same_music(string path)
    {
        var piece = Moved.Sample(path);
        foreach (var by in Steps)
        {
            var there = Transposition.Of(piece, IntervalChoice.By(piece, by), new Moved.Beside(path));
            Assert.Equal([], there.Piece.Troubles.Select(t => $"{by}: {t.Message}"));
            Assert.Equal(Formatter.Format(piece.Tree).IsEmpty, Formatter.Format(there.Piece.Tree).IsEmpty);
            if (there.Losses.Length > 0)
                continue;
            Assert.Equal(Moved.Music(piece, by), Moved.Music(there.Piece));
            var back = Transposition.Of(there.Piece, there.Interval.Inverse, new Moved.Beside(path));
            Assert.Equal([], back.Losses.Select(l => l.Message));
            Assert.Equal(Moved.Music(piece), Moved.Music(back.Piece));
            var chosen = Transposition.Of(there.Piece, IntervalChoice.By(there.Piece, -by), new Moved.Beside(path));
            Assert.Equal(Moved.Music(piece), Moved.Music(chosen.Piece));
        }
    }

    [Theory, MemberData(nameof(Samples))]
    public void There_and_back_by_keys_is_the_same_text_but_for_rewritten_shapes_and_roots(string path)
    {
        var piece = Moved.Sample(path);
        if (IntervalChoice.First(piece) is not { Tonic: not null } home)
            return;
        foreach (var tonic in new[] { "C", "G", "F", "A", "Eb", "Bb", "E", "Ab" })
        {
            Assert.True(PitchName.TryParse(tonic, out var name));
            var there = Transposition.Of(piece, IntervalChoice.To(piece, Key.Of(name, home.Mode))!.Value, new Moved.Beside(path));
            Assert.Equal(Key.Of(name, home.Mode), IntervalChoice.First(there.Piece));
            var back = Transposition.Of(there.Piece, IntervalChoice.To(there.Piece, home)!.Value, new Moved.Beside(path));
            Assert.Equal(home, IntervalChoice.First(back.Piece));
            if (there.Losses.Length == 0 && there.Interval.Semitones == -back.Interval.Semitones)
                Assert.Equal(Moved.Music(piece), Moved.Music(back.Piece));
        }
    }

    [Theory, MemberData(nameof(Samples))]
    public void What_is_lost_keeps_its_tones_and_its_top_note_and_can_be_held(string path)
    {
        var piece = Moved.Sample(path);
        foreach (var by in Steps)
        {
            var there = Transposition.Of(piece, IntervalChoice.By(piece, by), new Moved.Beside(path));
            var after = there.Piece.Events.ToLookup(e => (e.Bar, e.Row, e.Offset));
            var lost = there.Losses.ToLookup(l => there.Text.LineAt(l.Span.Start), l => l.Message);
            foreach (var e in piece.Events.Where(e => e.Kind == EventKind.Struck && !e.Repeated))
            {
                var now = Assert.Single(after[(e.Bar, e.Row, e.Offset)]);
                var (wanted, heard) = (e.Notes.Select(n => Class(n.Midi + by)).Order().ToList(), now.Notes.Select(n => Class(n.Midi)).Order().ToList());
                if (!wanted.SequenceEqual(heard))
                {
                    Assert.Contains(lost[now.Line], m => m.Contains("left out", StringComparison.Ordinal));
                    Assert.Subset(wanted.ToHashSet(), heard.ToHashSet());
                }
                Assert.Equal(0, (e.Notes.Max(n => n.Midi) + by - now.Notes.Max(n => n.Midi)) % 12);
                if (lost[now.Line].Any() && now.Voicing is { } voicing && !now.Notes.Any(n => n.Harmonic))
                    Assert.NotNull(FingeringSearch.Best(there.Piece.Bars[now.Bar].Settings.Neck, Hand.Medium, voicing).Best);
            }
        }
    }

    private static int Class(int midi) => ((midi % 12) + 12) % 12;
}
