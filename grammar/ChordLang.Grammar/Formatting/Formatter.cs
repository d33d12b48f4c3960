// The canonical text of a file: one way to write each thing, so that a diff shows music and not habit.
using System.Collections.Immutable;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Formatting;

/// <summary>
/// Formats. Aligns the rows of a bar, writes out octaves, dashes, runs and the counts of chords, and turns phone and mail typing into plain signs.
/// Never touches music, prose, comments' words, or the spelling of chord symbols; lines that do not parse stay as they are, and no line comes or goes.
/// </summary>
public static class Formatter
{
    /// <summary>The edits that bring a text into its canonical form, one for each line that changes; line ends stay as they are.</summary>
    public static ImmutableArray<TextEdit> Format(SyntaxTree tree)
    {
        var edits = ImmutableArray.CreateBuilder<TextEdit>();
        var (counts, pickup) = (4, false);
        for (var i = 0; i < tree.Lines.Length; i++)
        {
            if (tree.Lines[i] is RowLine)
            {
                i = Rows(tree, i, edits);
                continue;
            }
            var (line, plain) = (tree.Lines[i], Plain(tree.Lines[i]));
            if ((plain ?? line) is SettingLine { Value: MeterValue meter })
                counts = meter.Counts;
            if (plain is not null)
                Change(tree, i, plain is ChartLine chart ? ChartLayout.Write(chart, counts, pickup) : Line(plain), edits);
            pickup = line is FormLine form ? form.Kind == FormKind.Pickup : pickup && line is not ChartLine;
        }
        return edits.ToImmutable();
    }

    /// <summary>The canonical text.</summary>
    public static SourceText Formatted(SourceText source) => source.With(Format(SyntaxTree.Parse(source)));

    // The rows of one bar stand together; a comment between them does not part them.
    private static int Rows(SyntaxTree tree, int first, ImmutableArray<TextEdit>.Builder edits)
    {
        List<(int Line, RowLine Row)> rows = [];
        var last = first;
        for (var i = first; i < tree.Lines.Length && tree.Lines[i] is RowLine or CommentLine; i++)
        {
            if (tree.Lines[i] is CommentLine)
                continue;
            last = i;
            if (Plain(tree.Lines[i]) is RowLine row)
                rows.Add((i, row));
        }
        var texts = rows.Count == 0 ? [] : RowLayout.Write([.. rows.Select(r => r.Row)]);
        for (var (i, r) = (first, 0); i <= last; i++)
            if (tree.Lines[i] is CommentLine comment)
                Change(tree, i, Comment(comment), edits);
            else if (r < rows.Count && rows[r].Line == i)
                Change(tree, i, texts[r++], edits);
        return last;
    }

    // A line that may be formatted, typed variants made plain; null where it does not parse.
    private static LineSyntax? Plain(LineSyntax line)
    {
        if (line.Findings.IsEmpty || line is CommentLine)
            return line;
        if (line.Findings is not [{ Code: SyntaxCodes.Typing } typing])
            return null;
        var plain = LineParser.Parse(SourceText.From(line.Text).With(typing.Fixes[0].Edits).Text);
        return plain.Findings.IsEmpty ? plain : null;
    }

    private static void Change(SyntaxTree tree, int index, string text, ImmutableArray<TextEdit>.Builder edits)
    {
        var old = tree.Lines[index].Text;
        // A byte order mark is the file's, not the line's.
        if (old.StartsWith('\uFEFF'))
            text = '\uFEFF' + text.TrimStart('\uFEFF');
        if (old == text)
            return;
        var place = tree.Source.Lines[index];
        // Between \r and \n an emptied line would vanish: the two would become one line end.
        if (text.Length == 0 && place.Start > 0 && tree.Source.At(place.Start - 1) == '\r' && place.EndLength > 0 && tree.Source.At(place.End) == '\n')
            return;
        edits.Add(new(new(place.Start, place.Length), text));
    }

    private static string Line(LineSyntax line) => line switch
    {
        BlankLine => "",
        ProseLine prose => string.IsNullOrWhiteSpace(prose.Words) ? ">" : "> " + prose.Words,
        CommentLine comment => Comment(comment),
        SettingLine setting => setting[setting.Keyword].PadRight(7) + " " + Value(setting),
        SectionLine section => $"section {section[section.Name]}{(section.Again ? " again" : "")}",
        ShapeLine { Slots: { } slots } shape => $"shape {shape[shape.Name]} = {Written.Slots(slots)}{(shape.Fingers is { } fingers ? " fingers " + Written.Fingers(fingers) : "")}",
        UseLine use => $"use \"{use.Path}\"",
        FormLine form => Form(form),
        MergeMarkerLine or UnreadableLine => line.Text,
        _ => string.Join(' ', line.Tokens.Select(t => line[t.Span])),
    };

    private static string Value(SettingLine line) => line.Value switch
    {
        TextValue text => text.Text,
        TagsValue tags => string.Join(", ", tags.Tags),
        _ => string.Join(' ', line.Tokens.Skip(1).Select(t => line[t.Span])),
    };

    // A comment keeps its place and its words.
    private static string Comment(CommentLine comment)
    {
        if (comment.Allow is not { Reason.Length: > 0 } allow)
            return comment.Text.TrimEnd();
        var indent = comment.Text[..comment.Text.IndexOf('/', StringComparison.Ordinal)];
        return $"{indent}// allow {allow.Code}: {allow.Reason}";
    }

    private static string Form(FormLine form) => form.Kind switch
    {
        FormKind.Repeat => $"repeat {form.Number}",
        FormKind.Ending => $"ending {form.Number}",
        FormKind.Pickup when form.Count is { } count => $"pickup from {CountSyntax.Write(count.Offset)}",
        _ => string.Join(' ', form.Tokens.Select(t => form[t.Span])),
    };
}
