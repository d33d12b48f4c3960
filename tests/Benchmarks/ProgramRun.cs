// One run of the program on the command line: how long it took, and the most memory that it held.
using System.Diagnostics;
using System.Globalization;

namespace ChordLang.Benchmarks;

/// <summary>A run.</summary>
/// <param name="Milliseconds">From its start to its end.</param>
/// <param name="Megabytes">The most memory seen; looked at every other millisecond, so the very last may be missed.</param>
/// <param name="Code">The exit code.</param>
/// <param name="Out">What it wrote on standard output.</param>
internal sealed record ProgramRun(double Milliseconds, double Megabytes, int Code, string Out)
{
    /// <summary>Runs the program.</summary>
    /// <param name="command">With its arguments.</param>
    /// <param name="folder">Where.</param>
    public static ProgramRun Of(IReadOnlyList<string> command, string folder)
    {
        var watch = Stopwatch.StartNew();
        using var process = Process.Start(new ProcessStartInfo(command[0], command.Skip(1)) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder })!;
        process.StandardInput.Close();
        var (output, error) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        var most = 0.0;
        while (!process.WaitForExit(2))
            most = Math.Max(most, Peak(process.Id));
        var time = watch.Elapsed.TotalMilliseconds;
        _ = error.Result;
        return new(time, most, process.ExitCode, output.Result);
    }

    private static double Peak(int id)
    {
        try
        {
            return File.ReadLines($"/proc/{id}/status").Where(l => l.StartsWith("VmHWM:", StringComparison.Ordinal)).Select(l => double.Parse(l.AsSpan(6, l.Length - 8), CultureInfo.InvariantCulture) / 1024).FirstOrDefault();
        }
        catch (IOException)
        {
            // It has just ended.
            return 0;
        }
    }
}
