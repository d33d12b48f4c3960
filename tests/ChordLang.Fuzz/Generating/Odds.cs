// What slips into texts: words of the notation in the wrong place, signs that look alike, characters that programs trip over.
namespace ChordLang.Fuzz.Generating;

/// <summary>Lists to draw from.</summary>
internal static class Odds
{
    /// <summary>Words and signs of the notation.</summary>
    public static string[] Tokens { get; } =
    [
        "|", "||", "|:", ":|", "1", "2&", "3+2/5", "99+98/99", "0", "5", "to", "D4", "Eb", "8@2", "x-3-5-4-5-x", "x35453", "=", "is", "C7", "Cmaj7(#11)", "low-drop+7", "at", "ring", "until", "over", "rest", "tied", "again",
        "grace", "bend", "\"", "// allow hand-wide-stretch: so", ">", "(", ")", "+", "@", "top:", "repeat 2\n", "end\n", "ending 1\n", "pickup from 4&\n", "meter 7/16\n", "meter 2/4\n", "section A again\n", "section A\n",
        "expect no fret above 12\n", "\n    ", "\n| ", "%", "N.C.", "/", "tempo", "key G major\n", "strings D3 G3 B3 E4\n", "capo 3\n", "frets 12\n", "shape low-drop = 1-x-1-1-1-x\n", "use \"shapes.chl\"\n", "fingers", "finger 2",
        "<<<<<<< ours\n", "=======\n", ">>>>>>> theirs\n", "harmonic", "slide from 7@1", "dead", "fermata", "naming strict\n", "-", "–", "7", "24", "x",
    ];

    /// <summary>Parts of chord suffixes.</summary>
    public static string[] Suffixes { get; } =
    [
        "m", "-", "maj7", "M7", "Δ", "7", "9", "11", "13", "6", "6/9", "69", "m7b5", "ø", "ø7", "dim", "°7", "o7", "+", "aug", "sus4", "sus2", "sus", "add9", "(add9)", "alt", "b9", "#9", "b5", "#5", "#11", "b13", "(b9)", "(b9,#11)",
        "(b9", ")", "no3", "no5", "omit3", "(maj7)", "5", "mM7", "min7", "mi7", "♭9", "♯11", "/b9", "/9", "h7", "4", "2", "maj", "b", "#", ",", "", " ",
    ];

    /// <summary>Characters that look like others, join others, turn writing round, or are none.</summary>
    public static string[] Characters { get; } =
    [
        "\u00A0", "\u2003", "\u2028", "\u2029", "\u0085", "\v", "\f", "\0", "\u0007", "\u001B[31m", "\uFEFF", "\u200B", "\u200D", "\u200E", "\u202E", "\u2066", "\u0301", "\u0300\u0301\u0302", "“", "”", "‘", "–", "—", "−", "×", "Х", "х", "Ｃ", "１", "٣",
        "♭", "♯", "♮", "Δ", "∆", "ø", "°", "º", "𝄫", "𝄪", "𝄞", "😀", "👩‍🎤", "\uD834", "\uDD1E", "\uDC80", "\uDCFF", "\uFFFD", "\uFFFF", "ﬁ", "İ", "ı", "ß", "ſ", "é", "e\u0301", "夜", "ا", "\t", "\u007F", "\u0080", "`", "\\", "|", "&", "<", ">", "'", "]]>", "<!--",
    ];

    /// <summary>What ends a line, here or elsewhere.</summary>
    public static string[] LineEnds { get; } = ["\n", "\n", "\r\n", "\r", "\n\r", "\r\r\n", "\n\n", "\u2028", "\u0085", "\v"];

    /// <summary>Numbers at the edge of something.</summary>
    public static string[] Numbers { get; } =
        ["0", "-1", "1", "2", "7", "9", "10", "16", "24", "25", "36", "37", "64", "99", "100", "127", "128", "255", "256", "1000", "32767", "65536", "2147483647", "2147483648", "-2147483648", "4294967296", "9223372036854775807", "9223372036854775808", "99999999999999999999", "1e9", "0.5", "1/0", "00", "007", "NaN"];
}
