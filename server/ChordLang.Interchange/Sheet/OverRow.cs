// What stands over a line: chord names on one level, diagrams over them, then signs, words and the brackets of endings.
using System.Globalization;
using ChordLang.Arrangement.Music;

namespace ChordLang.Interchange.Sheet;

/// <summary>Draws over the staves; works with y of the topmost stave.</summary>
internal sealed class OverRow(Canvas canvas, Skyline sky, SystemPlan system, SheetOptions options, FormSigns form)
{
    private const double NameHeight = 13;

    public void Draw(Piece piece)
    {
        Names();
        Diagrams();
        Endings();
        foreach (var bar in system.Bars)
        {
            foreach (var sign in bar.Plan.Signs.Start)
                Sign(sign, bar.Left + 2);
            var words = Changes(bar.Bar, bar.Bar.Index == 0 ? null : piece.Bars[bar.Bar.Index - 1].Settings);
            if (words.Length > 0)
                Words(words, bar.First - 4, Face.Direction);
            foreach (var end in bar.Plan.Signs.End.Concat(bar.Plan.Signs.Times > 0 ? [$"play {bar.Plan.Signs.Times} times"] : []))
                Words(end, bar.Right - Face.Direction.Width(end), Face.Direction);
        }
    }

    private void Names()
    {
        var names = system.Bars.SelectMany(b => b.Plan.Names.Select(n => (Bar: b, Name: n, X: b.X(n.Span.Start) - 4))).ToList();
        if (names.Count == 0)
            return;
        var words = names.Any(n => options.UnderChords.ContainsKey(n.Name.Span.Span.Start)) ? 11 : 0;
        var under = words + (options.Skeleton.Count > 0 ? 7 : 0);
        var line = names.Min(n => sky.Top(n.X, n.X + n.Name.Width)) - 5 - under;
        foreach (var (bar, name, x) in names)
        {
            var span = name.Span.Span;
            name.Draw(canvas, x, line, string.Create(CultureInfo.InvariantCulture,
                $" data-bar=\"{bar.Bar.Number}\" data-count=\"{Markup.Escape(bar.Bar.CountOf(name.Span.Start))}\" data-symbol=\"{Markup.Escape(name.Span.Symbol?.Text ?? "N.C.")}\" data-from=\"{span.Start}\" data-to=\"{span.End}\""));
            var wide = name.Width;
            if (options.UnderChords.TryGetValue(span.Start, out var said))
            {
                canvas.Text(x, line + 11, said, Face.Under);
                wide = Math.Max(wide, Face.Under.Width(said));
            }
            sky.Fill(x, line - NameHeight, x + wide, line + under);
        }
        if (options.Skeleton.Count > 0)
            Skeleton([.. names.Where(n => options.Skeleton.Contains(n.Name.Span.Span.Start)).Select(n => n.X)], line + under - 2);
    }

    // Each chord that carries the piece holds on to the next one: what stands between is on the way.
    private void Skeleton(List<double> stays, double y)
    {
        for (var i = 0; i < stays.Count; i++)
        {
            var end = i + 1 < stays.Count ? stays[i + 1] - 3 : system.Right - 2;
            canvas.Circle(stays[i] + 3, y, 2, "bone");
            canvas.Line(stays[i] + 3, y, end, y, "bones");
            sky.Fill(stays[i], y - 2, end, y + 2);
        }
    }

    private void Diagrams()
    {
        var grips = system.Bars.SelectMany(b => b.Plan.Grips.Select(g => (Bar: b, Grip: g, X: b.X(g.Time) - 3.5))).ToList();
        if (grips.Count == 0)
            return;
        var line = grips.Min(g => sky.Top(g.X - 3, g.X + g.Grip.Shape.Width)) - 5;
        foreach (var (bar, grip, x) in grips)
        {
            grip.Shape.Draw(canvas, x, line, string.Create(CultureInfo.InvariantCulture,
                $" data-bar=\"{bar.Bar.Number}\" data-count=\"{Markup.Escape(bar.Bar.CountOf(grip.Time))}\" data-grip=\"{grip.Shape.Key}\" data-from=\"{grip.Event.SoundSpan.Start}\" data-to=\"{grip.Event.SoundSpan.End}\""));
            sky.Fill(x - 3, line - grip.Shape.Height, x + grip.Shape.Width, line);
        }
    }

    private void Endings()
    {
        for (var i = 0; i < system.Bars.Length; i++)
        {
            var number = form.Inside(system.Bars[i].Bar.Index);
            if (number == 0)
                continue;
            var from = i;
            while (i + 1 < system.Bars.Length && !system.Bars[i].Plan.Signs.EndingStops && form.Inside(system.Bars[i + 1].Bar.Index) == number)
                i++;
            var (left, right) = (system.Bars[from].Left + 2, system.Bars[i].Right - 2);
            var starts = system.Bars[from].Plan.Signs.Ending > 0;
            var y = sky.Above(left, right, 12, 4) - 11;
            canvas.Path($"M{Canvas.N(left)} {Canvas.N(y + (starts ? 11 : 0))}V{Canvas.N(y)}H{Canvas.N(right)}{(system.Bars[i].Plan.Signs.EndingCloses ? $"v11" : "")}", "thin");
            if (starts)
                canvas.Text(left + 4, y + 9, $"{number}.", Face.Plain);
        }
    }

    private void Sign(string name, double x)
    {
        const double space = 5;
        var glyph = GlyphTable.All[name];
        var (wide, high) = (glyph.Right * space / GlyphTable.Space, (glyph.Bottom - glyph.Top) * space / GlyphTable.Space);
        canvas.Glyph(name, x, sky.Above(x, x + wide, high, 4) - glyph.Bottom * space / GlyphTable.Space, space);
    }

    private void Words(string words, double x, Face face)
    {
        var wide = face.Width(words);
        x = Math.Max(0, Math.Min(x, system.Width - wide));
        canvas.Text(x, sky.Above(x, x + wide, face.Size * 0.95, 4) - face.Size * 0.2, words, face);
    }

    /// <summary>What changes at a bar, in words; empty for nothing. What holds from the start stands under the title.</summary>
    private static string Changes(Bar bar, Settings? before)
    {
        if (before is null)
            return "";
        var now = bar.Settings;
        var said = new List<string>();
        if (now.Key != before.Key && now.Key is { } key)
            said.Add(Facts.Key(key));
        if ((now.BeatsPerMinute, now.Rubato) != (before.BeatsPerMinute, before.Rubato) && Facts.Tempo(now) is { } tempo)
            said.Add(tempo);
        if (now.Feel != before.Feel && now.Feel is { } feel)
            said.Add(feel);
        if (now.Position != before.Position && now.Position is { } position)
            said.Add($"position {position}");
        if (now.Neck != before.Neck)
            said.Add(Facts.Neck(now.Neck) ?? "standard tuning, no capo");
        return string.Join(", ", said);
    }
}
