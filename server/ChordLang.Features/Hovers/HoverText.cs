// What a hover says: a first sentence that can be read aloud, then more, then a diagram in plain signs.
using System.Collections.Immutable;
using System.Text;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Hovers;

/// <summary>An explanation of what stands at a place.</summary>
/// <param name="Span">What is explained, in offsets of the text.</param>
/// <param name="First">A plain sentence.</param>
/// <param name="More">More sentences, one a line.</param>
/// <param name="Diagram">The grip to be shown, or null.</param>
public sealed record HoverText(Span Span, string First, ImmutableArray<string> More, FretDiagram? Diagram = null)
{
    /// <summary>A hover of one sentence and those that follow it.</summary>
    public static HoverText Of(Span span, string first, params IEnumerable<string?> more) => new(span, first, [.. more.OfType<string>().Where(m => m.Length > 0)]);

    /// <summary>As Markdown.</summary>
    /// <param name="picture">True to draw the grip, behind the first sentence as hovers are cut off below; false to write it in plain signs at the end.</param>
    public string Markdown(bool picture = false)
    {
        var text = new StringBuilder(Escaped(First));
        if (Diagram is not null && picture)
            text.Append("\n\n![").Append("The grip ").Append(Diagram.Voicing).Append("](data:image/svg+xml;base64,").Append(Convert.ToBase64String(Encoding.UTF8.GetBytes(FretPicture.Svg(Diagram)))).Append(')');
        foreach (var more in More)
            text.Append("\n\n").Append(Escaped(more));
        if (Diagram is not null && !picture)
            text.Append("\n\n```text\n").Append(Diagram.Signs()).Append("\n```");
        return text.ToString();
    }

    /// <summary>As plain text.</summary>
    public string Plain() => string.Join('\n', More.Prepend(First).Concat(Diagram is null ? [] : ["", Diagram.Signs()]));

    // Titles and prose may hold anything; nothing of it may be read as Markdown, nor be made a link because it looks like one, nor turn the direction of writing.
    private static string Escaped(string text)
    {
        var escaped = new StringBuilder(text.Length);
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            if (IsMarkdown(text, i))
                escaped.Append('\\');
            escaped.Append(c is '\n' or '\r' ? ' ' : Turns(c) || char.IsControl(c) && c != '\t' ? '\uFFFD' : c);
        }
        return escaped.ToString();
    }

    // The signs of CommonMark 0.31 that mean something within a line or at its beginning, and the ways in which bare addresses become links (GitHub Flavored Markdown 6.9).
    private static bool IsMarkdown(string text, int at) => text[at] switch
    {
        '\\' or '`' or '*' or '_' or '[' or ']' or '<' or '>' or '~' or '@' => true,
        '&' => at + 1 < text.Length && (char.IsAsciiLetter(text[at + 1]) || text[at + 1] == '#'),
        ':' => at + 1 < text.Length && !char.IsWhiteSpace(text[at + 1]),
        '.' => at >= 3 && text.AsSpan(at - 3, 3).Equals("www", StringComparison.OrdinalIgnoreCase) || at > 0 && text.AsSpan(0, at).TrimStart().IndexOfAnyExceptInRange('0', '9') < 0,
        '#' or '+' or '-' or '=' or ')' or '|' => text.AsSpan(0, at).TrimStart() is var before && (before.IsEmpty || text[at] == ')' && before.IndexOfAnyExceptInRange('0', '9') < 0),
        _ => false,
    };

    private static bool Turns(char c) => c is '\u061C' or '\u200E' or '\u200F' or >= '\u202A' and <= '\u202E' or >= '\u2066' and <= '\u2069' or '\u2028' or '\u2029';
}
