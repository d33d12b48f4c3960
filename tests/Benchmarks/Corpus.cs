// Texts of a wanted length: a lesson that checks clean, and files for the servers of other languages that ours is measured against.
using System.Globalization;
using System.Text;

namespace ChordLang.Benchmarks;

/// <summary>A language as a server is measured on it.</summary>
/// <param name="Id">The protocol's language id.</param>
/// <param name="Extension">Of its files.</param>
/// <param name="Write">Writes a clean text of about so many lines.</param>
/// <param name="Editable">True for a line at whose end a blank does no harm.</param>
/// <param name="Slip">A sign that is an error at the end of such a line.</param>
internal sealed record Language(string Id, string Extension, Func<int, string> Write, Func<string, bool> Editable, char Slip)
{
    /// <summary>ChordLang.</summary>
    public static Language Lessons { get; } = new("chordlang", ".chl", Lesson, l => l.StartsWith("    1 ", StringComparison.Ordinal), '@');

    /// <summary>JSON.</summary>
    public static Language Json { get; } = new("json", ".json", Records, l => l.EndsWith(',') && l.Contains(':', StringComparison.Ordinal), '@');

    /// <summary>C.</summary>
    public static Language C { get; } = new("c", ".c", Functions, l => l.EndsWith(';') && l.StartsWith("    ", StringComparison.Ordinal), '@');

    /// <summary>TypeScript.</summary>
    public static Language TypeScript { get; } = new("typescript", ".ts", Scripts, l => l.EndsWith(';') && l.StartsWith("  ", StringComparison.Ordinal), ')');

    // Grips of common practice in C major; the melody stands on strings that the grips leave free.
    private static readonly string[] Bars =
    [
        "| Dm7\n    1 x-5-7-5-6-x\n    3 x-5-7-5-6-x",
        "| G7\n    1 3-x-3-4-3-x\n    3& 3-x-3-4-3-x",
        "| Cmaj7\n    1 x-3-5-4-5-x\n    2& x-3-5-4-5-x  4 x-3-5-4-5-x",
        "| Am7\n    1 5-x-5-5-5-x\n    3 5-x-5-5-5-x",
        "| Fmaj7\n    1 1-x-2-2-1-x",
        "| Em7\n    1 x-7-9-7-8-x\n    3 x-7-9-7-8-x",
        "| Dm7 3 G7\n    1 x-5-7-5-6-x  3 x-10-9-10-8-x",
        "| Cmaj7\n    1 x-3-5-4-5-x ring\n> Let it ring, and listen to the third on top.",
    ];

    private static string Lesson(int lines)
    {
        var text = new StringBuilder("title   Long Corridor\nkey     C major\nmeter   4/4\ntempo   90\n");
        var count = 4;
        for (var bar = 0; count < lines; bar++)
        {
            if (bar % 32 == 0)
            {
                text.Append(CultureInfo.InvariantCulture, $"\nsection Part {bar / 32 + 1}\n\n");
                count += 3;
            }
            text.Append(Bars[bar % Bars.Length]).Append('\n');
            count += Bars[bar % Bars.Length].Count(c => c == '\n') + 1;
        }
        return text.ToString();
    }

    private static string Records(int lines) => "[\n" + string.Join(",\n", Enumerable.Range(0, lines / 7).Select(i =>
        string.Create(CultureInfo.InvariantCulture, $"  {{\n    \"id\": {i},\n    \"name\": \"rate-{i}\",\n    \"enabled\": true,\n    \"ratio\": {i % 9}.5,\n    \"tags\": [\"a\", \"b\"]\n  }}"))) + "\n]\n";

    private static string Functions(int lines) => string.Concat(Enumerable.Range(0, lines / 9).Select(i =>
        string.Create(CultureInfo.InvariantCulture, $"static int step_{i}(int a, int b)\n{{\n    int sum = a * {i % 7 + 1} + b;\n    for (int k = 0; k < {i % 9 + 2}; k++) {{\n        sum += k ^ b;\n    }}\n    return sum;\n}}\n\n"))) + "int main(void)\n{\n    return step_0(1, 2);\n}\n";

    private static string Scripts(int lines) => "export {};\n" + string.Concat(Enumerable.Range(0, lines / 9).Select(i =>
        string.Create(CultureInfo.InvariantCulture, $"export function step_{i}(x: {{ a: number }}, k: number): number {{\n  let sum = x.a * {i % 7 + 1} + k;\n  for (let j = 0; j < k; j++) {{\n    sum += j ^ k;\n  }}\n  console.log(sum);\n  return sum;\n}}\n\n")));
}
