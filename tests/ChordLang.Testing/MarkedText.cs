// Text that carries its own expectations: a line of carets says what should be found in the line above it.
using System.Collections.Immutable;
using System.Text.RegularExpressions;

namespace ChordLang.Testing;

/// <summary>An expectation: a stretch of text, the name of the finding and, where given, words of its message.</summary>
/// <param name="Start">Offset in the text without marks.</param>
/// <param name="Length">Length of the stretch.</param>
/// <param name="Code">Name of the finding.</param>
/// <param name="Words">Part of its message, or empty.</param>
public sealed record Mark(int Start, int Length, string Code, string Words);

/// <summary>A text and the marks taken out of it. A mark is a line of blanks, carets and <c>name</c> or <c>name: words of the message</c>.</summary>
/// <param name="Text">The text without marks.</param>
/// <param name="Marks">The marks, in order.</param>
public sealed partial record MarkedText(string Text, ImmutableArray<Mark> Marks)
{
    /// <summary>Reads a marked text with \n line ends.</summary>
    public static MarkedText Read(string marked)
    {
        var (text, marks, above) = ("", ImmutableArray.CreateBuilder<Mark>(), 0);
        var lines = marked.Split('\n');
        for (var i = 0; i < lines.Length; i++)
        {
            if (MarkLine().Match(lines[i]) is { Success: true } m)
            {
                marks.Add(new(above + m.Groups[1].Length, m.Groups[2].Length, m.Groups[3].Value, m.Groups[4].Value.Trim()));
                continue;
            }
            above = text.Length;
            text += lines[i] + (i < lines.Length - 1 ? "\n" : "");
        }
        return new(text, marks.ToImmutable());
    }

    /// <summary>The fences of a Markdown page under a heading such as <c>Wrong</c>.</summary>
    public static ImmutableArray<string> Fences(string page, string heading)
    {
        var fences = ImmutableArray.CreateBuilder<string>();
        var (within, fence) = (false, (List<string>?)null);
        foreach (var line in page.Split('\n'))
            if (fence is not null && line.StartsWith("```", StringComparison.Ordinal))
            {
                fences.Add(string.Join('\n', fence) + "\n");
                fence = null;
            }
            else if (fence is not null)
                fence.Add(line);
            else if (line.StartsWith("## ", StringComparison.Ordinal))
                within = line[3..].Trim() == heading;
            else if (within && line.StartsWith("```chl", StringComparison.Ordinal))
                fence = [];
        return fences.ToImmutable();
    }

    [GeneratedRegex(@"^(\s*)(\^+) +([a-z]+(?:-[a-z]+)*)(?:: *(.*))?$")]
    private static partial Regex MarkLine();
}
