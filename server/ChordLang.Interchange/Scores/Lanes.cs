// Puts notes into voices in which nothing overlaps, and cuts them at bar lines.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Scores;

/// <summary>Splits notes into voices: what is struck and ends together is one sound, and a voice has one sound at a time.</summary>
internal sealed class Lanes
{
    // What a row holds that players still read; more voices than that are written with ring marks.
    private const int MostOfOneSource = 4;

    // A score of more voices than that is no guitar's; its voices stay as they are.
    private const int MostJoined = 40;

    private static readonly string[][] Names = [["top", "low"], ["top", "middle", "low"], ["top", "upper", "lower", "low"]];

    private readonly IReadOnlyList<ScoreBar> bars;
    private readonly List<Loss> losses;
    private readonly List<Lane> lanes = [];
    private readonly Dictionary<int, List<Lane>> bySource = [];

    private Lanes(IReadOnlyList<ScoreBar> bars, List<Loss> losses) => (this.bars, this.losses) = (bars, losses);

    /// <summary>The bars with their voices.</summary>
    public static ImmutableArray<ScoreBar> Fill(IReadOnlyList<ScoreBar> bars, IEnumerable<SoundedNote> notes, List<Loss> losses, int most = MostOfOneSource)
    {
        var split = new Lanes(bars, losses);
        foreach (var sound in notes.Where(n => n.End > n.Onset).GroupBy(n => (n.Source, n.Onset, n.End, Rings: n.String is null ? n.Rings : null, Open: n.String is null))
            .OrderBy(g => g.Key.Onset).ThenByDescending(g => g.Max(n => n.Pitch.Midi)))
            split.Add(sound.Key.Source, new(sound.Key.Onset, sound.Key.End, [.. sound.OrderBy(n => n.Pitch.Midi)]), most);
        return split.Rows();
    }

    private void Add(int source, Sound sound, int most)
    {
        if (!bySource.TryGetValue(source, out var own))
            bySource[source] = own = [];
        var lane = own.FirstOrDefault(l => l.Sounds.Count == 0 || l.Sounds[^1].End <= sound.Onset);
        if (lane is null && own.Count < most)
            lane = Open(source, own);
        if (lane is null)
        {
            // The sound that would end first gives way, and rings on to where it would have ended.
            lane = own.OrderBy(l => l.Sounds[^1].End).FirstOrDefault(l => l.Sounds[^1].Onset < sound.Onset);
            if (lane is not null)
            {
                var before = lane.Sounds[^1];
                foreach (var n in before.Notes)
                    n.Rings ??= before.End;
                lane.Sounds[^1] = before with { End = sound.Onset };
            }
        }
        (lane ?? Open(source, own)).Sounds.Add(sound);
    }

    private Lane Open(int source, List<Lane> own)
    {
        var lane = new Lane(source);
        own.Add(lane);
        lanes.Add(lane);
        return lane;
    }

    private ImmutableArray<ScoreBar> Rows()
    {
        Join();
        var order = lanes.OrderByDescending(l => l.Sounds.SelectMany(s => s.Notes).Average(n => n.Pitch.Midi)).ToList();
        var rows = new Dictionary<int, List<ScoreVoice>>();
        for (var i = 0; i < order.Count; i++)
        {
            var label = order.Count == 1 ? null : order.Count <= Names.Length + 1 ? Names[order.Count - 2][i] : i == 0 ? "top" : i == order.Count - 1 ? "low" : $"voice-{i + 1}";
            foreach (var bar in order[i].Sounds.SelectMany(Cut).GroupBy(x => x.Bar))
            {
                if (!rows.TryGetValue(bar.Key, out var list))
                    rows[bar.Key] = list = [];
                list.Add(new(label, [.. bar.Select(x => x.Event)]));
            }
        }
        return [.. bars.Select((b, i) => b with { Voices = Named(rows.GetValueOrDefault(i) ?? [], rows.GetValueOrDefault(i + 1) ?? []) })];
    }

    // A voice that is alone in its bar needs no name, where nothing is tied into it or out of it.
    private static ImmutableArray<ScoreVoice> Named(List<ScoreVoice> voices, List<ScoreVoice> next) =>
        voices is [var one] && !one.Events.Any(e => e.Tied) && !next.Any(v => v.Label == one.Label && v.Events is [{ Tied: true }, ..]) ? [one with { Label = null }] : [.. voices];

