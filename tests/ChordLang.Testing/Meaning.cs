// What a text says, without where and how it says it: two texts with one meaning are the same music.
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Testing;

/// <summary>Writes the meaning of each line, for comparing a text with what a program made of it. It shares no writer with the formatter.</summary>
public static class Meaning
{
    /// <summary>One meaning a line. Runs are taken apart, octaves worked out, chords put on their counts.</summary>
    public static IReadOnlyList<string> Of(SyntaxTree tree)
    {
        var (result, counts, pickup) = (new List<string>(tree.Lines.Length), 4, false);
        foreach (var line in tree.Lines)
        {
            if (line is SettingLine { Value: MeterValue meter })
                counts = meter.Counts;
            result.Add(line switch
            {
                BlankLine => "",
                UnreadableLine => line.Text,
                RowLine row => $"row {row.Voice} {string.Join("; ", row.Events.SelectMany(e => Event(e, OctaveReading.Of(row), row)))}",
                ChartLine chart => "chart " + string.Join(" | ", chart.Bars.Select((b, i) => Bar(chart, b, counts, pickup && i == 0))),
                SettingLine setting => $"setting {setting.Kind} {Value(setting.Value)}",
                SectionLine section => $"section {section[section.Name]} {section.Again}",
                ShapeLine shape => $"shape {shape.Called} {Slots(shape.Slots)} {string.Join(',', shape.Fingers?.Fingers ?? [])}",
                UseLine use => $"use {use.Path}",
                FormLine form => $"form {form.Kind} {form.Number} {form.Count?.Offset}",
                ExpectLine expect => $"expect {expect.Expectation?.Kind} {expect.Expectation?.Number} {string.Join(',', expect.Expectation?.Names ?? [])}",
                ProseLine prose => $"prose {(prose.Words.Trim().Length == 0 ? "" : prose.Words)}",
                CommentLine comment => $"comment {comment.Allow?.Code} {comment.Allow?.Reason} {(comment.Allow is null ? comment.Text.Trim() : "")}",
                MergeMarkerLine => line.Text,
                _ => throw new InvalidOperationException($"{line.GetType()} has no meaning yet"),
            } + string.Concat(line.Findings.Where(f => f.Code != SyntaxCodes.Typing).Select(f => $" !{f.Code}")));
            pickup = line is FormLine other ? other.Kind == FormKind.Pickup : pickup && line is not ChartLine;
        }
        return result;
    }

    private static IEnumerable<string> Event(EventSyntax e, OctaveReading octaves, RowLine row)
    {
        var offsets = RunReading.Offsets(e);
        if (e.To is not null && offsets is null)
            return [$"{e.Count.Offset} to {e.To.Offset} {string.Join(' ', e.Sounds.Select(s => Played(s, octaves, row)))}"];
        return e.Sounds.IsEmpty ? [$"{e.Count.Offset} nothing"] : e.Sounds.Select((s, i) => $"{offsets!.Value[i]} {Played(s, octaves, row)}");
    }

    private static string Played(PlayedSyntax played, OctaveReading octaves, RowLine row) =>
        $"{Sound(played.Sound, octaves)}{string.Concat(played.Marks.Select(m => $" {m.Kind}@{m.String}({Operand(m.Operand, octaves, row)})"))}";

    private static string Sound(SoundSyntax sound, OctaveReading octaves) => sound switch
    {
        NotesSound notes => string.Join('+', notes.Notes.Select(n => $"{n.Fret}{n.Pitch?.Letter}{n.Pitch?.Alteration}/{(n.Pitch is { } p ? octaves[p] : null)}@{n.String}")),
        SlotsSound slots => Slots(slots),
        ShapeSound shape => $"{shape.Name}^{shape.Shift}@{shape.At}",
        EqualSound equal => $"({Sound(equal.Left, octaves)})=({Sound(equal.Right, octaves)})",
        _ => sound.GetType().Name,
    };

    private static string Operand(OperandSyntax? operand, OctaveReading octaves, RowLine row) => operand switch
    {
        CountOperand count => $"{count.Count.Offset}",
        NotesOperand notes => Sound(notes.Notes, octaves),
        WordOperand word => word.Word,
        FingerOperand finger => $"{finger.Finger}",
        FingersOperand fingers => string.Join(',', fingers.Fingers),
        SymbolOperand symbol => $"{symbol.Symbol.Root}:{symbol.Symbol.Suffix}:{symbol.Symbol.Bass}:{row[symbol.Span]}",
        _ => "",
    };

    private static string Bar(ChartLine line, BarSyntax bar, int counts, bool pickup)
    {
        var reading = ChartReading.Of(bar, counts);
        var items = bar.Items.Select((item, i) => (Item: item, Offset: pickup ? item.Count?.Offset : reading.Offsets[i]));
        if (!pickup && reading.Blame is null && bar.Items.Any(i => i.Kind != ChartItemKind.Slash))
            items = items.Where(i => i.Item.Kind != ChartItemKind.Slash);
        return string.Join(' ', items.Select(i => $"{i.Offset}{i.Item.Kind}{(i.Item.Symbol is { } s ? $"{s.Root}:{s.Suffix}:{s.Bass}:{line[s.Span]}" : "")}"));
    }

    private static string Slots(SlotsSound? slots) => slots is null ? "none" : string.Join(',', slots.Slots.Select(s => s.Fret is { } fret ? $"{fret}" : "x"));

    private static string Value(SettingValue? value) => value switch
    {
        KeyValue key => $"{key.Tonic?.Letter}{key.Tonic?.Alteration} {key.Mode} {key.Fifths}",
        TuningValue tuning => string.Join(' ', tuning.Open.Select(p => $"{p.Letter}{p.Alteration}/{p.Octave}")),
        TagsValue tags => string.Join(',', tags.Tags),
        null => "none",
        _ => value.ToString()!,
    };
}
