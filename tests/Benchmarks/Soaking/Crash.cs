// A client that crashes: a process of its own, killed while it types, so that its server is left with a parent that is gone and half a message.
using System.Diagnostics;
using System.Globalization;

namespace ChordLang.Benchmarks.Soaking;

/// <summary>Clients that are killed.</summary>
internal static class Crash
{
    /// <summary>The word by which this program is called as such a client.</summary>
    public const string Word = "victim";

    // The server ends within two seconds; where its neighbours build, it may take longer.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(8), Start = TimeSpan.FromMinutes(1);

    /// <summary>Starts a client with a server of its own, kills it after a while, and waits for the server's end; answers a trouble, or null, and how long it took.</summary>
    public static (string? Trouble, TimeSpan Took) Of(Shelf shelf, IReadOnlyList<string> command, int milliseconds)
    {
        // Called by dotnet or by its own name, as this process was.
        List<string> self = Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet" ? [Environment.GetCommandLineArgs()[0]] : [];
        using var victim = Process.Start(new ProcessStartInfo(Environment.ProcessPath!, [.. self, "soak", Word, shelf.Folder, .. command]) { RedirectStandardOutput = true })!;
        var said = victim.StandardOutput.ReadLineAsync();
        if (!said.Wait(Start) || !int.TryParse(said.Result, NumberStyles.None, CultureInfo.InvariantCulture, out var server))
        {
            victim.Kill(true);
            return ("the client that is to crash does not start", default);
        }
        // It does not end by itself.
        if (victim.WaitForExit(milliseconds))
            return ("the client that is to crash ended before: the server does not answer, or findings changed", default);
        using var orphan = Found(server);
        victim.Kill();
        var watch = Stopwatch.StartNew();
        return orphan?.WaitForExit(Patience) != false || Buried(server) ? (null, watch.Elapsed)
            : ($"a client was killed, and its server is still there after {Patience.TotalSeconds:0} s", watch.Elapsed);
    }

    /// <summary>The client: types until it is killed.</summary>
    public static int Victim(string folder, IReadOnlyList<string> command)
    {
        using var peer = new Peer(command, folder);
        Console.WriteLine(peer.Id.ToString(CultureInfo.InvariantCulture));
        var typist = new Typist(peer, new Shelf(folder), peer.Id, saves: false);
        typist.Begin();
        // Findings may change here: the other one saves meanwhile.
        while (true)
            typist.Round();
    }

    private static Process? Found(int id)
    {
        try
        {
            return Process.GetProcessById(id);
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    // A process that has ended keeps its number until somebody asks about it.
    private static bool Buried(int process) => File.Exists($"/proc/{process}/stat") && File.ReadAllText($"/proc/{process}/stat").Contains(") Z ", StringComparison.Ordinal);
}
