// Every text can be checked, moved and mended: findings lie in it, fixes do what they say.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Transposing;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Configuring;
using ChordLang.Features.Actions;
using ChordLang.Fuzz.Generating;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Fuzz.Targets;

internal static class CheckTargets
{
    public static Target[] All { get; } =
    [
        new("check", "every text binds, no check breaks down, findings and fixes lie inside the text", 8, Texts.Any, Check) { Traps = Texts.Traps() },
        new("fix", "a fix leaves no more errors; a safe fix does not change the sound, and all safe fixes come to an end", 2, Texts.Any, Fix),
        new("transpose", "every text moves line by line, and by nothing it stays as it is", 6, d => Parts.Join(Texts.Any(d), $"{d.Next(49) - 24}"), Move),
        new("configuration", "a configuration is read or its troubles are told, with a line that is there", 60, Settings, Configure),
    ];

    private static Piece Bound(string text) => Binder.Bind(SyntaxTree.Parse(text));

    private static string? Check(string text)
    {
        var piece = Bound(text);
        for (var i = 1; i < piece.Bars.Length; i++)
            if (piece.Bars[i].Start != piece.Bars[i - 1].End)
                return $"bar {i + 1} does not begin where the one before ends";
        foreach (var e in piece.Events)
            if (e.Onset > e.End || e.Notes.Any(n => n.Span.Start < 0 || n.Span.End > text.Length))
                return "an event ends before it begins, or a note lies outside the text";
        foreach (var f in CheckCatalogue.Run(piece))
            if (f.Code == CheckFailed.Name)
                return f.Message;
            else if (Outside(f.Span) || f.Related.Any(r => r.Path is null && Outside(r.Span)) || f.Fixes.Any(x => x.Edits.Any(e => Outside(e.Span))) || f.Message.Length == 0)
                return $"{f.Code} or a fix of it lies outside the text: {f.Span}";
        return null;

        bool Outside(Span span) => span.Start < 0 || span.Length < 0 || span.End > text.Length;
    }

    private static string? Fix(string text)
    {
        var source = SourceText.From(text);
        var piece = Bound(text);
        var findings = CheckCatalogue.Run(piece);
        foreach (var f in findings.Take(12))
            foreach (var fix in f.Fixes.Take(3))
            {
                var mended = source.With(fix.Edits);
                if (fix.Edits.Length > 0 && mended.Text == text)
                    return $"'{fix.Title}' of {f.Code} changes nothing";
                var after = Binder.Bind(SyntaxTree.Parse(mended));
                var left = CheckCatalogue.Run(after);
                if (Errors(left, f) > Errors(findings, f))
                    return $"'{fix.Title}' of {f.Code} raises errors: {string.Join(", ", left.Where(x => x.Severity == Severity.Error).Select(x => $"{x.Code} '{mended[x.Span]}'"))} in\n{mended}";
                if (fix.Safe && !InDoubt(findings) && Sound(after) is var sound && sound != Sound(piece))
                    return $"'{fix.Title}' of {f.Code} is called safe and changes the sound:\n{Sound(piece)}\nbecame\n{sound}";
            }
        var (last, then, _) = SafeFixes.Apply(source, findings, t => CheckCatalogue.Run(Binder.Bind(SyntaxTree.Parse(t))));
        if (then.FirstOrDefault(f => f.Fixes.FirstOrDefault(x => x.Safe) is { Edits.Length: > 0 }) is { } undone)
            return $"safe fixes come to no end: {undone.Code} in\n{last}";
        return null;
    }

    // The errors that count against a fix. What was not read before is read now and may hold errors of its own, and what was tied to no sound is told, so of
    // those fixes only the same error counts; and a count, a name, or a note put right for it, leaves the hand to the checks of the hand.
    private static int Errors(ImmutableArray<Finding> found, Finding mended) => found.Count(f => f.Severity == Severity.Error
        && (Of(mended, "text-", "form-", "fret-slots", "fret-nothing-played") ? f.Code == mended.Code : !(Of(mended, "name-") && Of(f, "hand-", "fret-", "count-") || Of(mended, "count-") && Of(f, "hand-", "fret-"))));

    // Where the two sides of = differ, the chord says which of them is believed: a mended chord may believe the other.
    private static bool InDoubt(ImmutableArray<Finding> found) => found.Any(f => f.Code == "fret-sides-differ");

    private static bool Of(Finding finding, params string[] families) => families.Any(f => finding.Code.StartsWith(f, StringComparison.Ordinal));

    // What is heard, and when; not how it is written, nor on which string.
    private static string Sound(Piece piece) => string.Join('\n', piece.Events.Where(e => e.Kind == EventKind.Struck)
        .Select(e => $"{e.Onset} {string.Join(' ', e.Notes.Select(n => $"{n.Midi} {n.Onset}-{n.End}{(n.Dead ? " dead" : "")}").Order(StringComparer.Ordinal))} {e.Grace.Length}"));

    private static string? Move(string input)
    {
        var parts = Parts.Of(input, 2);
        var (text, by) = (parts[0], int.TryParse(parts[1], out var n) ? Math.Clamp(n, -24, 24) : 1);
        var piece = Bound(text);
        if (Transposition.Of(piece, IntervalChoice.By(piece, 0)) is var still && (still.Text.Text != text || still.Losses.Length > 0))
            return $"by nothing it becomes\n{still.Text}";
        var moved = Transposition.Of(piece, IntervalChoice.By(piece, by));
        if (moved.Piece.Tree.Lines.Length != piece.Tree.Lines.Length)
            return $"it has other lines:\n{moved.Text}";
        for (var i = 0; i < piece.Tree.Lines.Length; i++)
            if (piece.Tree.Lines[i] is ProseLine or CommentLine or SectionLine or FormLine or UseLine or UnreadableLine && piece.Tree.Lines[i].Text != moved.Piece.Tree.Lines[i].Text)
                return $"words became others: {moved.Piece.Tree.Lines[i].Text}";
        return moved.Losses.FirstOrDefault(l => l.Span.Start < 0 || l.Span.End > moved.Text.Text.Length) is { } loss ? $"a loss lies outside the text: {loss.Message}" : null;
    }

    private static string Settings(Dice dice) => Mutations.Text(dice, dice.Of(
        "{ \"naming\": \"strict\", \"reach\": \"5 to 9\", \"frets\": 21, \"hand\": \"small\", \"checks\": { \"name\": \"hint\", \"hand-wide-stretch\": \"off\" } }",
        "{\n  \"strings\": \"E2 A2 D3 G3 B3 E4\",\n  \"capo\": 2,\n  \"files\": { \"a/**\": { \"naming\": \"jazz\" } },\n  \"ignore\": [ \"drafts/**\" ]\n}", "[]", "null", "{}"),
        "{ \"scale-length\": \"628 mm\", \"tempo\": \"66\", \"checks\": {} }", ["\"", "{", "}", "[", "]", ",", ":", "null", "true", "\"naming\": ", "\"frets\": 40,", "//", "\\u0000", "\\ud834", "\"\"", ". "]);

    private static string? Configure(string text)
    {
        var lines = SourceText.From(text).Lines.Length;
        foreach (var read in (IEnumerable<ConfigurationFile>)[ConfigurationReader.ReadFile(text, "chordlang.json"), ConfigurationReader.ReadEditor(text)])
            foreach (var trouble in read.Troubles)
                if (trouble.Line < 0 || trouble.Line >= lines || trouble.Message.Length == 0)
                    return $"line {trouble.Line + 1} is not there: {trouble.Message}";
        return null;
    }
}
