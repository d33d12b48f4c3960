// Finds the repository and its samples from wherever the tests run.
namespace ChordLang.Testing;

/// <summary>Places of the repository.</summary>
public static class Repository
{
    /// <summary>The folder that holds ChordLang.sln.</summary>
    public static string Root { get; } = Find();

    /// <summary>A file or folder of the repository, by its path with forward slashes.</summary>
    public static string At(string path) => Path.Combine([Root, .. path.Split('/')]);

    /// <summary>All .chl files below a folder of samples/, sorted, as paths from the root with forward slashes. Empty where there is no such folder.</summary>
    public static IReadOnlyList<string> Samples(string folder = "") => Files("samples/" + folder, "*.chl");

    /// <summary>All files below a folder that match a pattern, sorted, as paths from the root with forward slashes.</summary>
    public static IReadOnlyList<string> Files(string folder, string pattern)
    {
        var at = At(folder.TrimEnd('/'));
        if (!Directory.Exists(at))
            return [];
        return [.. Directory.EnumerateFiles(at, pattern, SearchOption.AllDirectories)
            .Select(f => Path.GetRelativePath(Root, f).Replace('\\', '/')).Order(StringComparer.Ordinal)];
    }

    /// <summary>The bytes of a file of the repository.</summary>
    public static byte[] Bytes(string path) => File.ReadAllBytes(At(path));

    /// <summary>The text of a file of the repository.</summary>
    public static string Text(string path) => File.ReadAllText(At(path));

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "ChordLang.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException($"No ChordLang.sln above {AppContext.BaseDirectory}");
    }
}
