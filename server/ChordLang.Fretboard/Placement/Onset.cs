// An onset made ready for the search: its notes from the highest down, the ways to play them, and what its surroundings ask for.
using ChordLang.Fretboard.Hands;

namespace ChordLang.Fretboard.Placement;

/// <summary>All of it is told from the onset itself and its surroundings, so that it can be kept while the text elsewhere changes.</summary>
internal sealed class Onset
{
    /// <summary>How far back the same pitch is remembered, in quarters.</summary>
    public const double Memory = 8.02;

    private readonly double[] own;

    /// <summary>Prepares an onset of a passage.</summary>
    public Onset(NeckTable table, Hand hand, IReadOnlyList<OnsetToPlace> passage, int at)
    {
        var asked = passage[at];
        Position = asked.Position;
        Order = [.. Enumerable.Range(0, asked.Notes.Length).OrderByDescending(i => asked.Notes[i].Midi)];
        Midi = [.. Order.Select(i => asked.Notes[i].Midi)];
        Duration = [.. Order.Select(i => asked.Notes[i].Duration)];
        From = [.. Order.Select(i => asked.Notes[i].From)];
        Ways = table.Ways(hand, Midi, [.. Order.Select(i => asked.Notes[i].String)]);
        Role = Surroundings.Roles(passage, at, Midi);
        Back = Surroundings.Back(passage, at, Midi, Memory);
        Missed = Surroundings.Missed(table, passage, at);
        own = new double[Ways.Count];
        for (var i = 0; i < own.Length; i++)
            own[i] = PlacementCost.Own(table, this, Ways[i], null);
    }

    /// <summary>The position asked for, or null.</summary>
    public int? Position { get; }

    /// <summary>For each note from the highest down: its place among the notes asked for, its MIDI number, how long it sounds.</summary>
    public int[] Order { get; }

    public int[] Midi { get; }

    public double[] Duration { get; }

    /// <summary>For each note: the pitch before it that wants the same string, or null.</summary>
    public int?[] From { get; }

    /// <summary>0 alone among its neighbours, 1 the highest, 2 the lowest, 3 between.</summary>
    public int[] Role { get; }

    /// <summary>How many onsets ago the pitch was struck last; 0 for not lately.</summary>
    public int[] Back { get; }

    /// <summary>By neighbourhood and position: the part of the notes around that the position misses beside the best one.</summary>
    public double[][] Missed { get; }

    public List<GripChoice> Ways { get; }

    /// <summary>What a way costs for itself.</summary>
    public double Own(int way) => own[way];
}
