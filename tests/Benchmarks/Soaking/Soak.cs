// An hour of typing into one server, or some rounds of it: memory may not grow, findings may not change, and no server outlives its client.
using System.Diagnostics;
using System.Globalization;

namespace ChordLang.Benchmarks.Soaking;

/// <summary>The soak: <c>soak [--minutes N | --rounds N] PROGRAM [ARGUMENT …]</c>.</summary>
internal static class Soak
{
    private const int Lessons = 40, RoundsBetweenCrashes = 8, LongestLife = 2500, MostWarm = 10, Seed = 20_261;

    // The lower quartile, for what lies above it is what nobody needs any more and nobody has swept up yet. A short run sees more of that chance than a long one:
    // runs of 24, 40 and 100 rounds of one program told +2.7, +11.4 and +3.7 %, the last without a trend from round 20 on. So the short form finds large leaks only.
    private const double Low = 0.25, Middle = 0.5, MostGrowth = 1.05, MostGrowthOfShort = 1.25;

    /// <summary>Runs it; 0 where all held.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments is [Crash.Word, var folder, .. var theirs])
            return Crash.Victim(folder, theirs);
        var (minutes, rounds, command) = (60.0, (int?)null, arguments.ToList());
        if (command is ["--minutes", var m, ..] && double.TryParse(m, out minutes) || command is ["--rounds", _, ..])
        {
            rounds = command[0] == "--rounds" ? int.Parse(command[1], CultureInfo.InvariantCulture) : null;
            command = command[2..];
        }
        if (command.Count == 0)
        {
            Console.Error.WriteLine("usage: soak [--minutes N | --rounds N] PROGRAM [ARGUMENT …], for example: soak --minutes 60 chordlang serve");
            return 2;
        }
        return Run([.. command.Select(a => File.Exists(a) ? Path.GetFullPath(a) : a)], minutes, rounds);
    }

    private static int Run(List<string> command, double minutes, int? rounds)
    {
        using var shelf = new Shelf(Lessons);
        var (graph, clock) = (new MemoryGraph(), Stopwatch.StartNew());
        var (done, crashes, slowest, troubles) = (0, 0, TimeSpan.Zero, new List<string>());
        // By the clock, by minutes; in the short form by rounds, for a busy machine does fewer of them in a minute.
        double Now() => rounds is null ? clock.Elapsed.TotalMinutes : done;
        var whole = rounds ?? minutes;
        var warm = Math.Min(rounds is null ? MostWarm : double.MaxValue, whole / 3);
        Deeds deeds;
        double peak;
        using (var peer = new Peer(command, shelf.Folder))
        {
            var typist = new Typist(peer, shelf, Seed, saves: true);
            typist.Begin();
            for (; Now() < whole && troubles.Count == 0; done++)
            {
                if (typist.Round() is { } trouble)
                    troubles.Add(trouble);
                if (done % RoundsBetweenCrashes == 1)
                {
                    var (left, took) = Crash.Of(shelf, command, done * 131 % LongestLife);
                    (crashes, slowest) = (crashes + 1, took > slowest ? took : slowest);
                    graph.Crash(Now());
                    if (left is not null)
                        troubles.Add(left);
                }
                graph.Add(Now(), peer.Megabytes);
            }
            (deeds, peak) = (typist.Deeds, peer.PeakMegabytes);
        }
        var window = (whole - warm) / (rounds is null ? 5 : 2);
        (double Early, double Late) At(double share) => (graph.Quantile(share, warm, warm + window), graph.Quantile(share, whole - window, double.MaxValue));
        var (early, late) = At(Low);
        var (before, after) = At(Middle);
        var (least, most) = graph.Range(warm);
        var limit = rounds is null ? MostGrowth : MostGrowthOfShort;
        if (troubles.Count == 0 && !(late <= early * limit))
            troubles.Add("memory grew");
        var unit = rounds is null ? "minutes" : "rounds";
        var verdict = string.Create(CultureInfo.InvariantCulture, $"{early:0.0} MB in {unit} {warm:0} to {warm + window:0}, {late:0.0} MB in the last {window:0}: {(late / early - 1) * 100:+0.0;-0.0} % in the lower quartile ({(after / before - 1) * 100:+0.0;-0.0} % in the median).");
        graph.Write(Path.Combine(".artifacts", "soak"), warm, verdict);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{done} rounds in {clock.Elapsed.TotalMinutes:0.0} minutes: {deeds.Keys} keys, {deeds.Questions} questions, {deeds.Withdrawn} of them withdrawn, {deeds.Openings} openings, {deeds.FileEvents} changes on disk."));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{crashes} clients were killed; the slowest server ended {slowest.TotalSeconds:0.00} s later."));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Memory: {verdict} From then on {least:0} to {most:0} MB, at most {peak:0} MB ever. Drawn in .artifacts/soak/memory.svg."));
        foreach (var trouble in troubles)
            Console.WriteLine($"failed: {trouble}");
        return troubles.Count == 0 ? 0 : 1;
    }
}
