// Runs the cases of one target in a process of its own, which may be lost without losing the others.
using ChordLang.Fuzz.Generating;
using ChordLang.Fuzz.Targets;
using ChordLang.Testing;

namespace ChordLang.Fuzz.Running;

/// <summary>The cases of a target.</summary>
internal sealed class Worker(Target target, int seed, string found, Progress progress)
{
    /// <summary>The exit code of a worker whose case did not end.</summary>
    public const int Hangs = 77;

    // A case that takes longer is a fault; one that takes much longer, or waits for nothing, is ended from outside.
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(2), Hopeless = TimeSpan.FromSeconds(20), Idle = TimeSpan.FromSeconds(90), Shrinking = TimeSpan.FromSeconds(4);

    private const int MostKept = 3_000, LongestKept = 6_000, MostFound = 40;

    private readonly Dice dice = new(seed);
    private readonly Coverage coverage = new();
    private readonly List<string> kept = [];
    private readonly HashSet<string> known = [];
    private long begun;

    /// <summary>Runs until so many cases are done or so much processor time is spent, that of its start included.</summary>
    public void Run(long cases, TimeSpan time)
    {
        using var watch = Watch();
        foreach (var trap in progress.Cases == 0 ? target.Traps : [])
            Try(trap);
        while (progress.Cases < cases && Environment.CpuUsage.TotalTime < time)
            Try(kept.Count > 0 && dice.One(2) ? target.Damage(dice, Recent(), kept[dice.Next(kept.Count)]) : target.Make(dice));
    }

    // Half of the picks are among the latest, which lead farther.
    private string Recent() => kept[dice.One(2) ? dice.Next(kept.Count) : kept.Count - 1 - dice.Next(Math.Min(kept.Count, 50))];

    private void Try(string input)
    {
        progress.Input = input;
        progress.Cases++;
        coverage.Clear();
        var (trouble, spent) = Measured(input);
        if (coverage.IsNew() && input.Length <= LongestKept)
        {
            if (kept.Count < MostKept)
                kept.Add(input);
            else
                kept[dice.Next(MostKept)] = input;
            (progress.Kept, progress.Places) = (progress.Kept + 1, coverage.Places);
        }
        // Once more, for the collector and the compiler have their moments.
        if (trouble is null && spent > Longest && Measured(input) is var (_, again) && (spent = again) > Longest)
            trouble = $"took {spent.TotalSeconds:F1} s of processor time";
        progress.Spent += spent;
        progress.Slowest = spent > progress.Slowest ? spent : progress.Slowest;
        if (trouble is null)
            return;
        progress.Broken++;
        if (known.Count < MostFound && known.Add(Kind(trouble)))
            Keep(input, trouble);
    }

    private (string? Trouble, TimeSpan Spent) Measured(string input)
    {
        // Processor time, for a machine that is busy with other work must not look like a text that hangs.
        Interlocked.Increment(ref begun);
        var start = Environment.CpuUsage.TotalTime;
        var trouble = target.Try(input);
        return (trouble, Environment.CpuUsage.TotalTime - start);
    }

    private void Keep(string input, string trouble)
    {
        var slow = trouble.StartsWith("took ", StringComparison.Ordinal);
        var shortest = slow ? input : Shrinker.Shortest(input, i => (progress.Input = i) is not null && Measured(i).Trouble is { } same && Kind(same) == Kind(trouble), Shrinking);
        trouble = slow ? trouble : target.Try(shortest) ?? trouble;
        var path = new FoundCase(target.Name, trouble, shortest).Write(found);
        Console.WriteLine($"{target.Name}: {trouble}\n  kept as {path}\n  {(shortest.Length > 300 ? shortest[..300] + "…" : shortest).Replace("\n", "\n  ", StringComparison.Ordinal)}");
    }

    // What broke, without what changes from input to input: the first words, and of a crash where it was.
    private static string Kind(string trouble)
    {
        var lines = trouble.Split('\n');
        var first = string.Concat(lines[0].Where(c => !char.IsDigit(c)).Take(40));
        return trouble.StartsWith("crashed: ", StringComparison.Ordinal) ? first + lines.FirstOrDefault(l => l.Contains(" at ChordLang.", StringComparison.Ordinal)) : first;
    }

    private Timer Watch()
    {
        var (last, cpu, clock) = (0L, TimeSpan.Zero, DateTime.UtcNow);
        return new(_ =>
        {
            var (now, spent) = (Interlocked.Read(ref begun), Environment.CpuUsage.TotalTime);
            if (now != last)
                (last, cpu, clock) = (now, spent, DateTime.UtcNow);
            else if (spent - cpu > Hopeless || DateTime.UtcNow - clock > Idle && spent - cpu < TimeSpan.FromSeconds(1))
                Environment.Exit(Hangs);
        }, null, 500, 500);
    }
}
