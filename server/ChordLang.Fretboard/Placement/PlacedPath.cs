// One way through a search, from the last onset back to the first, with all that was worked out of it on the way: what an edit leaves as it was is not worked out again.
using System.Collections.Immutable;
using ChordLang.Fretboard.Fingering;

namespace ChordLang.Fretboard.Placement;

/// <summary>By onset. Keeps no path before it alive.</summary>
internal sealed class PlacedPath
{
    // As many as can be asked for: nothing stands before the first onset.
    private const int AllBefore = 1 << 24;

    private readonly Onset[] passage;
    private readonly ImmutableArray<OnsetToPlace> asked;
    private readonly int[] alike;

    private PlacedPath(Onset[] passage, ImmutableArray<OnsetToPlace> asked)
    {
        (this.passage, this.asked, alike, Earlier) = (passage, asked, new int[passage.Length], new int[passage.Length]);
        (States, Own, Steps, Placed) = (new State[passage.Length], new double[]?[passage.Length], new FingeredStep[passage.Length], new PlacedOnset[passage.Length]);
    }

    /// <summary>The state at each onset.</summary>
    public State[] States { get; }

    /// <summary>What each row of the weights costs there; null where it is not worked out yet, and where there is no way to play.</summary>
    public double[]?[] Own { get; }

    /// <summary>What is struck and held; null where it is not worked out yet.</summary>
    public FingeredStep[] Steps { get; }

    /// <summary>The fingers, see <see cref="NeckTable.Passage"/>.</summary>
    public byte[]?[] Fingers { get; set; } = [];

    /// <summary>What is told of it.</summary>
    public PlacedOnset[] Placed { get; }

    /// <summary>The place in the earlier path of an onset in the same state; else -1.</summary>
    public int[] Earlier { get; }

    /// <summary>The way that one of the last states leads back to; what it shares with an earlier one is filled in.</summary>
    public static PlacedPath Back(Onset[] passage, State[][] beams, ImmutableArray<OnsetToPlace> asked, int last, PlacedPath? earlier)
    {
        var path = new PlacedPath(passage, asked);
        for (int i = passage.Length - 1, j = last; i >= 0; j = path.States[i--].From)
            path.States[i] = beams[i][j];
        for (var i = 0; i < passage.Length; i++)
        {
            var at = path.Earlier[i] = earlier is null ? -1 : path.Find(i, earlier);
            if (at < 0)
                continue;
            path.alike[i] = i > 0 && path.Earlier[i - 1] == at - 1 ? path.alike[i - 1] + 1 : i == 0 && at == 0 ? AllBefore : 1;
            if (path.alike[i] > 1)
                path.Steps[i] = earlier!.Steps[at];
            // A cost asks about the step before, and about where the same pitch was struck last.
            if (path.alike[i] > Math.Max(1, passage[i].Back.DefaultIfEmpty().Max()))
                path.Own[i] = earlier!.Own[at];
        }
        return path;
    }

    /// <summary>What the earlier path tells of an onset, where it is the same.</summary>
    public PlacedOnset? Known(int i, PlacedPath? earlier) => earlier is not null && Earlier[i] is >= 0 and var at && ReferenceEquals(Fingers[i], earlier.Fingers[at]) ? earlier.Placed[at] : null;

    /// <summary>True where the steps from one to another, and where they end, are those of the earlier path.</summary>
    public bool SameSteps(int from, int to, PlacedPath earlier)
    {
        for (var i = from; i < to; i++)
            if (Earlier[i] < 0 || Earlier[i] != Earlier[from] + i - from || !ReferenceEquals(Steps[i], earlier.Steps[Earlier[i]]))
                return false;
        var end = Earlier[to - 1] + 1;
        return to == Steps.Length ? end == earlier.Steps.Length : Earlier[to] == end && ReferenceEquals(Steps[to], earlier.Steps[end]);
    }

    // Its place counts from the beginning or from the end, as it stands before the edit or behind it.
    private int Find(int i, PlacedPath earlier)
    {
        var back = i + earlier.passage.Length - passage.Length;
        return Same(i) ? i : Same(back) ? back : -1;

        bool Same(int at) => at >= 0 && at < earlier.passage.Length && ReferenceEquals(passage[i], earlier.passage[at]) && ReferenceEquals(States[i], earlier.States[at])
            && asked[i].Time == earlier.asked[at].Time;
    }
}
