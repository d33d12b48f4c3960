// The files that a command is called on.
using ChordLang.Grammar.Text;

namespace ChordLang.Server.Workspace;

/// <summary>A file, or why it could not be read.</summary>
/// <param name="Path">As findings name it: as the caller gave it, with / between folders.</param>
/// <param name="FullPath">Where it is, or null for standard input without a path.</param>
/// <param name="Text">Its text, or null.</param>
/// <param name="Trouble">Why there is no text.</param>
internal sealed record Source(string Path, string? FullPath, SourceText? Text, string? Trouble);

/// <summary>Finds and reads files.</summary>
internal static class Sources
{
    /// <summary>Larger files are refused: a lesson has a few thousand bytes.</summary>
    public const long LargestFile = 10 * 1024 * 1024;

    /// <summary>Files as given, folders as all .chl files below them, sorted; <c>-</c> is standard input. Read one after the other, when asked for.</summary>
    public static IEnumerable<Func<Source>> Find(IReadOnlyList<string> paths, Func<Stream> input, string? inputPath)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var path in paths)
            if (path == "-")
                yield return () => ReadInput(input, inputPath);
            else if (Directory.Exists(path))
                foreach (var file in Below(path))
                {
                    if (seen.Add(Path.GetFullPath(file)))
                        yield return () => Read(file);
                }
            // What can be no path is told by the one who reads it.
            else if (path.Length == 0 || path.Contains('\0', StringComparison.Ordinal) || seen.Add(Path.GetFullPath(path)))
                yield return () => Read(path);
    }

    /// <summary>The bytes of one file, or of standard input for <c>-</c>; null with the reason where there are none. Larger files are not read at all.</summary>
    public static (byte[]? Bytes, string? Trouble) Bytes(string path, Func<Stream> input)
    {
        try
        {
            using var stream = path == "-" ? input() : new FileStream(Path.GetFullPath(path), FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            return stream.CanSeek && stream.Length > LargestFile || Whole(stream) is not { } bytes ? (null, TooLarge) : (bytes.ToArray(), null);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return (null, Why(e));
        }
    }

    /// <summary>Reads one file.</summary>
    public static Source Read(string path)
    {
        var shown = path.Replace('\\', '/');
        try
        {
            var full = Path.GetFullPath(path);
            using var stream = new FileStream(full, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            return stream.CanSeek && stream.Length > LargestFile
                ? new(shown, full, null, TooLarge)
                : Take(stream, shown, full);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return new(shown, null, null, Why(e));
        }
    }

    private static string TooLarge => $"it is larger than {LargestFile / 1024 / 1024} MB";

    private static string Why(Exception e) => e is FileNotFoundException or DirectoryNotFoundException or ArgumentException ? "there is no such file"
        : e is UnauthorizedAccessException ? "it may not be read" : e.Message;

    private static Source ReadInput(Func<Stream> input, string? inputPath)
    {
        using var stream = input();
        return Take(stream, inputPath?.Replace('\\', '/') ?? "<stdin>", inputPath is null ? null : Path.GetFullPath(inputPath));
    }

    private static Source Take(Stream stream, string shown, string? full) => Whole(stream) is { } bytes
        ? new(shown, full, SourceText.From(bytes.GetBuffer().AsSpan(0, (int)bytes.Length)), null) : new(shown, full, null, TooLarge);

    // Everything that a stream holds, or null where that is too much.
    private static MemoryStream? Whole(Stream stream)
    {
        var bytes = new MemoryStream();
        var buffer = new byte[1 << 16];
        for (int n; (n = stream.Read(buffer)) > 0;)
        {
            bytes.Write(buffer, 0, n);
            if (bytes.Length > LargestFile)
                return null;
        }
        return bytes;
    }

    /// <summary>All .chl files below a folder, sorted; hidden folders and links are left out.</summary>
    public static List<string> Below(string folder, bool deep = true)
    {
        var options = new EnumerationOptions { RecurseSubdirectories = deep, IgnoreInaccessible = true, AttributesToSkip = FileAttributes.System | FileAttributes.ReparsePoint, MaxRecursionDepth = 32 };
        var ignores = Configurations.Ignoring();
        var files = Directory.EnumerateFiles(folder, "*.chl", options).Where(f => !f[folder.Length..].Replace('\\', '/').Contains("/.", StringComparison.Ordinal) && !ignores(System.IO.Path.GetFullPath(f))).ToList();
        files.Sort((a, b) => string.CompareOrdinal(a.Replace('\\', '/'), b.Replace('\\', '/')));
        return files;
    }
}
