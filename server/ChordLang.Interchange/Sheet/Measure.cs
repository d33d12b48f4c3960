// Measures bars: how far apart their columns have to stand so that nothing touches and equal times look equal.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Sheet;

/// <summary>Measures the bars of a piece.</summary>
internal sealed class Measure(Piece piece, Places places, FormSigns form, Courtesies courtesies, SheetOptions options)
{
    /// <summary>Half the width of a note head.</summary>
    public const double Head = 4.1;

    private const double Clear = 4;

    private readonly bool single = Single(piece);

    /// <summary>Where a piece has two voices anywhere, a lone voice keeps its stems up, so that the eye finds the melody in one place.</summary>
    public static bool Single(Piece piece) => piece.Bars.Any(b => b.Rows.Count(r => r.Events.Length > 0) > 1);

    /// <summary>The advance of a column for the time to the next, in whole notes; a double time is not twice as wide (common practice of engraving).</summary>
    public static double Advance(Rational time) => Math.Max(17, 12 + 11.5 * Math.Log2(time.Value * 48 / 3 + 1));

    /// <summary>A bar, measured.</summary>
    /// <param name="index">Its place in the piece.</param>
    /// <param name="shows">Asked in turn of each grip that could stand over it.</param>
    public BarPlan Of(int index, Func<Grip, bool> shows)
    {
        var (bar, before) = (piece.Bars[index], index == 0 ? null : piece.Bars[index - 1].Settings);
        var (face, strands) = Shown(bar);
        // A chord that % repeats is not written again.
        var names = bar.Chords.Where(c => !c.Carried && (c.Symbol is not null || c.Chord is null)).Select(c => new ChordName(c)).ToImmutableArray();
        var times = strands.SelectMany(s => s.Strokes).Select(s => s.Start).Concat(names.Select(n => n.Span.Start)).Append(bar.Start).Concat(face == BarFace.Slashes ? Counts(bar) : [])
            .Where(t => t == bar.Start || t > bar.Start && t < bar.End).Distinct().Order().ToImmutableArray();
        var accidentals = options.Staves == Staves.Tab ? [] : Accidentals.Of(bar, strands, courtesies);
        var grips = Grips(bar, strands).Where(shows).ToImmutableArray();
        var rooms = times.Select(t => Room(t, strands, accidentals)).ToList();
        var gaps = new double[times.Length];
        var least = new double[times.Length];
        for (var i = 0; i < times.Length; i++)
        {
            var last = i == times.Length - 1;
            var time = (last ? bar.End : times[i + 1]) - times[i];
            gaps[i] = last ? Advance(time) * 0.8 : Advance(time);
            least[i] = rooms[i].Right + Clear + (last ? 3 : rooms[i + 1].Left);
        }
        Even(times, bar.End, gaps, least);
        if (face == BarFace.RepeatSign)
            gaps[^1] = Math.Max(gaps[^1], 44);
        Stretch(times, gaps, [.. names.Select(n => (n.Span.Start, n.Width + 9))]);
        Stretch(times, gaps, [.. grips.Select(g => (g.Time, g.Shape.Width + 8))]);
        var signs = form[bar.Index];
        return new()
        {
            Bar = bar, Face = face, Strands = strands, Times = times, Gaps = [.. gaps], Names = names, Grips = grips, Accidentals = accidentals, Signs = signs,
            Lead = 8 + rooms[0].Left + (signs.RepeatStart ? 8 : 0), Change = Change(bar.Settings, before),
        };
    }

    /// <summary>The grips that could stand over a bar, in order.</summary>
    public IEnumerable<Grip> Grips(int index) => options.Diagrams == Diagrams.None ? [] : Grips(piece.Bars[index], Shown(piece.Bars[index]).Strands);

    private (BarFace Face, ImmutableArray<Strand> Strands) Shown(Bar bar)
    {
        var face = bar.Repeats is not null && bar.Rows.All(r => r.Borrowed) ? BarFace.RepeatSign : bar.Rows.Any(r => r.Events.Any(e => e.End > e.Onset)) ? BarFace.Music : BarFace.Slashes;
        return (face, face == BarFace.Music ? Strands.Of(bar, single) : []);
    }

    private double Change(Settings now, Settings? before)
    {
        var room = 0.0;
        if (before is null)
            return 0;
        if (now.Key != before.Key && options.Staves != Staves.Tab)
            room += KeySignature.Width(now.Key, before.Key);
        if (now.Meter != before.Meter)
            room += 16;
        return room > 0 ? room + 6 : 0;
    }

    private static IEnumerable<Rational> Counts(Bar bar)
    {
        for (var at = bar.Start; at < bar.End; at += bar.Settings.Meter.Count)
            yield return at;
    }

