// Sound through a synthesiser that is installed, if there is one; nothing is brought along and nothing plays by itself.
using System.Diagnostics;

namespace ChordLang.Server.Workspace;

/// <summary>Finds and calls FluidSynth with a sound font.</summary>
internal static class Synthesiser
{
    private const string Program = "fluidsynth";

    // Where distributions put sound fonts (Filesystem of Debian, Fedora, Arch; from memory).
    private static readonly string[] Folders = ["/usr/share/sounds/sf2", "/usr/share/soundfonts", "/usr/share/sounds/sf3", "/usr/local/share/soundfonts"];

    /// <summary>Writes a MIDI file as sound; null where it worked, else why not and what to do.</summary>
    /// <param name="midi">The MIDI file.</param>
    /// <param name="font">The sound font asked for, or null for the first that is installed.</param>
    /// <param name="path">Where the sound is written.</param>
    /// <param name="folders">Where programs are looked for: the value of PATH.</param>
    public static string? Write(byte[] midi, string? font, string path, string? folders)
    {
        var program = (folders ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .SelectMany(f => (string[])[Path.Combine(f, Program), Path.Combine(f, Program + ".exe")]).FirstOrDefault(File.Exists);
        if (program is null)
            return "there is no synthesiser here: install FluidSynth so that fluidsynth is on the PATH, or write --to midi and play that";
        if (font is not null && !File.Exists(font))
            return $"there is no sound font {font}";
        font ??= Folders.Where(Directory.Exists).SelectMany(f => Directory.EnumerateFiles(f)).Where(f => Path.GetExtension(f) is ".sf2" or ".sf3").Order(StringComparer.Ordinal).FirstOrDefault();
        if (font is null)
            return "there is no sound font here: install one that knows General MIDI, or name it with --sound-font FILE.sf2";
        var folder = Directory.CreateTempSubdirectory("chordlang-");
        try
        {
            var file = Path.Combine(folder.FullName, "piece.mid");
            File.WriteAllBytes(file, midi);
            using var process = Process.Start(new ProcessStartInfo(program, ["-ni", "-q", "-r", "44100", "-F", path, font, file]) { RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true });
            if (process is null)
                return "the synthesiser does not start";
            process.StandardInput.Close();
            var said = process.StandardError.ReadToEndAsync();
            process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0 && File.Exists(path) ? null : $"the synthesiser failed: {said.Result.Trim().Split('\n')[^1]}";
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or System.ComponentModel.Win32Exception)
        {
            return $"the synthesiser cannot be called: {e.Message.TrimEnd('.')}";
        }
        finally
        {
            folder.Delete(true);
        }
    }
}
