// What is remembered of a placement up to an onset: only what later onsets can ask about, and nothing of when that was.
namespace ChordLang.Fretboard.Placement;

/// <summary>All times are quarters seen from the onset of the state, so that equal states are equal wherever in the piece they are.</summary>
internal sealed class State
{
    private const float Long = 1e6f;
    private const double Soon = 1e-6;

    /// <summary>Before anything is played.</summary>
    public State(int strings)
    {
        (Frets, Left, Ago) = (new sbyte[strings + 1], new float[strings + 1], new float[strings + 1]);
        Array.Fill(Ago, Long);
        PositionAgo = Long;
    }

    private State(State before, float passed)
    {
        (Frets, Left, Ago) = ([.. before.Frets], [.. before.Left], [.. before.Ago]);
        for (var s = 1; s < Frets.Length; s++)
            (Left[s], Ago[s]) = (Math.Max(0, Left[s] - passed), Ago[s] + passed);
        (Position, PositionAgo) = (before.Position, before.PositionAgo + passed);
    }

    /// <summary>By string: the fret struck last, how long it sounds on, how long ago that was.</summary>
    public sbyte[] Frets { get; }

    public float[] Left { get; }

    public float[] Ago { get; }

    /// <summary>Where the first finger is, 0 for nowhere yet, and since when.</summary>
    public int Position { get; private init; }

    public float PositionAgo { get; private init; }

    /// <summary>The state before, by its place among those of the onset before.</summary>
    public int From { get; private init; }

    /// <summary>The way that was taken; null where the onset has none.</summary>
    public GripChoice? Way { get; private init; }

    /// <summary>The highest pitch of that onset.</summary>
    public int Top { get; private init; }

    public double Cost { get; private init; }

    /// <summary>The state after an onset, a time after this one.</summary>
    public State After(Onset onset, GripChoice? way, double passed, double cost, int from)
    {
        var moves = way?.Fretted > 0;
        var s = new State(this, (float)passed)
        {
            Way = way, Cost = cost, From = from, Top = way is null ? 0 : onset.Midi[0],
            Position = moves ? PlacementCost.Moved(Position, way!) : Position, PositionAgo = moves ? 0 : PositionAgo + (float)passed,
        };
        for (var k = 0; k < way?.Strings.Length; k++)
        {
            var q = way.Strings[k];
            (s.Frets[q], s.Left[q], s.Ago[q]) = ((sbyte)way.Frets[k], (float)onset.Duration[k], 0);
        }
        return s;
    }

    /// <summary>Equal for ways on that lead to the same hand.</summary>
    public long KeyAfter(GripChoice way, double passed)
    {
        long h = way.Fretted > 0 ? PlacementCost.Moved(Position, way) : Position;
        for (var q = 1; q < Frets.Length; q++)
        {
            var k = Array.IndexOf(way.Strings, q);
            h = h * 31 + (k >= 0 ? way.Frets[k] + 1 : Left[q] - passed > Soon || Ago[q] + passed <= 1.01 ? Frets[q] + 1 : 0);
        }
        return h;
    }

    /// <summary>Whether it came about in the same way as another, by one step.</summary>
    public bool StepsLike(State other) => From == other.From && Position == other.Position
        && (ReferenceEquals(Way, other.Way) || Way is not null && other.Way is not null && Way.Strings.AsSpan().SequenceEqual(other.Way.Strings));
}
