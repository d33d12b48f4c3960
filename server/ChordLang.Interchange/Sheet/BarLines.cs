// Bar lines of one stave: single, repeats with their dots, and the end.
namespace ChordLang.Interchange.Sheet;

/// <summary>Draws bar lines.</summary>
internal static class BarLines
{
    /// <param name="canvas">Where to.</param>
    /// <param name="system">The line.</param>
    /// <param name="bottom">The lowest line of the stave; its highest is y 0.</param>
    /// <param name="dots">From the middle to each of the dots of a repeat.</param>
    /// <param name="final">Index of the piece's last bar.</param>
    public static void Draw(Canvas canvas, SystemPlan system, double bottom, double dots, int final)
    {
        canvas.Line(SystemPlan.Names, 0, SystemPlan.Names, bottom, "bl");
        for (var i = 0; i < system.Bars.Length; i++)
        {
            var bar = system.Bars[i];
            var start = bar.Plan.Signs.RepeatStart;
            if (start)
                Repeat(canvas, i == 0 ? bar.Left - 2 : bar.Left, bottom, dots, 1);
            else if (i > 0 && !system.Bars[i - 1].Plan.Signs.RepeatEnd)
                canvas.Line(bar.Left, 0, bar.Left, bottom, "bl");
            if (bar.Plan.Signs.RepeatEnd)
                Repeat(canvas, bar.Right, bottom, dots, -1);
            else if (bar.Bar.Index == final)
            {
                canvas.Box(bar.Right - 2.6, 0, 2.6, bottom, "ink");
                canvas.Line(bar.Right - 5, 0, bar.Right - 5, bottom, "bl");
            }
            else if (i == system.Bars.Length - 1)
                canvas.Line(bar.Right, 0, bar.Right, bottom, "bl");
        }
    }

    private static void Repeat(Canvas canvas, double x, double bottom, double dots, int way)
    {
        canvas.Box(way > 0 ? x : x - 2.6, 0, 2.6, bottom, "ink");
        canvas.Line(x + way * 5, 0, x + way * 5, bottom, "bl");
        canvas.Circle(x + way * 8, bottom / 2 - dots, 1.4, "ink");
        canvas.Circle(x + way * 8, bottom / 2 + dots, 1.4, "ink");
    }
}
