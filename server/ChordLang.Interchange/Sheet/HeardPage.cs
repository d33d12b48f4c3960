// What a page that can be heard has more than one that cannot: words in the margin of each line, the music as data, the script.
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using ChordLang.Arrangement.Music;

namespace ChordLang.Interchange.Sheet;

/// <summary>The parts of a page that sounds when it is asked to. The script is made by <c>editor-client/build.mjs sound</c>.</summary>
internal static class HeardPage
{
    private static readonly Lazy<string> Text = new(Read);

    /// <summary>The script.</summary>
    public static string Script => Text.Value;

    /// <summary>What the page's policy says of the script: this one and no other.</summary>
    public static string Policy => $"script-src 'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(Script)))}'; ";

    /// <summary>Where the page says what it does, for screen readers.</summary>
    public const string Said = "<p id=\"said\" class=\"spoken\" role=\"status\"></p>\n";

    /// <summary>The music and the script, to stand at the end of the page.</summary>
    public static string End(PlayedThrough played) => $"<script type=\"application/json\" id=\"heard\">{played.Json()}</script>\n<script>{Script}</script>\n";

    /// <summary>The words beside a line. Hidden until the script is at work: without it they would promise what they cannot do.</summary>
    public static string Margin(Piece piece, int first, int last, SheetOptions options, ImmutableArray<string> voices)
    {
        var words = new StringBuilder($"<div class=\"hear\" role=\"group\" aria-label=\"Hear {Lower(SheetPage.Bars(piece, first, last))}\" data-first=\"{first}\" data-last=\"{last}\" hidden>\n");
        Word(words, "Hear from here", "from");
        var one = first == last;
        Word(words, one ? "Hear this bar again" : "Hear these bars again", "again");
        foreach (var bar in Enumerable.Range(first, last - first + 1).Where(b => options.Practise.Contains(piece.Bars[b].Number)))
            Word(words, Practise(piece.Bars[bar]), "again", $" data-first=\"{bar}\" data-last=\"{bar}\"");
        if (!one)
        {
            words.Append("<details><summary>One bar again</summary>\n");
            for (var bar = first; bar <= last; bar++)
                Word(words, $"Hear {Name(piece.Bars[bar])} again", "again", $" data-first=\"{bar}\" data-last=\"{bar}\"");
            words.Append("</details>\n");
        }
        Word(words, "Slower", "slower");
        Word(words, "Count me in", "count", " aria-pressed=\"false\"");
        foreach (var voice in voices.Where(_ => voices.Length > 1))
            Word(words, $"Leave out {(voice.All(char.IsAsciiDigit) ? "voice " : "")}{voice}", "voice", $"{Markup.Attribute("data-voice", voice)} aria-pressed=\"false\"");
        return words.Append("</div>\n").ToString();
    }

    /// <summary>The words that offer a bar for practice.</summary>
    public static string Practise(Bar bar) => $"Practise {Name(bar)}";

    private static string Name(Bar bar) => bar.Number == 0 ? "the pickup" : $"bar {bar.Number}";

    private static string Lower(string bars) => char.ToLowerInvariant(bars[0]) + bars[1..];

    private static void Word(StringBuilder words, string says, string does, string data = "") =>
        words.Append($"<button type=\"button\" data-hear=\"{does}\"{data}>{Markup.Escape(says)}</button>\n");

    private static string Read()
    {
        using var stream = typeof(HeardPage).Assembly.GetManifestResourceStream("hear.js") ?? throw new InvalidOperationException("no script hear.js");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd().Replace("\r\n", "\n", StringComparison.Ordinal);
    }
}
