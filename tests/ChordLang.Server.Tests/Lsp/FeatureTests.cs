// The features of an editor over the real protocol: what is offered to whom, and what comes back.
using System.Text.Json.Nodes;

namespace ChordLang.Server.Tests.Lsp;

public sealed class FeatureTests
{
    private const string Uri = "untitled:lesson";
    private const string Text = "key C major\n\nshape low-drop = 1-x-1-1-1-x\n\nsection A\n\n| Fm7 3 Bb7\n    top: 1 low-drop  3 D4\n\n| Ebmaj7\n";

    [Fact]
    public async Task Completion_gives_edits_and_explains_the_one_that_is_looked_at()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, "| Bb\n");
        var items = (await client.At("textDocument/completion", Uri, 0, 4))!["items"]!.AsArray();
        var item = items.Single(i => (string?)i!["label"] == "Bbmaj7")!;
        Assert.Equal("Bbmaj7", (string?)item["textEdit"]!["newText"]);
        Assert.Equal((2, 4), ((int)item["textEdit"]!["range"]!["start"]!["character"]!, (int)item["textEdit"]!["range"]!["end"]!["character"]!));
        Assert.Null(item["documentation"]);
        var resolved = (await client.Ask("completionItem/resolve", item.ToJsonString()))["result"]!;
        Assert.Contains("Bb, the root", (string?)resolved["documentation"]!["value"], StringComparison.Ordinal);
        var bare = (await client.Ask("completionItem/resolve", new JsonObject { ["label"] = "Bbmaj7", ["data"] = item["data"]!.DeepClone() }.ToJsonString()))["result"]!;
        Assert.Equal((string?)resolved["documentation"]!["value"], (string?)bare["documentation"]!["value"]);
        Assert.Equal(items.Select(i => (string)i!["sortText"]!).Order(StringComparer.Ordinal), items.Select(i => (string)i!["sortText"]!));
    }

    [Theory]
    [InlineData("{}", 1, "ring")]
    [InlineData("""{"textDocument":{"completion":{"completionItem":{"snippetSupport":true}}}}""", 2, "grace ${1:D#4}")]
    public async Task Snippets_are_only_for_clients_that_know_them(string capabilities, int format, string text)
    {
        await using var client = await LspClient.Start(capabilities);
        await client.Open(Uri, "| C\n    1 E4 \n");
        var items = (await client.At("textDocument/completion", Uri, 1, 9))!["items"]!.AsArray();
        Assert.Contains(items, i => (int)i!["insertTextFormat"]! == format && (string?)i["textEdit"]!["newText"] == text);
        Assert.Equal(format == 2, items.Any(i => (int)i!["insertTextFormat"]! == 2));
    }

    [Theory]
    [InlineData("{}", "\"DEGREE2\"")]
    [InlineData("""{"textDocument":{"signatureHelp":{"signatureInformation":{"parameterInformation":{"labelOffsetSupport":true}}}}}""", "[11,18]")]
    public async Task The_form_of_a_bracket_is_told(string capabilities, string second)
    {
        await using var client = await LspClient.Start(capabilities);
        await client.Open(Uri, "| C7(b9,\n");
        var help = (await client.At("textDocument/signatureHelp", Uri, 0, 8))!;
        Assert.Equal(1, (int)help["activeParameter"]!);
        Assert.Equal("C7(DEGREE1,DEGREE2)", (string?)help["signatures"]![0]!["label"]);
        Assert.Equal(second, help["signatures"]![0]!["parameters"]![1]!["label"]!.ToJsonString());
    }

    [Fact]
    public async Task A_shape_is_renamed_everywhere_in_its_text()
    {
        await using var client = await LspClient.Start("""{"textDocument":{"rename":{"prepareSupport":true}},"workspace":{"workspaceEdit":{"documentChanges":true}}}""");
        await client.Open(Uri, Text, 7);
        Assert.Equal("low-drop", (string?)(await client.At("textDocument/prepareRename", Uri, 7, 13))!["placeholder"]);
        var change = (await client.At("textDocument/rename", Uri, 7, 13, ",\"newName\":\"minor-low\""))!["documentChanges"]!.AsArray().Single()!;
        Assert.Equal(7, (int)change["textDocument"]!["version"]!);
        Assert.Equal([2, 7], change["edits"]!.AsArray().Select(e => (int)e!["range"]!["start"]!["line"]!));
        var refused = await client.Ask("textDocument/rename", $$$"""{"textDocument":{"uri":"{{{Uri}}}"},"position":{"line":7,"character":13},"newName":"E4"}""");
        Assert.Equal(-32803, (int)refused["error"]!["code"]!);
        Assert.Equal([2, 7], (await client.At("textDocument/references", Uri, 2, 8, ",\"context\":{\"includeDeclaration\":true}"))!.AsArray().Select(l => (int)l!["range"]!["start"]!["line"]!));
        Assert.Equal(2, (int)(await client.At("textDocument/definition", Uri, 7, 13))!.AsArray().Single()!["range"]!["start"]!["line"]!);
        Assert.Equal([3, 2], (await client.At("textDocument/documentHighlight", Uri, 7, 13))!.AsArray().Select(h => (int)h!["kind"]!));
    }

    [Theory]
    [InlineData("""{"textDocument":{"documentSymbol":{"hierarchicalDocumentSymbolSupport":true}}}""", "Shape low-drop, Section A", 2)]
    [InlineData("{}", "Shape low-drop, Section A, Bar 1: Fm7, then Bb7, Bar 2: Ebmaj7", 0)]
    public async Task Symbols_are_a_tree_or_a_list(string capabilities, string names, int children)
    {
        await using var client = await LspClient.Start(capabilities);
        await client.Open(Uri, Text);
        var symbols = (await client.Of("textDocument/documentSymbol", Uri))!.AsArray();
        Assert.Equal(names, string.Join(", ", symbols.Select(s => (string)s!["name"]!)));
        Assert.Equal(children, symbols[1]!["children"]?.AsArray().Count ?? 0);
    }

    [Fact]
    public async Task Folds_selections_links_and_lenses_come_back()
    {
        await using var client = await LspClient.Start("""{"textDocument":{"foldingRange":{"foldingRange":{"collapsedText":true}},"codeLens":{}}}""", """{"pages":"https://example.org/{code}"}""");
        await client.Open(Uri, Text + "    1 x-6-5-7-6-x\n// allow name-fret-slip: meant\n");
        var folds = (await client.Of("textDocument/foldingRange", Uri))!.AsArray();
        Assert.Contains(folds, f => ((string?)f!["collapsedText"])?.StartsWith("section A: ", StringComparison.Ordinal) == true);
        var selection = (await client.Of("textDocument/selectionRange", Uri, ",\"positions\":[{\"line\":7,\"character\":13}]"))!.AsArray().Single()!;
        Assert.NotNull(selection["parent"]!["parent"]);
        Assert.Equal("https://example.org/name-fret-slip", (string?)(await client.Of("textDocument/documentLink", Uri))!.AsArray().Single()!["target"]);
        var titles = new List<string?>();
        foreach (var lens in (await client.Of("textDocument/codeLens", Uri))!.AsArray())
            titles.Add((string?)(await client.Ask("codeLens/resolve", lens!.ToJsonString()))["result"]!["command"]!["title"]);
        Assert.Equal(2, titles.Count);
        Assert.Equal("played once here", titles[0]);
        Assert.Matches("^practise bar [12]: likely the hardest$", titles[1]);
    }

    [Theory]
    [InlineData("utf-16")]
    [InlineData("utf-8")]
    [InlineData("utf-32")]
    public async Task Tokens_and_what_changed_in_them_agree(string encoding)
    {
        await using var client = await LspClient.Start($$$$"""{"general":{"positionEncodings":["{{{{encoding}}}}"]},"textDocument":{"semanticTokens":{}}}""");
        await client.Open(Uri, "title Übung\n| CΔ 3 B♭7\n    1 E4 ring\n");
        var before = (await client.Of("textDocument/semanticTokens/full", Uri))!;
        await client.Replace(Uri, "title Übung\n| CΔ 3 B♭7\n    1 E4 ring  3 G4\n", 2);
        var delta = (await client.Of("textDocument/semanticTokens/full/delta", Uri, $",\"previousResultId\":{before["resultId"]!.ToJsonString()}"))!;
        var data = before["data"]!.AsArray().Select(n => (int)n!).ToList();
        foreach (var edit in delta["edits"]!.AsArray())
        {
            data.RemoveRange((int)edit!["start"]!, (int)edit["deleteCount"]!);
            data.InsertRange((int)edit["start"]!, edit["data"]!.AsArray().Select(n => (int)n!));
        }
        var now = (await client.Of("textDocument/semanticTokens/full", Uri))!;
        Assert.Equal(now["data"]!.AsArray().Select(n => (int)n!), data);
        // The B♭7 of line 1: its start counts the Δ before it, its length the ♭ in it.
        Assert.Contains(Enumerable.Range(0, data.Count / 5), i => data[i * 5 + 2] == (encoding == "utf-8" ? 5 : 3) && data[i * 5 + 3] == 4);
        var range = (await client.Of("textDocument/semanticTokens/range", Uri, ",\"range\":{\"start\":{\"line\":1,\"character\":0},\"end\":{\"line\":1,\"character\":1}}"))!;
        Assert.Equal(1, (int)range["data"]![0]!);
        Assert.Equal(20, range["data"]!.AsArray().Count);
        var lost = (await client.Of("textDocument/semanticTokens/full/delta", Uri, ",\"previousResultId\":\"none\""))!;
        Assert.NotNull(lost["data"]);
    }

    [Fact]
    public async Task Hints_are_as_the_user_chose()
    {
        const string whole = ",\"range\":{\"start\":{\"line\":0,\"character\":0},\"end\":{\"line\":20,\"character\":0}}";
        await using var client = await LspClient.Start("""{"textDocument":{"inlayHint":{}}}""", """{"hints":{"numerals":false}}""");
        await client.Open(Uri, Text);
        Assert.Equal(["1", "2"], Labels(await client.Of("textDocument/inlayHint", Uri, whole)));
        await client.Tell("workspace/didChangeConfiguration", """{"settings":{"chordlang":{"hints":{"barNumbers":false,"numerals":true}}}}""");
        Assert.DoesNotContain("1", Labels(await client.Of("textDocument/inlayHint", Uri, whole)));
        Assert.Equal(3, Labels(await client.Of("textDocument/inlayHint", Uri, whole)).Length);
    }

    [Fact]
    public async Task Settings_are_asked_for_where_the_client_answers()
    {
        await using var client = await LspClient.Start("""{"workspace":{"configuration":true,"inlayHint":{"refreshSupport":true}},"textDocument":{"inlayHint":{}}}""");
        var asked = await client.Until(m => (string?)m["method"] == "workspace/configuration");
        Assert.Equal("chordlang", (string?)asked["params"]!["items"]![0]!["section"]);
        await client.Write($$$"""{"jsonrpc":"2.0","id":{{{asked["id"]!.ToJsonString()}}},"result":[{"hints":{"barNumbers":false}}]}""");
        await client.Until(m => (string?)m["method"] == "workspace/inlayHint/refresh");
        await client.Open(Uri, "| C\n");
        Assert.Empty(Labels(await client.Of("textDocument/inlayHint", Uri, ",\"range\":{\"start\":{\"line\":0,\"character\":0},\"end\":{\"line\":0,\"character\":1}}")));
    }

    [Fact]
    public async Task Levels_of_checks_are_the_users_too()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, "key C major\n\n| Cmaj7\n    1 x-3-5-4-6-x\n");
        Assert.Equal(2, (int)Assert.Single(await client.Findings(Uri, 1))!["severity"]!);
        await client.Tell("workspace/didChangeConfiguration", """{"settings":{"chordlang":{"checks":{"name-fret-slip":"error"}}}}""");
        Assert.Equal(1, (int)Assert.Single(await client.Findings(Uri, 1))!["severity"]!);
        await client.Tell("workspace/didChangeConfiguration", """{"settings":{"chordlang":{"checks":{"name-fret-slip":"off"}}}}""");
        Assert.Empty(await client.Findings(Uri, 1));
    }

    [Fact]
    public async Task A_new_line_tidies_the_bar_above_it()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, "|   Fm7 3 Bb7\n  1 x35453\n\n");
        var edits = (await client.At("textDocument/onTypeFormatting", Uri, 2, 0, ",\"ch\":\"\\n\",\"options\":{\"tabSize\":4,\"insertSpaces\":true}"))!.AsArray();
        Assert.Equal(["| Fm7   3 Bb7", "    1 x-3-5-4-5-3"], edits.Select(e => (string)e!["newText"]!));
    }

    private static string[] Labels(JsonNode? hints) => [.. hints!.AsArray().Select(h => (string)h!["label"]!)];
}
