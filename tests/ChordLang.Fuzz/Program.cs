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
        var one = Stopwatch.StartNew();
        var trouble = Try(target.Run, text);
        slowest = one.Elapsed > slowest ? one.Elapsed : slowest;
        trouble ??= one.Elapsed.TotalSeconds > 1 ? $"took {one.Elapsed.TotalSeconds:F2} s" : null;
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
