// Where a command speaks and listens, so that tests can stand in for a terminal.
using System.Text;

namespace ChordLang.Server.Cli;

/// <summary>The three streams of a command.</summary>
/// <param name="Out">Findings and results.</param>
/// <param name="Error">Progress and trouble.</param>
/// <param name="In">Standard input, opened when first asked for.</param>
/// <param name="Colour">True where colours may be used: on a terminal, and not where NO_COLOR is set.</param>
internal sealed record Terminal(TextWriter Out, TextWriter Error, Func<Stream> In, bool Colour)
{
    /// <summary>Standard output as bytes, for messages that frame themselves; nothing else may write to <see cref="Out"/> then.</summary>
    public Func<Stream> RawOut { get; init; } = () => throw new MisuseException("there is no standard output to serve on.");

    /// <summary>True where standard error is a terminal whose last line can be written anew: there, and only there, it is shown how far some work is.</summary>
    public bool ShowsProgress { get; init; }

    /// <summary>The streams of this process. UTF-8 without byte order mark, \n as line end.</summary>
    public static Terminal OfProcess()
    {
        var utf8 = new UTF8Encoding(false);
        return new(
            new StreamWriter(Console.OpenStandardOutput(), utf8, 1 << 16) { NewLine = "\n" },
            new StreamWriter(Console.OpenStandardError(), utf8, 1 << 10) { NewLine = "\n", AutoFlush = true },
            Console.OpenStandardInput,
            !Console.IsOutputRedirected && Environment.GetEnvironmentVariable("NO_COLOR") is null or "")
        {
            RawOut = Console.OpenStandardOutput,
            ShowsProgress = !Console.IsErrorRedirected && Environment.GetEnvironmentVariable("TERM") is not (null or "" or "dumb") || OperatingSystem.IsWindows() && !Console.IsErrorRedirected,
        };
    }

    /// <summary>Text of a file made harmless: a control character cannot steer the terminal.</summary>
    public static string Harmless(string text)
    {
        if (!text.Any(Dangerous))
            return text;
        var safe = new StringBuilder();
        foreach (var c in text)
            safe.Append(Dangerous(c) ? '\uFFFD' : c);
        return safe.ToString();
    }

    /// <summary>Prints a JSON document.</summary>
    public void Json(string json) => Out.WriteLine(HarmlessJson(json));

    /// <summary>JSON made harmless without a change of what it says: outside of its texts there is none of these signs, but the ends of its own lines.</summary>
    public static string HarmlessJson(string json)
    {
        if (!json.Any(c => c != '\n' && Dangerous(c)))
            return json;
        var safe = new StringBuilder();
        foreach (var c in json)
            safe.Append(c != '\n' && Dangerous(c) ? $"\\u{(int)c:X4}" : c.ToString());
        return safe.ToString();
    }

    // Controls but the tab, the signs that turn the direction of writing, and those that a terminal may take for the end of a line.
    private static bool Dangerous(char c) =>
        c is < ' ' and not '\t' or >= '\u007F' and <= '\u009F' or '\u061C' or '\u2028' or '\u2029' or '\u200E' or '\u200F' or >= '\u202A' and <= '\u202E' or >= '\u2066' and <= '\u2069';
}
