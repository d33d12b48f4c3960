// Lessons of a wanted length that check clean, and what a language is to the benchmark.
using System.Globalization;
using System.Text;

namespace ChordLang.Benchmarks;

/// <summary>A language as a server is measured on it.</summary>
/// <param name="Id">The protocol's language id.</param>
/// <param name="Extension">Of its files.</param>
/// <param name="Write">Writes a clean text of about so many lines.</param>
/// <param name="Editable">True for a line at whose end a blank does no harm.</param>
/// <param name="Slip">A sign that is an error at the end of such a line.</param>
internal sealed partial record Language(string Id, string Extension, Func<int, string> Write, Func<string, bool> Editable, char Slip)
{
    /// <summary>ChordLang.</summary>
    public static Language Lessons { get; } = new("chordlang", ".chl", Lesson, l => l.StartsWith("    1 ", StringComparison.Ordinal), '@');

    /// <summary>A lesson of its own for each number, of about so many lines: other chords come first, and its title is its number.</summary>
    public static string LessonOf(int number, int lines) => Lesson(lines, number);

    // Grips of common practice in C major, one a line: a lesson of 100,000 lines stays below the 20,000 bars that are played.
    private static readonly string[] Bars =
    [
        "| Dm7\n    1 x-5-7-5-6-x\n    2 x-5-7-5-6-x\n    3 x-5-7-5-6-x\n    4 x-5-7-5-6-x",
        "| G7\n    1 3-x-3-4-3-x\n    2& 3-x-3-4-3-x\n    3& 3-x-3-4-3-x\n    4& 3-x-3-4-3-x",
        "| Cmaj7\n    1 x-3-5-4-5-x\n    2& x-3-5-4-5-x\n    3 x-3-5-4-5-x\n    4 x-3-5-4-5-x",
        "| Am7\n    1 5-x-5-5-5-x\n    2 5-x-5-5-5-x\n    3 5-x-5-5-5-x\n    4 5-x-5-5-5-x",
        "| Fmaj7\n    1 1-x-2-2-1-x\n    2 1-x-2-2-1-x\n    3 1-x-2-2-1-x\n    4& 1-x-2-2-1-x",
        "| Em7\n    1 x-7-9-7-8-x\n    2 x-7-9-7-8-x\n    3 x-7-9-7-8-x\n    4 x-7-9-7-8-x",
        "| Dm7 3 G7\n    1 x-5-7-5-6-x\n    2 x-5-7-5-6-x\n    3 x-10-9-10-8-x\n    4 x-10-9-10-8-x",
        "| Cmaj7\n    1 x-3-5-4-5-x\n    2 x-3-5-4-5-x\n    3 x-3-5-4-5-x\n    4 x-3-5-4-5-x ring\n> Let it ring, and listen to the third on top.",
    ];

    private static string Lesson(int lines) => Lesson(lines, 0);

    private static string Lesson(int lines, int number)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"title   Corridor {number}\nkey     C major\nmeter   4/4\ntempo   90\n");
        var count = 4;
        for (var bar = 0; count < lines; bar++)
        {
            if (bar % 32 == 0)
            {
                text.Append(CultureInfo.InvariantCulture, $"\nsection Part {number}.{bar / 32 + 1}\n\n");
                count += 3;
            }
            text.Append(Bars[(bar + number) % Bars.Length]).Append('\n');
            count += Bars[(bar + number) % Bars.Length].Count(c => c == '\n') + 1;
        }
        return text.ToString();
    }
}
