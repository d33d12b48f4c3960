// The times of one kind, and how they grow with the text.
namespace ChordLang.Benchmarks;

/// <summary>Figures of one kind: milliseconds, or megabytes.</summary>
/// <param name="Name">What was measured.</param>
/// <param name="Times">The figures.</param>
/// <param name="Empty">How many answers held nothing.</param>
internal sealed record Row(string Name, IReadOnlyList<double> Times, int Empty = 0)
{
    // Shorter texts cost what a keystroke costs anyway.
    private const int LeastGrown = 1000;

    /// <summary>The figure in the middle.</summary>
    public double Median => Times.Count == 0 ? double.NaN : Times.Order().ElementAt(Times.Count / 2);

    /// <summary>Nineteen of twenty are below it.</summary>
    public double P95 => Times.Count == 0 ? double.NaN : Times.Order().ElementAt(Math.Min(Times.Count - 1, (int)Math.Ceiling(Times.Count * 0.95) - 1));

    /// <summary>True where most answers held nothing: how fast nothing is said means little.</summary>
    public bool SaysNothing => Empty * 2 > Times.Count;

    /// <summary>The exponent of the power law that fits best, by least squares of the logarithms, from texts of a thousand lines on; null for fewer than two.</summary>
    public static double? Growth(IEnumerable<(int Size, double Time)> points)
    {
        var known = points.Where(p => p.Size >= LeastGrown && p.Time > 0 && double.IsFinite(p.Time)).Select(p => (X: Math.Log(p.Size), Y: Math.Log(p.Time))).ToList();
        if (known.Count < 2)
            return null;
        var (x, y) = (known.Average(p => p.X), known.Average(p => p.Y));
        return known.Sum(p => (p.X - x) * (p.Y - y)) / known.Sum(p => (p.X - x) * (p.X - x));
    }
}