    private (double Left, double Right) Room(Rational time, ImmutableArray<Strand> strands, Dictionary<Note, string> accidentals)
    {
        double left = 3.5, right = 3.5;
        var signs = 0;
        foreach (var stroke in strands.SelectMany(s => s.Strokes).Where(s => s.Start == time))
        {
            right = Math.Max(right, 4.5 + (stroke.Value.Dots > 0 ? 4.5 : 0) + (stroke.Flags > 0 ? 5 : 0));
            if (stroke.Rest || !stroke.First)
                continue;
            foreach (var e in stroke.Events.Where(e => e.Kind == EventKind.Struck))
            {
                var before = 0.0;
                if (e.Grace.Length > 0 || e.SlideFrom.Length > 0)
                    before += 13;
                if (e.Has(MarkKind.SlideFrom))
                    before += 7;
                if (e.Has(MarkKind.Roll))
                    before += 8;
                foreach (var n in e.Notes)
                {
                    var digit = places.Of(e, n) is { Fret: > 9 } ? 6.2 : 3.5;
                    if (n.Harmonic)
                        digit += 3.5;
                    left = Math.Max(left, digit + before);
                    right = Math.Max(right, digit + (n.BendTo is not null ? 17 : n.WantedEnd > e.End || e.Has(MarkKind.Vibrato) ? 12 : 0));
                }
                signs += e.Notes.Count(accidentals.ContainsKey);
                left = Math.Max(left, Head + before + (signs > 0 ? 8 * Math.Min(3, (signs + 1) / 2 + (signs > 1 ? 1 : 0)) : 0));
            }
        }
        if (options.Staves != Staves.Tab && HasSecond(strands.SelectMany(s => s.Strokes).Where(s => s.Start == time && !s.Rest)))
            right = Math.Max(right, 3 * Head + 1);
        return (left, right);
    }

    private static bool HasSecond(IEnumerable<Stroke> strokes)
    {
        var steps = strokes.SelectMany(s => s.Events).SelectMany(e => e.Notes).Select(n => (int)n.Pitch.Name.Letter + 7 * n.Pitch.Octave).Order().ToList();
        return steps.Zip(steps.Skip(1)).Any(p => p.Second - p.First <= 1);
    }

    // Equal times get equal room within a bar: where one of them needs more, its like get it too.
    private static void Even(ImmutableArray<Rational> times, Rational end, double[] gaps, double[] least)
    {
        var byTime = new Dictionary<Rational, double>();
        for (var i = 0; i < gaps.Length - 1; i++)
            byTime[times[i + 1] - times[i]] = Math.Max(byTime.GetValueOrDefault(times[i + 1] - times[i]), Math.Max(gaps[i], least[i]));
        for (var i = 0; i < gaps.Length; i++)
            gaps[i] = i < gaps.Length - 1 ? byTime[times[i + 1] - times[i]] : Math.Max(Math.Max(gaps[i], least[i]), byTime.GetValueOrDefault(end - times[i]) * 0.8);
    }

    // What stands over the columns must not run together: the whole bar widens, so that its times stay in proportion.
    private static void Stretch(ImmutableArray<Rational> times, double[] gaps, List<(Rational Time, double Width)> over)
    {
        var most = 1.0;
        for (var k = 0; k < over.Count; k++)
        {
            var from = times.IndexOf(over[k].Time);
            var to = k + 1 < over.Count ? times.IndexOf(over[k + 1].Time) : times.Length;
            if (from < 0 || to <= from)     // what stands outside its bar is told by a finding
                continue;
            var room = gaps[from..to].Sum();
            most = Math.Max(most, over[k].Width / room);
        }
        for (var i = 0; i < gaps.Length; i++)
            gaps[i] *= most;
    }

    private ImmutableArray<Grip> Grips(Bar bar, ImmutableArray<Strand> strands)
    {
        if (options.Diagrams == Diagrams.None)
            return [];
        var grips = ImmutableArray.CreateBuilder<Grip>();
        var held = new List<Diagram>();
        foreach (var together in strands.SelectMany(s => s.Strokes).Where(s => s.Struck).SelectMany(s => s.Events).Where(e => e.Kind == EventKind.Struck).GroupBy(e => e.Onset).OrderBy(g => g.Key))
        {
            var spots = together.SelectMany(e => e.Notes.Where(n => !n.Dead && !n.Harmonic).Select(n => places.Of(e, n))).OfType<Spot>().DistinctBy(s => s.String).ToList();
            // What no hand can hold is no grip, and a part of the grip before it needs no picture of its own.
            if (spots.Count < 3 || spots.Any(s => s is { Fret: > 0, Finger: null }) || held.Any(h => spots.All(s => h.Spots.Any(o => o.String == s.String && o.Fret == s.Fret))))
                continue;
            var diagram = new Diagram(bar.Settings.Neck.Tuning.Strings, spots);
            held.Add(diagram);
            grips.Add(new(together.Key, diagram, together.First()));
        }
        return grips.ToImmutable();
    }
}
