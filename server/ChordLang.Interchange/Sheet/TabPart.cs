// The strings of one line: numbers in gaps of the strings, so that they stay legible on any ground, and rhythm beside them.
using System.Globalization;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Sheet;

/// <summary>Draws tablature; the top string is y 0.</summary>
internal sealed class TabPart
{
    /// <summary>From string to string.</summary>
    public const double Step = 11;

    private readonly SystemPlan system;
    private readonly Places places;
    private readonly int strings;
    private readonly bool alone;
    private readonly List<(double From, double To)>[] gaps;
    private readonly HashSet<(double, int)> taken = [];
    private readonly Canvas numbers = new(), signs = new();

    public TabPart(SystemPlan system, Places places, Neighbours voices, SheetOptions options)
    {
        this.system = system;
        this.places = places;
        alone = options.Staves == Staves.Tab;
        strings = system.Settings.Neck.Tuning.Strings;
        Height = (strings - 1) * Step;
        gaps = [.. Enumerable.Range(0, strings + 1).Select(_ => new List<(double, double)>())];
        Sky = new(system.Width, -4, Height + 4);
        var lane = new RhythmLane(signs, Sky, Height);
        foreach (var bar in system.Bars)
            foreach (var strand in bar.Plan.Strands)
                lane.Draw(bar, strand);
        var stands = new Stands(system);
        var joins = new TabJoins(signs, Sky, system, places, voices, stands);
        var marks = new TabMarks(signs, Sky, alone);
        foreach (var bar in system.Bars)
            foreach (var stroke in bar.Plan.Strands.SelectMany(s => s.Strokes).Where(s => !s.Rest))
                foreach (var e in stroke.Events)
                {
                    if (stroke.First && e.Kind == EventKind.Struck)
                        Strike(bar, e, joins);
                    joins.Ties(bar, stroke, e);
                    if (stroke.First)
                        marks.Of(e, bar.X(stroke.Start));
                }
    }

    /// <summary>From the top string to the lowest.</summary>
    public double Height { get; }

    /// <summary>What it fills.</summary>
    public Skyline Sky { get; }

    public void Draw(Canvas canvas)
    {
        Strings(canvas);
        foreach (var bar in system.Bars)
            if (bar.Plan.Face == BarFace.RepeatSign)
                canvas.Glyph("repeat1Bar", (bar.First - 4 + bar.Right) / 2 - 9, Height / 2, 8);
            else if (bar.Plan.Face == BarFace.Slashes && alone)
                foreach (var time in bar.Plan.Times.Where(t => ((t - bar.Bar.Start) / bar.Bar.Settings.Meter.Count).IsWhole))
                    canvas.Glyph("noteheadSlash", bar.X(time) - 4, Height / 2, 6);
        canvas.Add(signs, 0, 0, "sg");
        canvas.Add(numbers, 0, 0, "nm");
    }

    private static double Y(int s) => (s - 1) * Step;

    private void Strike(PlacedBar bar, Event e, TabJoins joins)
    {
        var x = bar.X(e.Onset);
        var (top, bottom, widest) = (double.MaxValue, double.MinValue, 0.0);
        foreach (var n in e.Notes)
        {
            if (places.Of(e, n) is not { } spot || spot.String < 1 || spot.String > strings)
            {
                var words = n.Pitch.ToString();
                signs.Text(x, Sky.Below(x - 8, x + 8, 8) + 7, words, Face.Plain, true, Data(bar, e, n, null));
                continue;
            }
            var number = n.Dead ? "×" : spot.Fret.ToString(CultureInfo.InvariantCulture);
            var half = Face.Digit.Width(number) / 2;
            var at = x;
            while (!taken.Add((at, spot.String)))
                at += 2 * half + 3;
            Number(at, spot.String, number, Face.Digit, Data(bar, e, n, spot));
            if (n.Harmonic)
            {
                Chevrons(at, Y(spot.String), half);
                Gap(spot.String, at - half - 5, at + half + 5);
                half += 4;
            }
            (top, bottom, widest) = (Math.Min(top, Y(spot.String)), Math.Max(bottom, Y(spot.String)), Math.Max(widest, half));
            joins.Note(bar, e, n, spot, at, half);
            if (joins.Wave is { } wave)
                Gap(spot.String, wave.From, wave.To);
            if (e.Notes.Length < 3 && n.Finger is { } finger && finger is not (Finger.None or Finger.Open) && e.Marks.Any(m => m.Kind is MarkKind.Finger or MarkKind.Fingers))
                signs.Text(at - half - 2.6, Y(spot.String) - 2, finger == Finger.Thumb ? "T" : ((int)finger).ToString(CultureInfo.InvariantCulture), Face.FingerDigit, true);
        }
        if (top > bottom)
            return;
        foreach (var (n, from) in e.Grace.Select(g => (g, false)).Concat(e.SlideFrom.Select(f => (f, true))))
            if (places.Before(e, n) is { } spot && spot.String <= strings)
            {
                var at = x - widest - 8;
                Number(at, spot.String, spot.Fret.ToString(CultureInfo.InvariantCulture), Face.Grace, Data(bar, e, n, spot) + " data-grace=\"\"");
                joins.Grace(at, Y(spot.String), x - widest, spot, e, from);
            }
        if (e.Has(MarkKind.Roll) && e.Notes.Length > 1)
            signs.Path(Waves.Down(x - widest - 5.5, top - 5, bottom + 5), "wave");
    }

