// A text after edits is the text read afresh: its lines, its findings, its harmony, and the documents that the server keeps.
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Placing;
using ChordLang.Checks.Catalogue;
using ChordLang.Features.Lessons;
using ChordLang.Fuzz.Generating;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Interchange.Sheet;
using ChordLang.Server.Lsp;
using ChordLang.Server.Lsp.Protocol;
using ChordLang.Testing;

namespace ChordLang.Fuzz.Targets;

internal static class EditTargets
{
    private const string Uri = "untitled:lesson";
    private const int MostEdits = 8;

    public static Target[] All { get; } =
    [
        new("edit-lines", "lines, tokens and findings of the parser after edits equal those of a fresh parse", 90, d => Make(d, Texts.Any(d)), Lines) { Traps = Texts.Traps().Select(t => Parts.Join(t, $"{t.Length / 2}:0: 2 D4\n|")) },
        new("edit-lesson", "findings and harmony after edits equal those of a fresh lesson, in features and in the server's documents", 2, d => Make(d, Long(d)), Lesson),
        new("edit-sheet", "music, placement and live sheet after edits, taken over from the version before, equal those of a fresh text", 4, d => Make(d, Long(d)), Sheet),
    ];

    // The text, then edits: where, how much, what instead.
    private static string Make(Dice dice, string text) =>
        Parts.Join([text, .. Enumerable.Range(0, 1 + dice.Next(4)).Select(_ => $"{dice.Next(text.Length + 1)}:{(dice.One(2) ? dice.Next(30) : dice.Next(3))}:{(dice.One(4) ? "" : dice.One(3) ? Pieces.Line(dice) + "\n" : dice.Of(dice.One(5) ? Odds.Characters : Odds.Tokens))}")]);

    // A long piece is not bound whole after an edit, so some are long.
    private static string Long(Dice dice)
    {
        var text = dice.One(3) ? Texts.Any(dice) : Texts.Good(dice);
        return dice.One(4) ? string.Concat(Enumerable.Range(0, 3 + dice.Next(4)).Select(_ => Texts.Good(dice))) : text;
    }

    private static (string Text, List<TextEdit> Edits) Read(string input)
    {
        var parts = Parts.Of(input, 2);
        var (length, edits) = (parts[0].Length, new List<TextEdit>());
        foreach (var part in parts[1..].Take(MostEdits))
        {
            var fields = part.Split(':', 3);
            var at = Number(fields[0]) % (length + 1);
            var count = fields.Length > 1 ? Number(fields[1]) % (length - at + 1) : 0;
            edits.Add(new(new(at, count), fields[^1]));
            length += fields[^1].Length - count;
        }
        return (parts[0], edits);
    }

