// The folder that a soak types in: lessons of many lengths, shapes that all of them share, and files that come and go on disk.
using System.Globalization;

namespace ChordLang.Benchmarks.Soaking;

/// <summary>A library on disk, taken away with the run.</summary>
internal sealed class Shelf : IDisposable
{
    private static readonly int[] Lengths = [24, 60, 130, 300, 45, 600];

    private readonly bool own;

    /// <summary>Writes so many lessons into a folder of its own.</summary>
    public Shelf(int lessons)
    {
        (own, Folder) = (true, Directory.CreateTempSubdirectory("chordlang-soak-").FullName);
        File.WriteAllText(Path.Combine(Folder, "chordlang.json"), "{}");
        File.WriteAllText(Shapes, SharedShapes(1));
        for (var i = 0; i < lessons; i++)
        {
            var path = Path.Combine(Folder, $"part-{i % 7 + 1}", string.Create(CultureInfo.InvariantCulture, $"lesson-{i + 1}.chl"));
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllText(path, Lesson(i));
            Lessons.Add(path);
        }
    }

    /// <summary>A shelf that another process wrote.</summary>
    public Shelf(string folder)
    {
        Folder = folder;
        Lessons.AddRange(Directory.EnumerateFiles(folder, "lesson-*.chl", SearchOption.AllDirectories).Order(StringComparer.Ordinal));
    }

    /// <summary>Its full path.</summary>
    public string Folder { get; }

    /// <summary>The lessons, by full path.</summary>
    public List<string> Lessons { get; } = [];

    /// <summary>The lesson that gives the shapes.</summary>
    public string Shapes => Path.Combine(Folder, "shapes.chl");

    /// <summary>Shapes as they are in one of several versions.</summary>
    public static string SharedShapes(int version) => string.Create(CultureInfo.InvariantCulture, $"shape low-drop = 1-x-1-1-1-x\nshape other-{version % 5} = x-1-3-1-2-x\n");

    /// <summary>A lesson that checks clean and uses the shapes.</summary>
    public static string Lesson(int number)
    {
        var text = Language.Lessons.Write(Lengths[number % Lengths.Length]);
        var settings = text.IndexOf('\n', StringComparison.Ordinal) + 1;
        return string.Create(CultureInfo.InvariantCulture, $"title   Corridor {number + 1}\ntags    soak, part-{number % 7 + 1}\nuse \"../shapes.chl\"\n{text[settings..]}\nsection Shared {number + 1}\n\n| Fm7\n    1 low-drop\n");
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (own)
            Directory.Delete(Folder, true);
    }
}
