// Thousands of random edits with requests between them: the server's text is the client's, and each question has one answer, in its turn, of the text as it was then.
using System.Text;
using System.Text.Json.Nodes;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Lsp;

public sealed class RandomEditTests
{
    private const string Uri = "untitled:lesson";
    private const int Rounds = 50;

    private static readonly string[] Pieces =
        ["♭", "Δ", "ø", "𝄪", "𝄫4", "\n", "\r\n", "\r", "| C", " 3 B♭7", "    1 x-3-5-4-5-x", "1 D4+F♯4", "key E♭ major", "x", "@", " ", "%", "// allow name-fret-slip: é", "\uFEFF", "title ø𝄪", "section A", "is CΔ"];

    // 10,000 edits for each way of counting: 4 seeds of 50 times 50.
    [Theory]
    [InlineData("utf-16", 1)]
    [InlineData("utf-16", 2)]
    [InlineData("utf-16", 3)]
    [InlineData("utf-16", 4)]
    [InlineData("utf-8", 1)]
    [InlineData("utf-8", 2)]
    [InlineData("utf-8", 3)]
    [InlineData("utf-8", 4)]
    [InlineData("utf-32", 1)]
    [InlineData("utf-32", 2)]
    [InlineData("utf-32", 3)]
    [InlineData("utf-32", 4)]
    public async Task The_server_keeps_the_text_and_answers_each_question_once_and_in_order(string encoding, int seed)
    {
        var random = new Dice(seed);
        await using var client = await LspClient.Start($$$"""{"general":{"positionEncodings":["{{{encoding}}}"]},"textDocument":{"diagnostic":{} } }""");
        Assert.Equal(encoding, (string?)client.Capabilities["positionEncoding"]);
        var model = "| CΔ 3 B♭7\r\n    1 x-3-5-4-5-x\r";
        await client.Open(Uri, model);
        for (var (round, version) = (0, 1); round < Rounds; round++)
        {
            var asked = new List<(int Id, string Text, bool Whole)>();
            for (var i = 0; i < Rounds; i++)
            {
                (model, var change) = Edited(model, random, encoding);
                await client.Tell("textDocument/didChange", $$$"""{"textDocument":{"uri":"{{{Uri}}}","version":{{{++version}}}},"contentChanges":[{{{change}}}]}""");
                if (i % 10 == 3)
                    asked.Add((await client.Send("textDocument/hover", $$$"""{"textDocument":{"uri":"{{{Uri}}}"},"position":{"line":{{{random.Next(5)}}},"character":{{{random.Next(9)}}}}}"""), model, false));
                if (i % 25 == 7)
                    asked.Add((await client.Send("textDocument/formatting", $$$"""{"textDocument":{"uri":"{{{Uri}}}"},"options":{}}"""), model, true));
            }
            asked.Add((await client.Send("textDocument/formatting", $$$"""{"textDocument":{"uri":"{{{Uri}}}"},"options":{}}"""), model, true));
            foreach (var (id, text, whole) in asked)
            {
                var answer = await client.Until(m => m["method"] is null);
                Assert.Equal(id, (int)answer["id"]!);
                Assert.Null(answer["error"]);
                // What was asked between two edits is answered from the text between them.
                if (whole)
                    Assert.Equal(Grammar.Formatting.Formatter.Formatted(SourceText.From(text)).Text, Applied(text, answer["result"]!.AsArray(), encoding));
            }
            if (model.Length > 2000)
                model = await Shortened(client, model, ++version, encoding);
        }
    }

    private static async Task<string> Shortened(LspClient client, string model, int version, string encoding)
    {
        var text = SourceText.From(model);
        var from = text.Lines[text.Lines.Length / 4].Start;
        await client.Tell("textDocument/didChange", $$$"""{"textDocument":{"uri":"{{{Uri}}}","version":{{{version}}}},"contentChanges":[{{{Change(text, new(Span.Between(from, model.Length), ""), encoding)}}}]}""");
        return model[..from];
    }

    private static (string Text, string Change) Edited(string model, Dice random, string encoding)
    {
        if (random.Next(400) == 0)
            return (model, $$$"""{"text":{{{LspClient.Json(model)}}}}""");
        var text = SourceText.From(model);
        int Place()
        {
            var at = random.Next(model.Length + 1);
            // A client's position lies at a character of a line, never inside one, nor inside a line end.
            while (at > 0 && at < model.Length && (char.IsLowSurrogate(model[at]) || model[at] == '\n' && model[at - 1] == '\r'))
                at--;
            return at;
        }
        var (a, b) = (Place(), random.Next(3) == 0 ? Place() : -1);
        var (from, to) = b < 0 ? (a, a) : (Math.Min(a, b), Math.Min(Math.Max(a, b), Math.Min(a, b) + random.Next(30)));
        while (to < model.Length && to > 0 && (char.IsLowSurrogate(model[to]) || model[to] == '\n' && model[to - 1] == '\r'))
            to++;
        var edit = new TextEdit(Span.Between(from, to), random.Next(4) == 0 ? "" : Pieces[random.Next(Pieces.Length)]);
        return (text.With([edit]).Text, Change(text, edit, encoding));
    }

    private static string Change(SourceText text, TextEdit edit, string encoding) =>
        $$$"""{"range":{"start":{{{Position(text, edit.Span.Start, encoding)}}},"end":{{{Position(text, edit.Span.End, encoding)}}}},"text":{{{LspClient.Json(edit.NewText)}}}}""";

    // Counted here anew and simply, so that the server is not held against itself.
    private static string Position(SourceText text, int offset, string encoding)
    {
        var line = text.Lines.Count(l => l.Start <= offset) - 1;
        return $$"""{"line":{{line}},"character":{{Count(text.Text[text.Lines[line].Start..offset], encoding)}}}""";
    }

    private static int Count(string before, string encoding) => encoding switch
    {
        "utf-8" => Encoding.UTF8.GetByteCount(before), "utf-32" => before.EnumerateRunes().Count(), _ => before.Length,
    };

    private static string Applied(string text, JsonArray edits, string encoding)
    {
        var source = SourceText.From(text);
        int Offset(JsonNode position)
        {
            var (line, left) = (source.Lines[(int)position["line"]!], (int)position["character"]!);
            for (var at = line.Start; ; at++)
                if (Count(text[line.Start..at], encoding) == left && (at >= text.Length || !char.IsLowSurrogate(text[at])))
                    return at;
        }
        return source.With([.. edits.Select(e => new TextEdit(Span.Between(Offset(e!["range"]!["start"]!), Offset(e["range"]!["end"]!)), (string)e["newText"]!))]).Text;
    }
}