    // Voices of several sources that never share a bar are one: some bars name their voices, others do not.
    private void Join()
    {
        if (lanes.Count > MostJoined)
            return;
        var held = lanes.Select(BarsOf).ToList();
        for (var i = 0; i < lanes.Count; i++)
            for (var j = lanes.Count - 1; j > i; j--)
                if (lanes[i].Source != lanes[j].Source && !held[i].Overlaps(held[j]))
                {
                    held[i].UnionWith(held[j]);
                    held.RemoveAt(j);
                    lanes[i].Sounds.AddRange(lanes[j].Sounds);
                    lanes[i].Sounds.Sort((a, b) => a.Onset.CompareTo(b.Onset));
                    lanes.RemoveAt(j);
                }
    }

    private HashSet<int> BarsOf(Lane lane) => [.. lane.Sounds.SelectMany(s => Enumerable.Range(BarAt(s.Onset), 1 + Math.Max(0, BarAt(s.End >= bars[^1].End ? bars[^1].Start : s.End) - BarAt(s.Onset))))];

    private IEnumerable<(int Bar, ScoreEvent Event)> Cut(Sound sound)
    {
        var first = BarAt(sound.Onset);
        for (var i = first; i >= 0 && i < bars.Count && (i == first || bars[i].Start < sound.End); i++)
        {
            var bar = bars[i];
            var (from, to) = (Rational.Max(sound.Onset, bar.Start), Rational.Min(sound.End, bar.End));
            var marks = i == first ? Marks(sound) : [];
            if (to == sound.End || i == bars.Count - 1)
                marks = marks.AddRange(Rings(sound, i, from));
            yield return (i, new(bar.OffsetOf(from), bar.OffsetOf(to), i > first, i > first ? [] : [.. sound.Notes.Select(Note)], marks));
        }
    }

    private static ScoreNote Note(SoundedNote n) => new(n.Pitch, n.String, n.Fret, n.Finger, n.Dead || n.Harmonic);

    private static ImmutableArray<ScoreMark> Marks(Sound sound)
    {
        var marks = sound.Notes.SelectMany(n => n.Marks).Distinct().ToList();
        foreach (var same in sound.Notes.SelectMany(n => n.Own.Concat(Sort(n)).Distinct().Select(m => (Mark: m, n.String))).GroupBy(x => x.Mark))
            if (same.Count() == sound.Notes.Length || same.Any(x => x.String is null))
                marks.Add(same.Key);
            else
                marks.AddRange(same.Select(x => x.Mark with { String = x.String }));
        return [.. marks];
    }

    private static IEnumerable<ScoreMark> Sort(SoundedNote n)
    {
        if (n.Dead)
            yield return new("dead");
        if (n.Harmonic)
            yield return new("harmonic");
    }

    private IEnumerable<ScoreMark> Rings(Sound sound, int bar, Rational from)
    {
        foreach (var same in sound.Notes.Where(n => n.Rings is { } rings && (rings != sound.End || rings == bars[bar].End) && rings > from).GroupBy(n => n.Rings!.Value).ToList())
        {
            var mark = Ring(bar, from, same.Key);
            if (mark is null)
                losses.Add(new(bars[bar].Number, "a note rings on longer than can be said: it rings to the end of the next bar."));
            mark ??= new("ring", "over");
            if (same.Count() == sound.Notes.Length)
                yield return mark;
            else
                foreach (var n in same)
                    yield return mark with { String = n.String };
        }
    }

    // A ring mark that ends at a time, or null where none does.
    private ScoreMark? Ring(int bar, Rational from, Rational end)
    {
        if (end >= bars[^1].End)
            end = bars[^1].End;
        if (end == bars[bar].End)
            return new("ring");
        if (bar + 1 < bars.Count && end == bars[bar + 1].End)
            return new("ring", "over");
        if (BarAt(end) is not (>= 0 and var at) || at > bar + 8)
            return null;
        var offset = bars[at].OffsetOf(end);
        for (var i = bar; i <= at; i++)
            if (offset >= bars[i].From && bars[i].TimeOf(offset) is var time && time < bars[i].End && time > from)
                return time == end ? new("ring", "until " + CountSyntax.Write(offset)) : null;
        return null;
    }

    private int BarAt(Rational time)
    {
        int low = 0, high = bars.Count - 1;
        while (low <= high)
        {
            var middle = (low + high) / 2;
            if (time < bars[middle].Start) high = middle - 1;
            else if (time >= bars[middle].End) low = middle + 1;
            else return middle;
        }
        return -1;
    }

    private sealed record Sound(Rational Onset, Rational End, ImmutableArray<SoundedNote> Notes);

    private sealed record Lane(int Source)
    {
        public List<Sound> Sounds { get; } = [];
    }
}