    private static int Number(string text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : text.Length;

    private static string? Lines(string input)
    {
        var (text, edits) = Read(input);
        var cache = new LineCache();
        var tree = SyntaxTree.Parse(SourceText.From(text), cache);
        foreach (var edit in edits)
        {
            var old = tree;
            tree = tree.With(edit, out var changed, cache);
            text = string.Concat(text.AsSpan(0, edit.Span.Start), edit.NewText, text.AsSpan(edit.Span.End));
            if (old.Lines.Length - changed.Old + changed.New != tree.Lines.Length)
                return "the lines that are said to have changed do not add up";
            if (Differs(tree, text) is { } trouble)
                return trouble;
        }
        return null;
    }

    private static string? Differs(SyntaxTree tree, string text)
    {
        var fresh = SyntaxTree.Parse(text);
        if (tree.Source.Text != text || !tree.Source.Lines.SequenceEqual(fresh.Source.Lines))
            return "the text or its lines differ";
        for (var i = 0; i < fresh.Lines.Length; i++)
        {
            var (a, b) = (tree.Lines[i], fresh.Lines[i]);
            if (a.GetType() != b.GetType() || a.Text != b.Text || !a.Tokens.SequenceEqual(b.Tokens) || !a.Findings.Select(Said).SequenceEqual(b.Findings.Select(Said)))
                return $"line {i + 1} differs: {a.Text}";
        }
        return tree.Heads.SequenceEqual(fresh.Heads) ? Meaning.Of(tree).SequenceEqual(Meaning.Of(fresh)) ? null : "the meaning differs" : "the lines that are neither music nor words differ";
    }

    private static string Said(SyntaxFinding f) => $"{f.Code} {f.Span} {f.Message} {string.Join('|', f.Fixes.Select(x => x.Title + string.Concat(x.Edits)))}";

    private static string? Lesson(string input)
    {
        var (text, edits) = Read(input);
        var encoding = (PositionEncoding)(text.Length % 3);
        var documents = new Documents(encoding);
        documents.Open(Uri, 1, text);
        var (memory, tree) = (new LessonMemory(), SyntaxTree.Parse(text));
        // A document without a path has a library that opens nothing; the others get the same one.
        var library = documents.Find(Uri)!.Lesson.Library;
        var known = KnownFindings.Of(new Lesson(tree, library).Findings);
        for (var i = 0; i < edits.Count; i++)
        {
            var edit = Whole(text, edits[i]);
            var range = new TextRange(Position(text, edit.Span.Start, encoding), Position(text, edit.Span.End, encoding));
            documents.Change(Uri, i + 2, [new ContentChange(edit.NewText, range)]);
            var before = tree;
            tree = tree.With(edit, out var changed);
            known = known.After(edit, changed, before, tree);
            text = tree.Source.Text;
            var (lesson, fresh) = (new Lesson(tree, library, memory: memory), new Lesson(SyntaxTree.Parse(text), library));
            if (Inside(known.Now(lesson, l => LessonWindow.Of(lesson, l)), text) is { } outside)
                return $"said at once after edit {i + 1}: {outside}";
            var document = documents.Find(Uri)!;
            if (document.Text.Text != text)
                return $"the server keeps another text after edit {i + 1}: {document.Text.Text}";
            if (Inside(document.FindingsNow, text) is { } there)
                return $"the server at once after edit {i + 1}: {there}";
            var said = fresh.Findings.Select(Said).ToList();
            foreach (var (who, other) in (IEnumerable<(string, Lesson)>)[("the features", lesson), ("the server", document.Lesson)])
            {
                if (!other.Findings.Select(Said).SequenceEqual(said))
                    return $"{who} find otherwise after edit {i + 1}:\n{string.Join('\n', other.Findings.Select(Said).Except(said))}\nnot\n{string.Join('\n', said.Except(other.Findings.Select(Said)))}";
                if (Harmony(other) is var heard && heard != Harmony(fresh))
                    return $"{who} hear otherwise after edit {i + 1}: {heard} not {Harmony(fresh)}";
            }
        }
        return null;
    }

    private static string? Sheet(string input)
    {
        var (text, edits) = Read(input);
        var (memory, tree) = (new BindingMemory(), SyntaxTree.Parse(text));
        var (placed, live) = ((PlacedPiece?)null, (LiveSheet?)null);
        for (var i = 0; ; i++)
        {
            var (piece, fresh) = (Binder.Bind(tree, memory: memory), Binder.Bind(SyntaxTree.Parse(tree.Source.Text)));
            if (SameValues.Differ(fresh, piece, typeof(SyntaxTree)) is { } bound)
                return $"bound otherwise after edit {i}: piece{bound}";
            placed = PlacedPiece.Of(piece, piece.Settings.Hand, before: placed);
            var anew = PlacedPiece.Of(fresh, fresh.Settings.Hand);
            if (SameValues.Differ(anew.Events, placed.Events) is { } other)
                return $"placed otherwise after edit {i}: events{other}";
            live = LiveSheet.Of(piece, placed, new(), live);
            if (SameValues.Differ(LiveSheet.Of(fresh, anew, new()).Parts, live.Parts) is { } drawn)
                return $"drawn otherwise after edit {i}: parts{drawn}";
            if (i == edits.Count)
                return null;
            tree = tree.With(Whole(tree.Source.Text, edits[i]), out _);
        }
    }

    private static string? Inside(ImmutableArray<Finding> findings, string text)
    {
        foreach (var f in findings)
            if (f.Code == CheckFailed.Name || f.Span.Start < 0 || f.Span.End > text.Length || f.Fixes.Any(x => x.Edits.Any(e => e.Span.Start < 0 || e.Span.End > text.Length)) || f.Related.Any(r => r.Path is null && r.Span.End > text.Length))
                return $"{f.Code} broke down or lies outside the text: {f.Message}";
        return null;
    }

    private static string Said(Finding f) =>
        $"{f.Code} {f.Severity} {f.Bar}:{f.Count} {f.Span} {f.Message} {string.Join(',', f.Strings)} {string.Join('|', f.Related)} {string.Join('|', f.Fixes.Select(x => $"{x.Title}{x.Safe}{string.Concat(x.Edits)}"))}";

    private static string Harmony(Lesson lesson) =>
        $"{string.Join(',', lesson.Harmony.Keys.Spans.Select(s => $"{s.FromBar} {s.Key} {s.Given}"))}; {string.Join(',', lesson.Harmony.Functions.Select((f, i) => $"{lesson.Harmony.Written.Places[i].Span} {f.Numeral} {f.Function}"))}";

    // A client's place never lies inside a character or a line end. An edit widened so shortens the text for those after it.
    private static TextEdit Whole(string text, TextEdit edit)
    {
        bool Within(int at) => at > 0 && at < text.Length && (char.IsLowSurrogate(text[at]) && char.IsHighSurrogate(text[at - 1]) || text[at] == '\n' && text[at - 1] == '\r');
        var (from, to) = (Math.Min(edit.Span.Start, text.Length), Math.Min(edit.Span.End, text.Length));
        from -= Within(from) ? 1 : 0;
        to += Within(to) ? 1 : 0;
        return new(Span.Between(from, to), edit.NewText);
    }

    // Counted here anew and simply, so that the server is not held against itself.
    private static TextPosition Position(string text, int offset, PositionEncoding encoding)
    {
        var (line, start) = (0, 0);
        for (var i = 0; i < offset; i++)
            if (text[i] == '\n' || text[i] == '\r' && (i + 1 >= text.Length || text[i + 1] != '\n'))
                (line, start) = (line + 1, i + 1);
        var before = text[start..offset];
        return new(line, encoding switch { PositionEncoding.Utf8 => Encoding.UTF8.GetByteCount(before), PositionEncoding.Utf32 => before.EnumerateRunes().Count(), _ => before.Length });
    }
}
