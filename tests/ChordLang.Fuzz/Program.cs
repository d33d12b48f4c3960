// Throws hostile inputs at everything that reads something: dotnet run --project tests/ChordLang.Fuzz -- [SECONDS] [--cases N] [--targets A,B] [--seed N] [--found FOLDER] [--plain] [--replay PATH] [--list]
using System.Globalization;
using ChordLang.Fuzz.Running;
using ChordLang.Fuzz.Targets;
using ChordLang.Testing;

if (args is ["--worker", var name, var state, var begin, var most, var within, var into])
{
    using var progress = new Progress(state);
    new Worker(Target.All.Single(t => t.Name == name), int.Parse(begin, CultureInfo.InvariantCulture), into, progress).Run(long.Parse(most, CultureInfo.InvariantCulture), TimeSpan.FromSeconds(double.Parse(within, CultureInfo.InvariantCulture)));
    return 0;
}
string? Option(string option) => Array.IndexOf(args, option) is >= 0 and var i && i + 1 < args.Length ? args[i + 1] : null;
if (args.Contains("--list"))
{
    foreach (var target in Target.All)
        Console.WriteLine($"{target.Name}: {target.Holds}");
    return 0;
}
if (Option("--replay") is { } path)
{
    var broken = FoundCase.Read(path).Select(c => (c.Target, c.Input, Trouble: Target.All.Single(t => t.Name == c.Target).Try(c.Input))).Where(c => c.Trouble is not null).ToList();
    foreach (var (target, input, trouble) in broken)
        Console.WriteLine($"{target}: {trouble}\n  {input.Replace("\n", "\n  ", StringComparison.Ordinal)}");
    Console.WriteLine($"{broken.Count} break something");
    return broken.Count == 0 ? 0 : 1;
}
var cases = Option("--cases") is { } count ? long.Parse(count, CultureInfo.InvariantCulture) : long.MaxValue;
var seconds = args.Length > 0 && double.TryParse(args[0], CultureInfo.InvariantCulture, out var wanted) ? wanted : cases < long.MaxValue ? 1e6 : 20;
var targets = Option("--targets")?.Split(',') is { } some ? some.Select(s => Target.All.Single(t => t.Name == s)).ToArray() : Target.All;
// Another one on every run, unless one is asked for again.
var seed = Option("--seed") is { } given ? int.Parse(given, CultureInfo.InvariantCulture) : Environment.ProcessId;
return new Supervisor(targets, seed, cases, TimeSpan.FromSeconds(seconds), Path.GetFullPath(Option("--found") ?? Repository.At(".artifacts/found")), args.Contains("--plain")).Run() == 0 ? 0 : 1;
