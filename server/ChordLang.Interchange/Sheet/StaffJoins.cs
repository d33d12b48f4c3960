// What joins notes on the staff: ties over bars and lines, ringing, slurs, slides, grace notes, rolled chords.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Sheet;

/// <summary>Collects the chords of a line and draws what joins them.</summary>
internal sealed class StaffJoins(Canvas canvas, Skyline sky, SystemPlan system, Neighbours voices)
{
    private sealed record Standing(PlacedBar Bar, StaffChord Chord, bool Alone, double Reach);

    private readonly Dictionary<Event, List<Standing>> byEvent = new(ReferenceEqualityComparer.Instance);
    private readonly List<Standing> all = [];

    public void Add(PlacedBar bar, StaffChord chord, bool alone, double reach)
    {
        var standing = new Standing(bar, chord, alone, reach);
        all.Add(standing);
        foreach (var e in chord.Stroke.Events)
        {
            if (!byEvent.TryGetValue(e, out var list))
                byEvent[e] = list = [];
            list.Add(standing);
        }
    }

    public void Draw()
    {
        foreach (var s in all)
            foreach (var e in s.Chord.Stroke.Events)
            {
                var index = byEvent[e].IndexOf(s);
                if (index > 0)
                    Ties(s, e, byEvent[e][index - 1]);
                else if (e.Kind == EventKind.Tied)
                    Ties(s, e, voices.Before(e) is { } b && byEvent.TryGetValue(b, out var from) ? from[^1] : null);
                var last = index == byEvent[e].Count - 1;
                var after = voices.After(e);
                if (last && after is { Kind: EventKind.Tied } && !byEvent.ContainsKey(after))
                    foreach (var head in s.Chord.Heads.Where(h => ReferenceEquals(h.Event, e)))
                        Tie(head.X + Measure.Head + 1, system.Right + 1, head.Y, Above(s, head));
                if (index == 0 && e.Kind == EventKind.Struck)
                    Leading(s, e);
                if (last && after?.Kind != EventKind.Tied)
                    foreach (var head in s.Chord.Heads.Where(h => ReferenceEquals(h.Event, e) && h.Note.WantedEnd > e.End))
                        Tie(s.Chord.Heads.Max(h => h.X) + Measure.Head + 1, s.Chord.Heads.Max(h => h.X) + Measure.Head + 11, head.Y, Above(s, head));
            }
    }

    private void Ties(Standing to, Event e, Standing? from)
    {
        foreach (var head in to.Chord.Heads.Where(h => ReferenceEquals(h.Event, e)))
        {
            var start = from?.Chord.Heads.FirstOrDefault(h => h.Step == head.Step);
            if (from is not null && start is null)
                continue;
            Tie(start is null ? head.X - 18 : start.X + Measure.Head + 1, head.X - Measure.Head - 1, head.Y, Above(to, head));
        }
    }

    // Away from the stem where a voice is alone; the outer half of a chord outwards; else to the voice's own side.
    private static bool Above(Standing s, StaffHead head) => s.Chord.Heads.Length > 1
        ? s.Alone || s.Chord.Heads.Length > 2 ? 2 * s.Chord.Heads.IndexOf(head) >= s.Chord.Heads.Length : s.Chord.Up
        : s.Alone ? !s.Chord.Up : s.Chord.Up;

    private void Tie(double from, double to, double y, bool above)
    {
        var (at, rise) = above ? (y - 2.2, -3.4) : (y + 2.2, 3.4);
        canvas.Arc(from, at, to, at, Math.Abs(to - from) > 60 ? rise * 1.6 : rise);
        sky.Fill(from, above ? at - 4 : at, to, above ? at : at + 4);
    }

    private void Leading(Standing s, Event e)
    {
        var own = s.Chord.Heads.Where(h => ReferenceEquals(h.Event, e)).ToList();
        if (own.Count == 0)
            return;
        var left = s.Reach - 1;
        if (e.Has(MarkKind.Roll) && own.Count > 1)
        {
            canvas.Path(Waves.Down(left - 3, own[^1].Y - 5, own[0].Y + 5), "wave");
            left -= 7;
        }
        foreach (var grace in e.Grace)
            Grace(s, grace, left - 5);
        foreach (var mark in e.Marks.Where(m => m.Kind == MarkKind.SlideFrom && e.SlideFrom.IsEmpty))
        {
            var from = mark.Operand is WordOperand { Word: "above" } ? -1 : 1;
            canvas.Line(left - 8, own[^1].Y + from * 4, left - 1, own[^1].Y + from, "slide");
        }
        if (voices.Before(e) is not { } before || !byEvent.TryGetValue(before, out var standings))
            return;
        var start = standings[^1].Chord;
        var origins = start.Heads.Where(h => ReferenceEquals(h.Event, before)).ToList();
        if (origins.Count == 0)
            return;
        if (e.Has(MarkKind.Slide))
            canvas.Line(origins[^1].X + Measure.Head + 1.5, origins[^1].Y, left - 1, own[^1].Y, "slide");
        if (e.Has(MarkKind.Slur) || e.Has(MarkKind.Hammer) || e.Has(MarkKind.Pull))
            Slur(start, origins[^1], s, own[^1]);
    }

    private void Slur(StaffChord start, StaffHead from, Standing s, StaffHead to)
    {
        var above = s.Alone ? !s.Chord.Up : s.Chord.Up;
        double Edge(StaffChord chord, StaffHead head) => above
            ? chord.Up && !chord.Stroke.Whole ? chord.Tip - 3 : head.Y - 6
            : chord.Up || chord.Stroke.Whole ? StaffPart.Y(chord.Low) + 6 : chord.Tip + 3;
        var (y1, y2) = (Edge(start, from), Edge(s.Chord, to));
        canvas.Arc(from.X, y1, to.X, y2, above ? -6 : 6);
        sky.Fill(from.X, Math.Min(y1, y2) - (above ? 6 : 0), to.X, Math.Max(y1, y2) + (above ? 0 : 6));
    }

    private void Grace(Standing s, Note grace, double x)
    {
        const double space = 4.6;
        var y = StaffPart.Y(StaffHead.Of(grace.Pitch));
        canvas.Glyph("noteheadBlack", x - 2.7, y, space, TabPart.Data(s.Bar, s.Chord.Stroke.Events[0], grace, null) + " data-grace=\"\"");
        canvas.Line(x + 2.5, y - 1, x + 2.5, y - 15, "stem");
        canvas.Glyph("flag8thUp", x + 2.3, y - 15, space);
        canvas.Line(x - 1.5, y - 6, x + 7, y - 12.5, "stem");
        if (s.Bar.Plan.Accidentals.TryGetValue(grace, out var sign))
            canvas.Glyph(sign, x - 8.5, y, space);
        canvas.Arc(x, y + 4, s.Chord.X - 2, s.Chord.Heads.MinBy(h => Math.Abs(h.Y - y))!.Y + 5, 3);
        sky.Fill(x - 8, y - 16, x + 7, y + 6);
    }
}
