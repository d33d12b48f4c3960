// A copy of this program whose rooms count their branches.
using SharpFuzz;

namespace ChordLang.Fuzz.Running;

/// <summary>Makes the copy.</summary>
internal static class Instrumented
{
    /// <summary>Copies this program into a folder and instruments our own rooms there; answers the path of the copy's start.</summary>
    public static string Copy(string folder)
    {
        if (Directory.Exists(folder))
            Directory.Delete(folder, true);
        foreach (var file in Directory.EnumerateFiles(AppContext.BaseDirectory, "*", SearchOption.AllDirectories))
        {
            var to = Path.Combine(folder, Path.GetRelativePath(AppContext.BaseDirectory, file));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }
        foreach (var room in Directory.EnumerateFiles(folder, "*.dll").Where(f => IsRoom(Path.GetFileNameWithoutExtension(f))))
            Fuzzer.Instrument(room, _ => true, Options.Value);
        return Path.Combine(folder, "ChordLang.Fuzz.dll");
    }

    private static bool IsRoom(string name) => name == "chordlang" || name.StartsWith("ChordLang.", StringComparison.Ordinal) && name is not ("ChordLang.Fuzz" or "ChordLang.Testing");
}
