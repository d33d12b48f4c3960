// Writes a file so that it is either the old one or the new one, never half of each.
namespace ChordLang.Server.Workspace;

/// <summary>Replaces files whole.</summary>
internal static class Replacement
{
    /// <summary>Writes beside the file, then moves it into place; links and access rights of the file stay.</summary>
    public static void Write(string path, byte[] bytes)
    {
        var target = (File.Exists(path) ? new FileInfo(path).ResolveLinkTarget(true)?.FullName : null) ?? path;
        var beside = Path.Combine(Path.GetDirectoryName(target)!, $".{Path.GetFileName(target)}.{Environment.ProcessId}.part");
        File.WriteAllBytes(beside, bytes);
        if (!OperatingSystem.IsWindows() && File.Exists(target))
            File.SetUnixFileMode(beside, File.GetUnixFileMode(target));
        File.Move(beside, target, true);
    }
}
