// What the search asks of a neck a million times, looked up instead of worked out.
using System.Collections.Concurrent;
using System.Text;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Fretboard.Placement;

/// <summary>Belongs to one neck and one hand; may be asked from several threads.</summary>
internal sealed class NeckTable
{
    private const int Most = 20_000; // bounds memory where a text is edited for hours

    private readonly double[] positions;
    private readonly ConcurrentDictionary<int, double[]> reached = [];
    private readonly ConcurrentDictionary<string, List<GripChoice>> ways = new(StringComparer.Ordinal);

    private readonly ConcurrentDictionary<Voicing, Fingers?> fingers = [];
    private readonly ConcurrentDictionary<Voicing, IReadOnlyList<(byte[] Fingers, double Cost)>> all = [];
    private readonly ConcurrentDictionary<string, byte[]?[]> passages = new(StringComparer.Ordinal);

    public NeckTable(Neck neck)
    {
        Neck = neck;
        positions = [.. Enumerable.Range(0, neck.HighestFret + 1).Select(neck.Position)];
    }

    public Neck Neck { get; }

    public int Strings => Neck.Tuning.Strings;

    /// <summary>Whether it has grown so large that the next search had better begin a new one.</summary>
    public bool Full => ways.Count + fingers.Count + all.Count + passages.Count > Most;

    /// <summary>Millimetres between two frets.</summary>
    public double Distance(int fret, int other) => Math.Abs(positions[fret] - positions[other]);

    /// <summary>By position: how well a pitch lies there, 0 to 1.</summary>
    public double[] Reached(int midi)
    {
        if (!reached.TryGetValue(midi, out var of))
            reached[midi] = of = Surroundings.Reached(Neck, midi);
        return of;
    }

    /// <summary>The ways to play pitches, highest first, on the strings that are given.</summary>
    public List<GripChoice> Ways(Hand hand, int[] midi, int?[] given)
    {
        var key = string.Create(midi.Length * 2, (midi, given), static (span, x) =>
        {
            for (var i = 0; i < x.midi.Length; i++)
                (span[2 * i], span[2 * i + 1]) = ((char)(x.midi[i] + 1000), (char)(x.given[i] ?? 0));
        });
        if (!ways.TryGetValue(key, out var found))
            ways[key] = found = GripChoice.Of(this, hand, midi, given);
        return found;
    }

    /// <summary>The best fingers of a grip, or null where no hand holds it.</summary>
    public Fingers? Fingers(Hand hand, Voicing voicing) => fingers.GetOrAdd(voicing, v => FingeringSearch.Best(Neck, hand, v).Best);

    /// <summary>The fingers of a passage on the strings, step by step, by slot; null where no hand holds what is struck.</summary>
    /// <param name="hand">Whose.</param>
    /// <param name="path">The passage.</param>
    /// <param name="earlier">A path whose fingers are known already, or null.</param>
    public byte[]?[] Passage(Hand hand, PlacedPath path, PlacedPath? earlier)
    {
        var steps = path.Steps;
        var found = new byte[]?[steps.Length];
        for (int from = 0, to; from < steps.Length; from = to)
        {
            // Where nothing is held from before, the hand is free: each such stretch is fingered by itself.
            to = from + 1;
            while (to < steps.Length && Array.Exists(steps[to].Held, f => f >= 0))
                to++;
            if (earlier is not null && path.SameSteps(from, to, earlier))
            {
                Array.Copy(earlier.Fingers, path.Earlier[from], found, from, to - from);
                continue;
            }
            var part = new ArraySegment<FingeredStep>(steps, from, to - from);
            passages.GetOrAdd(Content(part), _ => PassageFingering.Of(Neck, part, v => all.GetOrAdd(v, x => FingeringSearch.All(Neck, hand, x)))).CopyTo(found, from);
        }
        return found;
    }

    private static string Content(ArraySegment<FingeredStep> part)
    {
        var text = new StringBuilder();
        foreach (var step in part)
        {
            for (var s = 0; s < step.Struck.Length; s++)
                text.Append((char)(step.Struck[s] + 1)).Append((char)(step.Held[s] + 1));
            text.Append((char)step.Position);
        }
        return text.ToString();
    }
}
