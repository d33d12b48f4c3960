// A long lesson is not checked whole before its first findings come; what comes then is what a check says.
using System.Text.Json.Nodes;

namespace ChordLang.Server.Tests.Lsp;

public sealed class OpeningTests
{
    private const string Uri = "untitled:lesson";
    private const int Bars = 400;

    // A grip that fights its name near the beginning and near the end, and near the end a word that nobody can read.
    private static readonly string Long = "key C major\n\n" + string.Concat(Enumerable.Range(0, Bars).Select(bar =>
        $"| Cmaj7\n    1 {(bar is 2 or Bars - 3 ? "x-3-5-4-6-x" : "x-3-5-4-5-x")}{(bar == Bars - 2 ? " rinq" : "")}\n"));

    [Fact]
    public async Task What_stands_first_and_what_cannot_be_read_is_told_before_the_whole_is_checked()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, Long);
        Assert.Equal(["name-fret-slip 7", "text-unknown-mark 799"], Codes(await client.Findings(Uri, 1)));
        Assert.Equal(["name-fret-slip 7", "name-fret-slip 797", "text-unknown-mark 799"], Codes(await client.Findings(Uri, 1)));
        // An edit in between takes nothing back.
        await client.Tell("textDocument/didChange", $$$"""{"textDocument":{"uri":"{{{Uri}}}","version":2},"contentChanges":[{"range":{"start":{"line":9,"character":17},"end":{"line":9,"character":17}},"text":" "}]}""");
        Assert.Equal(3, (await client.Findings(Uri, 2)).Count);
    }

    [Fact]
    public async Task A_client_that_asks_is_told_to_ask_again()
    {
        await using var client = await LspClient.Start("""{"textDocument":{"diagnostic":{}},"workspace":{"diagnostics":{"refreshSupport":true}}}""");
        await client.Open(Uri, Long);
        var first = await client.Of("textDocument/diagnostic", Uri);
        Assert.Equal(["name-fret-slip 7", "text-unknown-mark 799"], Codes(first!["items"]!.AsArray()));
        await client.Until(m => (string?)m["method"] == "workspace/diagnostic/refresh");
        var then = await client.Of("textDocument/diagnostic", Uri, $",\"previousResultId\":{LspClient.Json((string)first["resultId"]!)}");
        Assert.Equal(3, then!["items"]!.AsArray().Count);
    }

    [Fact]
    public async Task A_client_that_cannot_be_told_gets_the_whole_at_once()
    {
        await using var client = await LspClient.Start("""{"textDocument":{"diagnostic":{}}}""");
        await client.Open(Uri, Long);
        Assert.Equal(3, (await client.Of("textDocument/diagnostic", Uri))!["items"]!.AsArray().Count);
    }

    private static IEnumerable<string> Codes(JsonArray findings) => findings.Select(f => $"{(string?)f!["code"]} {(int)f["range"]!["start"]!["line"]!}");
}
