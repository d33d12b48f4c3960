// Runs one worker after the other and outlives them: a worker that breaks down gives up its last input, and another one goes on.
using System.Diagnostics;
using System.Globalization;
using ChordLang.Fuzz.Targets;
using ChordLang.Testing;

namespace ChordLang.Fuzz.Running;

/// <summary>A run over some targets.</summary>
/// <param name="Targets">Which.</param>
/// <param name="Seed">Where chance begins.</param>
/// <param name="Cases">How many cases over all targets.</param>
/// <param name="Time">How much processor time, over all targets: a machine that is busy with other work gets as many cases as any.</param>
/// <param name="Found">The folder for inputs that break something.</param>
/// <param name="Plain">True to leave the rooms as they are, without counting branches.</param>
internal sealed record Supervisor(IReadOnlyList<Target> Targets, int Seed, long Cases, TimeSpan Time, string Found, bool Plain)
{
    // A target that breaks down so often needs mending and no more cases.
    private const int MostLosses = 10;

    /// <summary>Runs; answers how many cases broke something.</summary>
    public long Run()
    {
        Console.WriteLine($"seed {Seed}");
        var own = Path.Combine(AppContext.BaseDirectory, "ChordLang.Fuzz.dll");
        var program = Plain ? own : Instrumented.Copy(Path.Combine(Repository.Root, ".artifacts", "fuzz", Environment.ProcessId.ToString(CultureInfo.InvariantCulture)));
        var (all, broken, spent, shares) = (0L, 0L, TimeSpan.Zero, Targets.Sum(t => t.Share));
        try
        {
            foreach (var target in Targets)
            {
                var (cases, lost) = Run(target, program, Cases == long.MaxValue ? Cases : Cases * target.Share / shares, Time / Targets.Count, out var seconds);
                (all, broken, spent) = (all + cases, broken + lost, spent + seconds);
            }
        }
        finally
        {
            if (!Plain)
                Directory.Delete(Path.GetDirectoryName(program)!, true);
        }
        Console.WriteLine($"{all} cases in {spent.TotalSeconds:F0} s of processor time; {(broken == 0 ? "nothing broke" : $"{broken} broke something, see {Found}")}");
        return broken;
    }

    private (long Cases, long Broken) Run(Target target, string program, long cases, TimeSpan time, out TimeSpan spent)
    {
        var state = Path.GetTempFileName();
        try
        {
            using var progress = new Progress(state);
            for (var losses = 0; losses < MostLosses && (losses == 0 || progress.Cases < cases && progress.Spent < time); losses++)
            {
                var code = Work(target, program, state, Seed + losses, cases, time - progress.Spent);
                if (code == 0)
                    break;
                progress.Broken++;
                var kept = new FoundCase(target.Name, code == Worker.Hangs ? "does not end" : $"ends the process with {code}", progress.Input).Write(Found);
                Console.WriteLine($"{target.Name}: {(code == Worker.Hangs ? "does not end" : $"ends the process with {code}")}\n  kept as {kept}");
            }
            spent = progress.Spent;
            Console.WriteLine($"{target.Name}: {progress.Cases} cases, {spent.TotalSeconds:F1} s, slowest {progress.Slowest.TotalMilliseconds:F0} ms, {progress.Broken} broke, {progress.Kept} kept for {progress.Places} branches");
            return (progress.Cases, progress.Broken);
        }
        finally
        {
            File.Delete(state);
        }
    }

    private int Work(Target target, string program, string state, int seed, long cases, TimeSpan time)
    {
        using var process = Process.Start(new ProcessStartInfo("dotnet",
            [program, "--worker", target.Name, state, seed.ToString(CultureInfo.InvariantCulture), cases.ToString(CultureInfo.InvariantCulture), time.TotalSeconds.ToString(CultureInfo.InvariantCulture), Found]))!;
        process.WaitForExit();
        return process.ExitCode;
    }
}
