// A library of 5,000 lessons: checked from a cold and a warm disk, on one core and on all, and read by the server.
using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;

namespace ChordLang.Benchmarks;

/// <summary>Measures work on many files.</summary>
internal static class LibraryFigures
{
    private const int Lessons = 5000, FewLessons = 200, Lines = 60, Broken = 50, InAFolder = 100, Rounds = 3, DontNeed = 4;
    private const string Slip = "\nsection Slip\n\n| Cm7\n    1 x-3-5-4-5-x\n    5 x-3-5-4-5-x\n";

    /// <summary>Measures, tells, and writes the table where a file is named; 1 where one core and all do not say the same.</summary>
    public static int Run(Options options)
    {
        var folder = Directory.CreateTempSubdirectory("chordlang-library-").FullName;
        try
        {
            var lessons = options.Short ? FewLessons : Lessons;
            Write(folder, lessons);
            List<string> check = [.. options.Program, "check", "."], one = OnOneCore(check);
            var cold = new List<ProgramRun>();
            var (warm, alone) = (new List<ProgramRun>(), new List<ProgramRun>());
            for (var i = 0; i < (options.Short ? 1 : Rounds); i++)
            {
                Forget(folder);
                cold.Add(ProgramRun.Of(check, folder));
                // By turns: a neighbour's build slows both alike.
                warm.Add(ProgramRun.Of(check, folder));
                alone.Add(ProgramRun.Of(one, folder));
            }
            var half = Half(options, folder);
            var (first, index) = Index(options, folder, lessons);
            if (cold[0].Code != 1)
                throw new InvalidOperationException($"The check of the library ended with {cold[0].Code}, and should have found the slips.");
            var same = cold.Concat(warm).Concat(alone).Select(r => (r.Code, r.Out)).Distinct().Count() == 1;
            var text = new StringBuilder();
            text.Append(CultureInfo.InvariantCulture, $"{lessons:N0} lessons of {Lines} lines in {lessons / InAFolder} folders, one in {Broken} with a slip; the program is {options.Kind}; median of {cold.Count}.\n\n| | ms | peak memory, MB |\n|---|---:|---:|\n");
            text.Append(Told("check, cold (the files are not in memory)", cold)).Append(Told("check, warm", warm)).Append(Told("check, warm, on one core", alone)).Append(Told("check, warm, half of the lessons", [half]));
            text.Append(CultureInfo.InvariantCulture, $"| the server reads the library, from its start | {index.Milliseconds:0} | {index.Megabytes:0} |\n| … and answers for a lesson opened meanwhile, from its opening | {first:0} | |\n");
            text.Append(CultureInfo.InvariantCulture, $"\nAll {Environment.ProcessorCount} cores are {Middle(alone) / Middle(warm):0.00} times as fast as one{(same ? "; every run wrote the same, byte for byte" : ", and the runs did NOT write the same")}.\n");
            Console.WriteLine(text);
            if (options.File is { } file)
                Report.Write(file, "library", text.ToString());
            return same ? 0 : 1;
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    private static string Told(string name, List<ProgramRun> runs) => string.Create(CultureInfo.InvariantCulture, $"| {name} | {Middle(runs):0} | {runs.Max(r => r.Megabytes):0} |\n");

    private static double Middle(List<ProgramRun> runs) => new Row("", [.. runs.Select(r => r.Milliseconds)]).Median;

    private static void Write(string folder, int lessons)
    {
        // The folder says that it is a library, so that the server reads all below it.
        File.WriteAllText(Path.Combine(folder, "chordlang.json"), "{}\n");
        for (var i = 0; i < lessons; i++)
        {
            var below = Directory.CreateDirectory(Path.Combine(folder, $"shelf-{i / InAFolder:00}")).FullName;
            File.WriteAllText(Path.Combine(below, $"lesson-{i:0000}.chl"), Language.LessonOf(i, Lines) + (i % Broken == 0 ? Slip : ""));
        }
    }

    // Half as many files tell whether memory grows with the library.
    private static ProgramRun Half(Options options, string folder) =>
        ProgramRun.Of([.. options.Program, "check", .. Directory.GetDirectories(folder).Order(StringComparer.Ordinal).Where((_, i) => i % 2 == 0).Select(d => Path.GetFileName(d)!)], folder);

    private static List<string> OnOneCore(List<string> command) =>
        File.Exists("/usr/bin/taskset") ? ["/usr/bin/taskset", "-c", "0", .. command] : throw new InvalidOperationException("taskset is not here (Debian: util-linux).");

    private static (double First, ProgramRun Index) Index(Options options, string folder, int lessons)
    {
        var lesson = Path.Combine(folder, "shelf-00", "lesson-0001.chl");
        using var peer = new Peer([.. options.Program, "serve"], folder);
        peer.Initialize(false, folder);
        var opened = peer.Write(Peer.Notification("textDocument/didOpen",
            $"{{\"textDocument\":{{\"uri\":\"{new Uri(lesson).AbsoluteUri}\",\"languageId\":\"chordlang\",\"version\":1,\"text\":\"{System.Text.Json.JsonEncodedText.Encode(File.ReadAllText(lesson))}\"}}}}"));
        var first = (peer.Findings(1, TimeSpan.FromMinutes(1)) ?? throw new TimeoutException("no findings of the opened lesson")).At;
        // It looks through the whole library, so it is answered when all is read; the last lesson must be found by its section.
        var symbols = peer.Ask("workspace/symbol", $"{{\"query\":\"Part {lessons - 1}.1\"}}");
        if (symbols.Message["result"]?.AsArray().Any(s => ((string?)s?["name"])?.Contains($"Part {lessons - 1}.1", StringComparison.Ordinal) == true) != true)
            throw new InvalidOperationException("The server does not know the last lesson.");
        return (Ms(opened, first), new(Ms(peer.Started, symbols.At), peer.PeakMegabytes, 0, ""));
    }

    private static double Ms(long from, long to) => (to - from) * 1000.0 / Stopwatch.Frequency;

    // What is written is asked out of memory, file by file.
    private static void Forget(string folder)
    {
        foreach (var path in Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories))
        {
            using var file = File.Open(path, FileMode.Open, FileAccess.ReadWrite);
            file.Flush(true);
            _ = Advise(file.SafeFileHandle.DangerousGetHandle().ToInt32(), 0, 0, DontNeed);
        }
    }

    [DllImport("libc", EntryPoint = "posix_fadvise")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Advise(int file, long offset, long length, int advice);
}