    private void Number(double x, int s, string number, Face face, string data)
    {
        var half = face.Width(number) / 2;
        numbers.Text(x, Y(s) + face.Size * 0.36, number, face, true, data);
        Gap(s, x - half - 1.2, x + half + 1.2);
        Sky.Fill(x - half, Y(s) - 5, x + half, Y(s) + 5);
    }

    private void Chevrons(double x, double y, double half)
    {
        var (l, r) = (x - half - 1.2, x + half + 1.2);
        signs.Path($"M{Canvas.N(l)} {Canvas.N(y - 4)}L{Canvas.N(l - 2.6)} {Canvas.N(y)}L{Canvas.N(l)} {Canvas.N(y + 4)}M{Canvas.N(r)} {Canvas.N(y - 4)}L{Canvas.N(r + 2.6)} {Canvas.N(y)}L{Canvas.N(r)} {Canvas.N(y + 4)}", "thin");
    }

    private void Gap(int s, double from, double to) => gaps[s].Add((from, to));

    // Lower strings are drawn heavier, as they are.
    private void Strings(Canvas canvas)
    {
        for (var s = 1; s <= strings; s++)
        {
            var path = "";
            var x = SystemPlan.Names;
            foreach (var (from, to) in gaps[s].OrderBy(g => g.From))
            {
                if (from > x)
                    path += $"M{Canvas.N(x)} {Canvas.N(Y(s))}H{Canvas.N(from)}";
                x = Math.Max(x, to);
            }
            path += $"M{Canvas.N(x)} {Canvas.N(Y(s))}H{Canvas.N(system.Right)}";
            canvas.Raw($"<path class=\"st\" stroke-width=\"{(0.55 + 0.5 * (s - 1) / Math.Max(1, strings - 1)).ToString("0.##", CultureInfo.InvariantCulture)}\" d=\"{path}\"/>");
            var name = system.Settings.Neck.Tuning[s].Name.ToString().Replace('b', '♭').Replace('#', '♯');
            canvas.Text(SystemPlan.Names - 8, Y(s) + 2.8, name, Face.StringName, true);
        }
    }

    internal static string Data(PlacedBar bar, Event e, Note n, Spot? spot) => string.Create(CultureInfo.InvariantCulture,
        $" data-bar=\"{bar.Bar.Number}\" data-count=\"{Markup.Escape(bar.Bar.CountOf(e.Onset))}\" data-voice=\"{Markup.Escape(e.VoiceKey)}\"{(spot is { } s ? $" data-string=\"{s.String}\" data-fret=\"{s.Fret}\"" : "")} data-pitch=\"{n.Pitch}\" data-from=\"{n.Span.Start}\" data-to=\"{n.Span.End}\"");
}

/// <summary>Wavy lines.</summary>
internal static class Waves
{
    public static string Down(double x, double top, double bottom)
    {
        var path = $"M{Canvas.N(x)} {Canvas.N(top)}";
        var count = Math.Max(2, (int)Math.Round((bottom - top) / 4));
        var step = (bottom - top) / count;
        for (var i = 0; i < count; i++)
            path += $"q{(i % 2 == 0 ? "2.4" : "-2.4")} {Canvas.N(step / 2)} 0 {Canvas.N(step)}";
        return path;
    }

    public static string Along(double x, double y, double length)
    {
        var path = $"M{Canvas.N(x)} {Canvas.N(y)}";
        for (var i = 0; i < Math.Max(2, (int)(length / 3)); i++)
            path += $"q1.5 {(i % 2 == 0 ? "-3" : "3")} 3 0";
        return path;
    }
}
