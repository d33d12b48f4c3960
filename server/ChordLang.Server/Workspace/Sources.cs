// The files that a command is called on.
using System.IO.Enumeration;
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

    /// <summary>Folders further down are not looked into, and said so.</summary>
    public const int MostDeep = 32;

    /// <summary>Files as given, folders as all .chl files below them, sorted; <c>-</c> is standard input. Read one after the other, when asked for.</summary>
    public static IEnumerable<Func<Source>> Find(IReadOnlyList<string> paths, Func<Stream> input, string? inputPath)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var path in paths)
            if (path == "-")
                yield return () => ReadInput(input, inputPath);
            else if (Directory.Exists(path))
            {
                var tooDeep = new List<string>();
                foreach (var file in Below(path, tooDeep: tooDeep.Add))
                    if (seen.Add(Path.GetFullPath(file)))
                        yield return () => Read(file, named: false);
                foreach (var folder in tooDeep)
                    yield return () => new(folder.Replace('\\', '/'), null, null, TooDeep);
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
    /// <param name="path">The file.</param>
    /// <param name="named">False where the user did not name it: a pipe that lies among the lessons is not waited for.</param>
    public static Source Read(string path, bool named = true)
    {
        var shown = path.Replace('\\', '/');
        try
        {
            var full = Path.GetFullPath(path);
            // A pipe has no length, and to open one waits until somebody writes; an empty file needs no opening.
            if (!named && Final(full) is { Exists: true, Length: 0 })
                return new(shown, full, SourceText.From(ReadOnlySpan<byte>.Empty), null);
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

    // Where links lead, for a link has a length of its own.
    private static FileInfo Final(string path) => new FileInfo(path) is var file && file.LinkTarget is not null && file.ResolveLinkTarget(true) is FileInfo target ? target : file;

    private static string TooDeep => $"folders more than {MostDeep} deep are not looked into";

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
    /// <param name="folder">The folder.</param>
    /// <param name="deep">False for its own files only.</param>
    /// <param name="tooDeep">Told of each folder that lies too deep to be looked into.</param>
    public static List<string> Below(string folder, bool deep = true, Action<string>? tooDeep = null)
    {
        var options = new EnumerationOptions { RecurseSubdirectories = deep, IgnoreInaccessible = true, AttributesToSkip = FileAttributes.System | FileAttributes.ReparsePoint, MaxRecursionDepth = MostDeep };
        var ignores = Configurations.Ignoring();
        string Inner(string path) => "/" + path[folder.Length..].Replace('\\', '/').TrimStart('/');
        var all = new FileSystemEnumerable<(string Path, bool IsFolder)>(folder, (ref FileSystemEntry e) => (e.ToSpecifiedFullPath(), e.IsDirectory), options)
        {
            ShouldIncludePredicate = (ref FileSystemEntry e) => e.IsDirectory || FileSystemName.MatchesSimpleExpression("*.chl", e.FileName, OperatingSystem.IsWindows() || OperatingSystem.IsMacOS()),
        };
        var files = new List<string>();
        foreach (var (path, isFolder) in all)
        {
            var inner = Inner(path);
            if (inner.Contains("/.", StringComparison.Ordinal))
                continue;
            if (!isFolder && !ignores(System.IO.Path.GetFullPath(path)))
                files.Add(path);
            else if (isFolder && deep && inner.Count(c => c == '/') > MostDeep)
                tooDeep?.Invoke(path);
        }
        files.Sort((a, b) => string.CompareOrdinal(a.Replace('\\', '/'), b.Replace('\\', '/')));
        return files;
    }
}
