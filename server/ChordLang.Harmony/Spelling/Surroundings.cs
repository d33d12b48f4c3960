// Sees what stands around a note: what sounds with it, what came and comes in its voice and near it.
namespace ChordLang.Harmony.Spelling;

/// <summary>The features of each spelling of each note, given how the others are spelled.</summary>
internal sealed class Surroundings
{
    private const int Near = 8, Wide = 40, SameReach = 60, Beyond = 16;

    // Numbers of the steps by a semitone.
    private const int Down = 2, Up = 4;

    private readonly IReadOnlyList<NoteToSpell> notes;
    private readonly int[] home, passing;
    private readonly int[] groupStart, groupEnd;
    private readonly (int Start, int End)[] before, after;

    public Surroundings(IReadOnlyList<NoteToSpell> notes, int[] home, int[] passing)
    {
        (this.notes, this.home, this.passing) = (notes, home, passing);
        (groupStart, groupEnd) = (new int[notes.Count], new int[notes.Count]);
        (before, after) = (new (int, int)[notes.Count], new (int, int)[notes.Count]);
        for (int i = 0, end; i < notes.Count; i = end)
        {
            for (end = i + 1; end < notes.Count && notes[end].Onset == notes[i].Onset;)
                end++;
            for (var k = i; k < end; k++)
                (groupStart[k], groupEnd[k]) = (i, end);
        }
        var last = new Dictionary<int, (int Start, int End)>();
        for (var i = 0; i < notes.Count; i = groupEnd[i])
            for (int k = i, end; k < groupEnd[i]; k = end)
            {
                for (end = k + 1; end < groupEnd[i] && notes[end].Voice == notes[k].Voice;)
                    end++;
                if (last.TryGetValue(notes[k].Voice, out var came))
                {
                    for (var n = k; n < end; n++)
                        before[n] = came;
                    for (var n = came.Start; n < came.End; n++)
                        after[n] = (k, end);
                }
                last[notes[k].Voice] = (k, end);
            }
    }

    /// <summary>The signature in force at a note.</summary>
    public int Home(int i) => home[i];

    /// <summary>Adds the features of one spelling of a note.</summary>
    /// <param name="i">The note.</param>
    /// <param name="fifths">The spelling, as a place on the line of fifths.</param>
    /// <param name="names">How all notes are spelled at present, likewise.</param>
    /// <param name="into">Receives numbers and values.</param>
    public void Of(int i, int fifths, int[] names, List<(int Feature, double Value)> into)
    {
        into.Add((SpellingWeights.At(0, fifths - home[i] - 2), 1));
        into.Add((SpellingWeights.At(1, fifths - passing[i] - 2), 1));
        var (start, end) = (groupStart[i], groupEnd[i]);
        Together(i, fifths, names, into);
        Window(3, fifths, names, start - 1, Math.Max(-1, start - 1 - Near), -1, into);
        Window(4, fifths, names, end, Math.Min(notes.Count, end + Near), 1, into);
        Window(5, fifths, names, start - 1 - Near, Math.Max(-1, start - 1 - Wide), -1, into);
        Window(6, fifths, names, end + Near, Math.Min(notes.Count, end + Wide), 1, into);
        Same(7, i, fifths, names, start - 1, -1, into);
        Same(8, i, fifths, names, end, 1, into);
        var from = Line(9, i, fifths, names, before[i], -1, into);
        var to = Line(15, i, fifths, names, after[i], 1, into);
        var place = fifths - passing[i];
        into.Add((SpellingWeights.Turn(from, to, place < -1 ? 0 : place > 5 ? 2 : 1), 1));
        // Tones of the signature itself keep their names, F is no E# on the way up; the others are raised or lowered with the direction.
        if (from == Up && to == Up && place is >= -1 and <= 10)
            into.Add((SpellingWeights.Climb, 1));
        if (from == Down && to == Down && place is <= 5 and >= -6)
            into.Add((SpellingWeights.Fall, 1));
    }

    /// <summary>The signature that holds around a note for a while.</summary>
    public int Passing(int i) => passing[i];

    /// <summary>The note a semitone and a letter away that follows (or came before) in the voice, under the present spelling; else null.</summary>
    public int? Semitone(int i, int fifths, int[] names, bool following)
    {
        var (start, end) = following ? after[i] : before[i];
        for (var k = start; k < end; k++)
            if (notes[k].Midi - notes[i].Midi is var by and (1 or -1) && names[k] - fifths == -5 * by)
                return names[k];
        return null;
    }

    private void Together(int i, int fifths, int[] names, List<(int, double)> into)
    {
        var many = groupEnd[i] - groupStart[i] - 1;
        for (var k = groupStart[i]; k < groupEnd[i]; k++)
            if (k != i)
                into.Add((SpellingWeights.At(2, names[k] - fifths), 1 / Math.Sqrt(many)));
    }

    private static void Window(int block, int fifths, int[] names, int from, int to, int step, List<(int, double)> into)
    {
        var many = (to - from) * step;
        for (var k = from; k != to && many > 0; k += step)
            into.Add((SpellingWeights.At(block, names[k] - fifths), 1 / Math.Sqrt(many)));
    }

    // The nearest note of the same sound: spelled alike, or at the other end of the line of fifths.
    private void Same(int block, int i, int fifths, int[] names, int from, int step, List<(int, double)> into)
    {
        for (int k = from, n = 0; k >= 0 && k < notes.Count && n < SameReach; k += step, n++)
            if ((notes[k].Midi - notes[i].Midi) % 12 == 0)
            {
                into.Add((SpellingWeights.At(block, names[k] - fifths), 1 / (1 + n / (double)Beyond)));
                return;
            }
    }

    // The step to the neighbour in the voice: its number for the turn; every note of the neighbour within a second counts, else the nearest.
    private int Line(int block, int i, int fifths, int[] names, (int Start, int End) near, int direction, List<(int, double)> into)
    {
        var step = 0;
        var closest = int.MaxValue;
        var leap = -1;
        for (var k = near.Start; k < near.End; k++)
        {
            var by = (notes[k].Midi - notes[i].Midi) * direction;
            if (Math.Abs(by) <= 2)
                into.Add((SpellingWeights.At(block + by + 2, names[k] - fifths), 1));
            if (Math.Abs(by) < closest)
            {
                closest = Math.Abs(by);
                leap = k;
                step = closest <= 2 ? by + 3 : 0;
            }
        }
        if (closest > 2 && leap >= 0)
            into.Add((SpellingWeights.At(block + 5, names[leap] - fifths), 1));
        return step;
    }
}
