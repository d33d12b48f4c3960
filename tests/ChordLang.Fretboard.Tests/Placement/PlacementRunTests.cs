// A search taken up after an edit answers as a fresh one, and does little work.
using System.Collections.Immutable;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Placement;
using CsCheck;

namespace ChordLang.Fretboard.Tests.Placement;

public class PlacementRunTests
{
    private static readonly Gen<(double Gap, int[] Midi, double Length)> Step =
        Gen.Select(Gen.Int[1, 6], Gen.Int[42, 76].Array[1, 3], Gen.Int[1, 8]).Select(x => (x.Item1 / 4.0, x.Item2.Distinct().ToArray(), x.Item3 / 4.0));

    [Fact]
    public void After_any_edit_the_answer_is_that_of_a_fresh_search() =>
        (from steps in Step.Array[1, 90]
         from edits in Gen.Select(Gen.Int[0, 90], Gen.Int[0, 4], Step.Array[0, 4]).Array[1, 4]
         select (steps, edits)).Sample(x =>
        {
            var steps = x.steps.ToList();
            var run = PlacementRun.Of(Neck.Standard, Hand.Medium, Onsets(steps));
            foreach (var (at, taken, put) in x.edits)
            {
                var from = Math.Min(at, steps.Count);
                steps.RemoveRange(from, Math.Min(taken, steps.Count - from));
                steps.InsertRange(from, put);
                run = PlacementRun.Of(Neck.Standard, Hand.Medium, Onsets(steps), run);
                if (Places(run) != Places(PlacementRun.Of(Neck.Standard, Hand.Medium, Onsets(steps))))
                    return false;
            }
            return true;
        }, iter: 150);

    [Fact]
    public void One_changed_note_of_a_long_piece_is_searched_around_only()
    {
        var steps = Enumerable.Range(0, 2400).Select(i => (0.5, new[] { 52 + i * 7 % 13, 60 + i * 5 % 17 }, 0.5)).ToList();
        var run = PlacementRun.Of(Neck.Standard, Hand.Medium, Onsets(steps));
        Assert.Equal(2400, run.Searched);
        steps[1200] = (0.5, [50, 66], 0.5);
        var after = PlacementRun.Of(Neck.Standard, Hand.Medium, Onsets(steps), run);
        Assert.InRange(after.Searched, 1, 200);
        Assert.Equal(0, PlacementRun.Of(Neck.Standard, Hand.Medium, Onsets(steps), after).Searched);
    }

    private static ImmutableArray<OnsetToPlace> Onsets(List<(double Gap, int[] Midi, double Length)> steps)
    {
        var time = 0.0;
        return [.. steps.Select(s => new OnsetToPlace(time += s.Gap, [.. s.Midi.Select(m => new NoteToPlace(m, s.Length))]))];
    }

    private static string Places(PlacementRun run) => string.Join(' ', run.Best()[0].Onsets.SelectMany(o => o.Notes).Select(n => n.String));
}
