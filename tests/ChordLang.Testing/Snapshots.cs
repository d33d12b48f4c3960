// The one seam to the snapshot library: a missing snapshot fails, and the failure says how to make it.
using Snapshooter.Xunit;
using Xunit;

namespace ChordLang.Testing;

/// <summary>Compares texts with the snapshots kept beside the tests, in <c>__snapshots__</c>.</summary>
public static class Snapshots
{
    /// <summary>The command that writes all snapshots anew.</summary>
    public const string UpdateCommand = "CHORDLANG_UPDATE=1 dotnet test";

    private static readonly bool Updating = Environment.GetEnvironmentVariable("CHORDLANG_UPDATE") == "1";

    /// <summary>Compares a text with the snapshot of a name; call it directly from the test.</summary>
    public static void Match(string text, string name)
    {
        Environment.SetEnvironmentVariable("SNAPSHOOTER_STRICT_MODE", Updating ? "false" : "true");
        var full = Snapshot.FullName(name);
        var path = Path.Combine(full.FolderPath, "__snapshots__", full.Filename);
        if (Updating && File.Exists(path))
            File.Delete(path);
        try
        {
            Snapshot.Match(text, full);
        }
        catch (Exception) when (!Updating)
        {
            var kept = File.Exists(path) ? File.ReadAllText(path) : null;
            Assert.Fail($"{(kept is null ? $"There is no snapshot {path}." : $"{path} differs:\n{Difference(kept, text)}")}\nIf the new text is right, write it with: {UpdateCommand}");
        }
    }

    private static string Difference(string kept, string text)
    {
        var (old, now) = (kept.Split('\n'), text.Split('\n'));
        var first = 0;
        while (first < old.Length && first < now.Length && old[first].TrimEnd('\r') == now[first])
            first++;
        var lines = old.Skip(first).Take(8).Select(l => "- " + l).Concat(now.Skip(first).Take(8).Select(l => "+ " + l));
        return $"from line {first + 1} on\n{string.Join('\n', lines)}";
    }
}
