// Throws broken texts at everything that reads text: dotnet run --project tests/ChordLang.Fuzz [seconds]
using System.Diagnostics;
using ChordLang.Fuzz;

var seconds = args.Length > 0 && double.TryParse(args[0], out var wanted) ? wanted : 20;
var failures = 0;
foreach (var target in Targets.All)
{
    var (cases, slowest, clock) = (0, TimeSpan.Zero, Stopwatch.StartNew());
    // The fixed cases always run, whole; mutations fill the time that is left.
    foreach (var text in Cases.Fixed().Concat(Cases.Mutations().TakeWhile(_ => clock.Elapsed.TotalSeconds < seconds / Targets.All.Length)))
    {
        cases++;
        // Processor time, for a machine that is busy with other work must not look like a text that hangs.
        var start = Environment.CpuUsage.TotalTime;
        var trouble = Try(target.Run, text);
        var spent = Environment.CpuUsage.TotalTime - start;
        slowest = spent > slowest ? spent : slowest;
        trouble ??= spent.TotalSeconds > 2 ? $"took {spent.TotalSeconds:F2} s" : null;
        if (trouble is null)
            continue;
        failures++;
        Console.WriteLine($"{target.Name}: {trouble}\n  {(text.Length > 300 ? text[..300] + "…" : text).Replace("\n", "\n  ", StringComparison.Ordinal)}");
        if (failures >= 20)
            return 1;
    }
    Console.WriteLine($"{target.Name}: {cases} cases, slowest {slowest.TotalMilliseconds:F0} ms");
}
Console.WriteLine(failures == 0 ? "nothing broke" : $"{failures} failures");
return failures == 0 ? 0 : 1;

static string? Try(Func<string, string?> run, string text)
{
    try
    {
        return run(text);
    }
    catch (Exception e)
    {
        return $"crashed: {e}";
    }
}
