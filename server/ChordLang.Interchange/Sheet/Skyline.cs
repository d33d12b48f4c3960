// How far drawings reach up and down at each place of a line, so that what comes next stands clear of them.
namespace ChordLang.Interchange.Sheet;

/// <summary>Two outlines over the width of a system, y downwards, in steps of one unit.</summary>
internal sealed class Skyline
{
    private readonly double[] up, down;

    /// <summary>An outline that fills from <paramref name="top"/> to <paramref name="bottom"/> everywhere.</summary>
    public Skyline(double width, double top, double bottom)
    {
        up = new double[(int)Math.Ceiling(width) + 2];
        down = new double[up.Length];
        Array.Fill(up, top);
        Array.Fill(down, bottom);
    }

    /// <summary>Marks a box as filled.</summary>
    public void Fill(double left, double top, double right, double bottom)
    {
        var (from, to) = Range(left, right);
        for (var i = from; i <= to; i++)
        {
            up[i] = Math.Min(up[i], top);
            down[i] = Math.Max(down[i], bottom);
        }
    }

    /// <summary>The highest place between two x.</summary>
    public double Top(double left, double right)
    {
        var (from, to) = Range(left, right);
        var least = up[from];
        for (var i = from + 1; i <= to; i++)
            least = Math.Min(least, up[i]);
        return least;
    }

    /// <summary>The lowest place between two x.</summary>
    public double Bottom(double left, double right)
    {
        var (from, to) = Range(left, right);
        var most = down[from];
        for (var i = from + 1; i <= to; i++)
            most = Math.Max(most, down[i]);
        return most;
    }

    /// <summary>Finds room above for a box of some height, fills it, and answers with its lower edge.</summary>
    public double Above(double left, double right, double height, double gap = 2)
    {
        var bottom = Top(left, right) - gap;
        Fill(left, bottom - height, right, bottom);
        return bottom;
    }

    /// <summary>Finds room below for a box of some height, fills it, and answers with its upper edge.</summary>
    public double Below(double left, double right, double height, double gap = 2)
    {
        var top = Bottom(left, right) + gap;
        Fill(left, top, right, top + height);
        return top;
    }

    /// <summary>How far below this one's origin another has to stand so that the two keep a distance, sideways too.</summary>
    public double Distance(Skyline below, double gap)
    {
        var side = (int)Math.Ceiling(gap);
        var most = double.MinValue;
        for (var i = 0; i < Math.Min(down.Length, below.up.Length); i++)
            most = Math.Max(most, down[i] - below.Top(i - side, i + side));
        return most + gap;
    }

    /// <summary>Takes in another one that stands lower by some amount.</summary>
    public void Merge(Skyline other, double lower)
    {
        for (var i = 0; i < Math.Min(up.Length, other.up.Length); i++)
        {
            up[i] = Math.Min(up[i], other.up[i] + lower);
            down[i] = Math.Max(down[i], other.down[i] + lower);
        }
    }

    private (int From, int To) Range(double left, double right)
    {
        var from = Math.Clamp((int)Math.Floor(left), 0, up.Length - 1);
        return (from, Math.Clamp((int)Math.Ceiling(right), from, up.Length - 1));
    }
}
