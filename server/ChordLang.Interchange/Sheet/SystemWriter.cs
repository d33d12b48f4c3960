// Puts one line of a sheet together: staves at their distance, bar lines, and what stands over them; one SVG a line.
using System.Globalization;
using ChordLang.Arrangement.Music;

namespace ChordLang.Interchange.Sheet;

/// <summary>Draws lines.</summary>
internal sealed class SystemWriter(Piece piece, Places places, FormSigns form, SheetOptions options)
{
    private const double StaffSpace = StaffPart.Space;

    /// <summary>The drawing of a line, its size, and the signs it refers to.</summary>
    public SheetSystem Draw(SystemPlan system)
    {
        // What is joined reaches into the bar before the line and into the one behind it, no farther.
        var voices = new Neighbours(piece.Bars.AsSpan()[Math.Max(0, system.Bars[0].Bar.Index - 1)..Math.Min(piece.Bars.Length, system.Bars[^1].Bar.Index + 2)].ToArray());
        // Where nothing is written out, empty strings would say nothing: the slashes stand on the staff.
        var chartOnly = options.Staves == Staves.Both && system.Bars.All(b => b.Plan.Strands.IsEmpty);
        var (tab, staff) = (options.Staves == Staves.Staff || chartOnly ? null : new TabPart(system, places, voices, options), options.Staves == Staves.Tab ? null : new StaffPart(system, voices, options));
        var sky = staff?.Sky ?? tab!.Sky;
        var lower = 0.0;
        if (tab is not null && staff is not null)
        {
            lower = Math.Max(sky.Distance(tab.Sky, 7), 4 * StaffSpace + 26);
            sky.Merge(tab.Sky, lower);
        }
        var body = new Canvas();
        var final = piece.Bars.Length - 1;
        if (staff is not null)
        {
            var part = new Canvas();
            staff.Draw(part);
            BarLines.Draw(part, system, 4 * StaffSpace, StaffSpace / 2, final);
            body.Add(part, 0, 0, "staff");
        }
        if (tab is not null)
        {
            var part = new Canvas();
            tab.Draw(part);
            BarLines.Draw(part, system, tab.Height, TabPart.Step, final);
            if (staff is null && system.Meter)
                Meters.Draw(part, SystemPlan.Names + 5, tab.Height / 2, system.Settings.Meter, 8);
            body.Add(part, 0, lower, "tab");
            if (staff is not null)
                body.Line(SystemPlan.Names, 4 * StaffSpace, SystemPlan.Names, lower, "bl");
        }
        for (var i = 1; i < system.Bars.Length; i++)
            if (staff is null && system.Bars[i].Plan.Change > 0 && tab is not null)
                Meters.Draw(body, system.Bars[i].Left + 5, tab.Height / 2, system.Bars[i].Bar.Settings.Meter, 8);
        if (system.Bars[0].Bar.Number > 0)
            body.Text(1, -7, system.Bars[0].Bar.Number.ToString(CultureInfo.InvariantCulture), Face.BarNumber);
        sky.Fill(0, -14, SystemPlan.Names - 1, 0);
        new OverRow(body, sky, system, options, form).Draw(piece);
        var top = sky.Top(0, system.Width) - 3;
        var bottom = sky.Bottom(0, system.Width) + 3;
        var (first, last) = (system.Bars[0].Bar, system.Bars[^1].Bar);
        var moved = new Canvas();
        moved.Add(body, 0, -top, "line");
        var (from, to) = (first.Span.Start, last.Span.End);
        foreach (var e in system.Bars.SelectMany(b => b.Bar.Rows).Where(r => !r.Borrowed).SelectMany(r => r.Events))
            to = Math.Max(to, e.SoundSpan.End);
        return new()
        {
            FirstBar = first.Index, LastBar = last.Index, From = from, To = to, Width = system.Width, Height = bottom - top, Drawing = moved.ToString(), Glyphs = [.. moved.Glyphs], Stretch = system.Stretch,
        };
    }
}

/// <summary>Meters as two figures one above the other.</summary>
internal static class Meters
{
    /// <param name="canvas">Where to.</param>
    /// <param name="x">Left edge.</param>
    /// <param name="middle">The line between the figures.</param>
    /// <param name="meter">The meter.</param>
    /// <param name="space">A staff space.</param>
    public static void Draw(Canvas canvas, double x, double middle, Meter meter, double space)
    {
        var (upper, lower) = (Digits(meter.Counts), Digits(meter.Unit));
        var wide = Math.Max(Width(upper), Width(lower));
        Row(upper, middle - space * 1.04);
        Row(lower, middle + space * 1.04);

        void Row(List<string> digits, double y)
        {
            var at = x + (wide - Width(digits)) / 2;
            foreach (var d in digits)
            {
                canvas.Glyph(d, at, y, space);
                at += GlyphTable.All[d].Right * space / GlyphTable.Space;
            }
        }

        double Width(List<string> digits) => digits.Sum(d => GlyphTable.All[d].Right * space / GlyphTable.Space);
    }

    private static List<string> Digits(int number) => [.. number.ToString(CultureInfo.InvariantCulture).Select(d => "timeSig" + d)];
}
