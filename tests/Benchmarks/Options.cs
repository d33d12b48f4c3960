// What the benchmarks are called with, and the program that they measure: the one compiled ahead of time where it is there.
namespace ChordLang.Benchmarks;

/// <summary>A call.</summary>
/// <param name="Short">True for the form of every run.</param>
/// <param name="Peers">Folders with the servers of other languages.</param>
/// <param name="File">The file whose tables are written, or null.</param>
/// <param name="Program">The program with its first arguments, without a command.</param>
internal sealed record Options(bool Short, IReadOnlyList<string> Peers, string? File, IReadOnlyList<string> Program)
{
    private const string Native = ".artifacts/native/chordlang", Release = ".artifacts/bin/ChordLang.Server/release/chordlang.dll", Debug = ".artifacts/bin/ChordLang.Server/debug/chordlang.dll";

    /// <summary>True for the program compiled ahead of time.</summary>
    public bool IsNative => Program.Count == 1;

    /// <summary>How the tables call the program.</summary>
    public string Kind => IsNative ? "compiled ahead of time" : Program[^1].Contains("debug", StringComparison.Ordinal) ? "debug build, compiled just in time" : "compiled just in time";

    /// <summary>Reads a call; null where no program is named or found.</summary>
    public static Options? Of(IEnumerable<string> arguments)
    {
        var (left, brief, peers, file) = (new Queue<string>(arguments), false, new List<string>(), (string?)null);
        while (left.TryPeek(out var next) && next.StartsWith("--", StringComparison.Ordinal))
        {
            left.Dequeue();
            if (next == "--short")
                brief = true;
            else if (next == "--peers" && left.TryDequeue(out var folder))
                peers.Add(Path.GetFullPath(folder));
            else if (next == "--write" && left.TryDequeue(out var named))
                file = Path.GetFullPath(named);
            else
                return null;
        }
        List<string> program = left.Count > 0 ? [.. left] : System.IO.File.Exists(Native) ? [Native] : System.IO.File.Exists(Release) ? ["dotnet", Release] : System.IO.File.Exists(Debug) ? ["dotnet", Debug] : [];
        if (program is [_, .., "serve"])
            program.RemoveAt(program.Count - 1);
        // It runs in folders of its own.
        return program.Count == 0 ? null : new(brief, peers, file, [.. program.Select(a => System.IO.File.Exists(a) ? Path.GetFullPath(a) : a)]);
    }
}
