// Runs BenchmarkDotNet over the steps from text to findings, in this process, and writes what it measured.
using System.Globalization;
using System.Text;
using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.NoEmit;

namespace ChordLang.Benchmarks;

/// <summary>Measures the inside.</summary>
internal static class InsideFigures
{
    private const int Warm = 3, Iterations = 12, Few = 3;
    private const double Micro = 1000, Kilo = 1024;

    /// <summary>Measures, tells, and writes the table where a file is named.</summary>
    public static int Run(Options options)
    {
        // In this process: a project that BenchmarkDotNet generates knows nothing of our central package versions and our folder for artifacts.
        var job = Job.Default.WithToolchain(InProcessNoEmitToolchain.Instance).WithWarmupCount(Warm).WithIterationCount(options.Short ? Few : Iterations).WithMinIterationCount(1);
        using var log = new StreamWriter(Console.OpenStandardError()) { AutoFlush = true };
        var config = ManualConfig.CreateEmpty().AddJob(job).AddLogger(new StreamLogger(log)).AddColumnProvider(DefaultColumnProviders.Instance).WithArtifactsPath(Path.Combine(Path.GetTempPath(), "chordlang-inside"));
        var summary = BenchmarkRunner.Run<Inside>(config);
        if (summary.HasCriticalValidationErrors || summary.Reports.Any(r => !r.Success))
        {
            Console.WriteLine("Not measured: BenchmarkDotNet says above why; it wants a release build (dotnet run -c Release).");
            return 1;
        }
        var text = new StringBuilder("Compiled just in time, by BenchmarkDotNet; median, and what one call allocates.\n\n");
        var sizes = summary.Reports.Select(r => Size(r.BenchmarkCase)).Distinct().Order().ToList();
        text.Append(CultureInfo.InvariantCulture, $"| | {string.Join(" | ", sizes.Select(s => $"{s:N0} lines, ms | kB"))} | growth of time | of allocation |\n|---|{string.Concat(sizes.Select(_ => "---:|---:|"))}---:|---:|\n");
        foreach (var step in summary.Reports.GroupBy(r => r.BenchmarkCase.Descriptor.WorkloadMethodDisplayInfo))
        {
            var points = step.Select(r => (Size: Size(r.BenchmarkCase), Time: r.ResultStatistics!.Median / Micro / Micro, Bytes: (double)(r.GcStats.GetBytesAllocatedPerOperation(r.BenchmarkCase) ?? 0))).OrderBy(p => p.Size).ToList();
            text.Append(CultureInfo.InvariantCulture, $"| {step.Key.Trim('\'')} | {string.Join(" | ", points.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Time:0.000} | {p.Bytes / Kilo:0}")))} | {Row.Growth(points.Select(p => (p.Size, p.Time))):0.00} | {Row.Growth(points.Select(p => (p.Size, p.Bytes))):0.00} |\n");
        }
        Console.WriteLine(text);
        if (options.File is { } file)
            Report.Write(file, "inside", text.ToString());
        return 0;
    }

    private static int Size(BenchmarkCase one) => (int)one.Parameters[nameof(Inside.Lines)];
}
