// One measured figure, and how it is measured.
using System.Diagnostics;

namespace ChordLang.Benchmarks;

/// <summary>A figure.</summary>
/// <param name="Name">What was done.</param>
/// <param name="Median">Milliseconds in the middle of all runs.</param>
/// <param name="Aim">What it may take at most.</param>
/// <param name="Runs">How many runs.</param>
internal sealed record Figure(string Name, double Median, double Aim, int Runs)
{
    /// <summary>Runs that are not counted.</summary>
    public const int Warm = 3;

    /// <summary>Runs the work several times on this thread; the first runs are not counted, for they pay for the compiler.</summary>
    public static Figure Of(string name, double aim, int runs, Action<int> work)
    {
        var times = new List<double>();
        for (var i = 0; i < runs + Warm; i++)
        {
            var watch = Stopwatch.StartNew();
            work(i);
            if (i >= Warm)
                times.Add(watch.Elapsed.TotalMilliseconds);
        }
        times.Sort();
        return new(name, times[times.Count / 2], aim, runs);
    }
}
