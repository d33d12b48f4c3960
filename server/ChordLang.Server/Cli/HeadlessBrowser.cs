// Prints a page to PDF through whatever browser the machine has; nothing is sent anywhere.
using System.ComponentModel;
using System.Diagnostics;
using System.Text;

namespace ChordLang.Server.Cli;

/// <summary>A browser without a window.</summary>
internal static class HeadlessBrowser
{
    /// <summary>Names the browser to use, where it is in none of the usual places.</summary>
    public const string Variable = "CHORDLANG_BROWSER";

    private static readonly string[] Names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "microsoft-edge", "microsoft-edge-stable", "msedge"];

    private static readonly string[] Places =
    [
        "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome", "/Applications/Chromium.app/Contents/MacOS/Chromium", "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
        @"C:\Program Files\Google\Chrome\Application\chrome.exe", @"C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe", @"C:\Program Files\Microsoft\Edge\Application\msedge.exe",
    ];

    private const int MostSeconds = 120;

    /// <summary>The PDF of a page.</summary>
    /// <exception cref="MisuseException">There is no browser, or it made no PDF; the message says what to do.</exception>
    public static byte[] Pdf(string page)
    {
        var browser = Find() ?? throw new MisuseException("--to pdf prints through a browser of the Chromium kind, and none was found. "
            + $"Install one, or name it in the environment variable {Variable}; or write --to sheet and print that page from any browser.");
        var folder = Directory.CreateTempSubdirectory("chordlang-").FullName;
        try
        {
            var (html, pdf) = (Path.Combine(folder, "sheet.html"), Path.Combine(folder, "sheet.pdf"));
            File.WriteAllText(html, page, new UTF8Encoding(false));
            var start = new ProcessStartInfo(browser) { RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true, UseShellExecute = false };
            foreach (var argument in (string[])["--headless", "--disable-gpu", "--no-first-run", "--disable-extensions", "--disable-background-networking", "--disable-sync",
                $"--user-data-dir={Path.Combine(folder, "profile")}", "--no-pdf-header-footer", $"--print-to-pdf={pdf}"])
                start.ArgumentList.Add(argument);
            if (!OperatingSystem.IsWindows() && Environment.UserName == "root")     // the browser refuses its sandbox to root
                start.ArgumentList.Add("--no-sandbox");
            start.ArgumentList.Add(new Uri(html).AbsoluteUri);
            Run(start, browser);
            return File.Exists(pdf) ? File.ReadAllBytes(pdf) : throw new MisuseException($"{browser} made no PDF. Try another browser in {Variable}, or print the page of --to sheet from a browser.");
        }
        finally
        {
            Remove(folder);
        }
    }

    /// <summary>The browser's path, or null where there is none.</summary>
    public static string? Find()
    {
        if (Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } named)
            return named;
        var folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries);
        var ends = OperatingSystem.IsWindows() ? ".exe" : "";
        return folders.SelectMany(f => Names.Select(n => Path.Combine(f, n + ends))).Concat(Places).FirstOrDefault(File.Exists);
    }

    private static void Run(ProcessStartInfo start, string browser)
    {
        try
        {
            using var process = Process.Start(start)!;
            process.StandardInput.Close();
            // Both streams are read, for a full pipe would stop the browser.
            var (output, error) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
            if (!process.WaitForExit(TimeSpan.FromSeconds(MostSeconds)))
            {
                process.Kill(true);
                throw new MisuseException($"{browser} did not answer within {MostSeconds} seconds. Print the page of --to sheet from a browser.");
            }
            Task.WaitAll([output, error], TimeSpan.FromSeconds(5));
        }
        catch (Win32Exception e)
        {
            throw new MisuseException($"{browser} cannot be started: {e.Message}. Name another browser in {Variable}, or print the page of --to sheet.");
        }
    }

    // The browser may hold files of its profile a moment longer; what stays is in the system's folder for such files.
    private static void Remove(string folder)
    {
        try
        {
            Directory.Delete(folder, true);
        }
        catch (IOException)
        {
        }
        catch (UnauthorizedAccessException)
        {
        }
    }
}
