// What a hover says: a first sentence that can be read aloud, then more, then a diagram in plain signs.
using System.Collections.Immutable;
using System.Text;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Hovers;

/// <summary>An explanation of what stands at a place.</summary>
/// <param name="Span">What is explained, in offsets of the text.</param>
/// <param name="First">A plain sentence.</param>
/// <param name="More">More sentences, one a line.</param>
/// <param name="Diagram">A picture in plain signs, or null.</param>
public sealed record HoverText(Span Span, string First, ImmutableArray<string> More, string? Diagram = null)
{
    /// <summary>A hover of one sentence and those that follow it.</summary>
    public static HoverText Of(Span span, string first, params IEnumerable<string?> more) => new(span, first, [.. more.OfType<string>().Where(m => m.Length > 0)]);

    /// <summary>As Markdown.</summary>
    public string Markdown()
    {
        var text = new StringBuilder(Escaped(First));
        foreach (var more in More)
            text.Append("\n\n").Append(Escaped(more));
        if (Diagram is not null)
            text.Append("\n\n```text\n").Append(Diagram).Append("\n```");
        return text.ToString();
    }

    /// <summary>As plain text.</summary>
    public string Plain() => string.Join('\n', More.Prepend(First).Concat(Diagram is null ? [] : ["", Diagram]));

    // Titles and prose may hold anything; nothing of it may be read as Markdown.
    private static string Escaped(string text)
    {
        var escaped = new StringBuilder(text.Length);
        foreach (var c in text)
            escaped.Append(c is '\\' or '`' or '*' or '_' or '[' or ']' or '<' or '>' ? "\\" : "").Append(c is '\n' or '\r' ? ' ' : c);
        return escaped.ToString();
    }
}
