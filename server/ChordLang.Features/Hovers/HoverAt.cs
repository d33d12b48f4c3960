// The way into hovers: finds what stands under the cursor and lets it be explained.
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Hovers;

/// <summary>Explains what stands at a place.</summary>
public static class HoverAt
{
    /// <summary>The explanation, or null where nothing stands (blanks, prose, plain comments).</summary>
    /// <param name="lesson">The lesson.</param>
    /// <param name="offset">An offset of its text; between two tokens the one that begins there counts.</param>
    public static HoverText? Of(Lesson lesson, int offset)
    {
        var line = lesson.Text.LineAt(offset);
        var column = offset - lesson.Text.Lines[line].Start;
        var syntax = lesson.Tree.Lines[line];
        if (TokenAt(syntax, column) is not { } token)
            return null;
        var span = lesson.Tree.Absolute(line, token.Span);
        return syntax switch
        {
            ChartLine => ChartHover.Of(lesson, line, token, column),
            RowLine => RowHover.Of(lesson, line, token, offset),
            SettingLine setting => SettingHover.Of(lesson, line, setting, span),
            SectionLine section => NameHover.Section(lesson, line, section, span),
            ShapeLine shape => NameHover.ShapeLine(lesson, line, shape, token),
            UseLine use => NameHover.Use(lesson, use, span),
            FormLine form => NameHover.Form(form, span),
            ExpectLine expect => NameHover.Expect(lesson, expect, span),
            CommentLine { Allow: { } allow } => NameHover.Allow(allow, span),
            MergeMarkerLine => HoverText.Of(span, "Here a merge was not finished: two versions of the music stand one after the other."),
            _ => null,
        };
    }

    /// <summary>The token under a column, the later one where two touch; null on blanks.</summary>
    internal static Token? TokenAt(LineSyntax line, int column)
    {
        Token? found = null;
        foreach (var token in line.Tokens)
            if (token.Span.Start > column)
                break;
            else if (token.Span.Touches(column))
                found = token;
        return found;
    }

    /// <summary>What to say of a token that could not be read.</summary>
    internal static HoverText Unread(Lesson lesson, int line, Span span)
    {
        var finding = lesson.Findings.FirstOrDefault(f => f.Span.Start <= span.End && span.Start <= f.Span.End);
        return HoverText.Of(span, finding is null ? $"\"{lesson.Text[span]}\" could not be read in line {line + 1}." : finding.Message);
    }
}
