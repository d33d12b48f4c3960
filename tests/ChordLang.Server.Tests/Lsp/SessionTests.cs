// A session from initialize to exit: order, faults, ends.
using System.Reflection;
using System.Text.Json.Nodes;
using ChordLang.Server.Lsp;

namespace ChordLang.Server.Tests.Lsp;

public sealed class SessionTests
{
    private const string Uri = "untitled:lesson";

    [Fact]
    public async Task Findings_follow_every_change()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, "key C major\n\n| Cmaj7\n    1 x-3-5-4-5-x\n");
        Assert.Empty(await client.Findings(Uri, 1));
        await client.Tell("textDocument/didChange", $$$"""
            {"textDocument":{"uri":"{{{Uri}}}","version":2},"contentChanges":[{"range":{"start":{"line":3,"character":12},"end":{"line":3,"character":13}},"text":"6"}]}
            """);
        var found = Assert.Single(await client.Findings(Uri, 2))!;
        Assert.Equal(("name-fret-slip", 2, "chordlang"), ((string?)found["code"], (int?)found["severity"], (string?)found["source"]));
        await client.Tell("textDocument/didClose", $$$"""{"textDocument":{"uri":"{{{Uri}}}"}}""");
        Assert.Empty((await client.Until(m => (string?)m["method"] == "textDocument/publishDiagnostics"))["params"]!["diagnostics"]!.AsArray());
    }

    [Fact]
    public async Task A_client_that_asks_for_findings_is_sent_none()
    {
        await using var client = await LspClient.Start("""{"textDocument":{"diagnostic":{}}}""");
        Assert.NotNull(client.Capabilities["diagnosticProvider"]);
        await client.Open(Uri, "key C major\n\n| Cmaj7\n    1 x-3-5-4-6-x\n");
        var report = await client.Of("textDocument/diagnostic", Uri);
        Assert.Equal("full", (string?)report!["kind"]);
        Assert.Single(report["items"]!.AsArray());
        var again = await client.Of("textDocument/diagnostic", Uri, $",\"previousResultId\":{LspClient.Json((string)report["resultId"]!)}");
        Assert.Equal("unchanged", (string?)again!["kind"]);
        await client.Ask("shutdown", "");
        await client.Tell("exit", "");
        Assert.Equal(0, await client.Server);
        await Assert.ThrowsAsync<EndOfStreamException>(() => client.Until(m => (string?)m["method"] == "textDocument/publishDiagnostics"));
    }

    [Fact]
    public async Task A_request_that_fails_takes_no_other_with_it()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, "key C major\n");
        Assert.Equal(-32601, Code(await client.Ask("textDocument/noSuchThing", "{}")));
        Assert.Equal(-32602, Code(await client.Ask("textDocument/hover", """{"position":3}""")));
        Assert.Equal(-32602, Code(await client.Ask("textDocument/hover", """{"textDocument":{"uri":null},"position":{"line":0,"character":0}}""")));
        await client.Tell("$/noSuchThing", "{}");
        Assert.Null((await client.Ask("textDocument/hover", """{"textDocument":{"uri":"untitled:other"},"position":{"line":0,"character":0}}"""))["result"]);
        Assert.StartsWith("The key is C major", Value(await client.At("textDocument/hover", Uri, 0, 1)), StringComparison.Ordinal);
        Assert.NotNull(await client.At("textDocument/hover", Uri, 0, 9999));
        Assert.Null(await client.At("textDocument/hover", Uri, 9999, 0));
    }

    [Fact]
    public async Task Nothing_is_answered_before_initialize_or_after_shutdown()
    {
        await using var client = LspClient.Silent();
        Assert.Equal(-32002, Code(await client.Ask("textDocument/hover", """{"textDocument":{"uri":"a"},"position":{"line":0,"character":0}}""")));
        await client.Ask("initialize", """{"processId":null,"capabilities":{}}""");
        Assert.Equal(-32600, Code(await client.Ask("initialize", """{"processId":null,"capabilities":{}}""")));
        await client.Ask("shutdown", "");
        Assert.Equal(-32600, Code(await client.Ask("textDocument/hover", """{"textDocument":{"uri":"a"},"position":{"line":0,"character":0}}""")));
    }

    [Theory]
    [InlineData(true, 0)]
    [InlineData(false, 1)]
    public async Task Exit_tells_whether_there_was_a_shutdown(bool shutdown, int code)
    {
        await using var client = await LspClient.Start();
        if (shutdown)
            await client.Ask("shutdown", "");
        await client.Tell("exit", "");
        Assert.Equal(code, await client.Server);
    }

    [Fact]
    public async Task The_end_of_input_and_malformed_traffic_end_the_session()
    {
        var ended = await LspClient.Start();
        await ended.DisposeAsync();
        Assert.Equal(1, await ended.Server);
        var broken = await LspClient.Start();
        await broken.Write("{ this is no JSON");
        Assert.Equal(1, await broken.Server);
    }

    [Fact]
    public async Task A_cancelled_request_is_answered_all_the_same()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, "key C major\n");
        var ids = new List<int>();
        for (var i = 0; i < 200; i++)
        {
            var id = await client.Send("textDocument/hover", $$$"""{"textDocument":{"uri":"{{{Uri}}}"},"position":{"line":0,"character":1}}""");
            ids.Add(id);
            await client.Tell("$/cancelRequest", $$$"""{"id":{{{id}}}}""");
        }
        foreach (var id in ids)
        {
            var answer = await client.Until(m => m["method"] is null);
            Assert.Equal(id, (int)answer["id"]!);
            Assert.True(answer["result"] is not null || Code(answer) == -32800);
        }
    }

    [Fact]
    public async Task Questions_that_are_queued_together_are_answered_in_their_order_whatever_becomes_of_them()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, "key C major\n\n| Cmaj7\n    1 x-3-5-4-5-x\n");
        var at = $$$"""{"textDocument":{"uri":"{{{Uri}}}"},"position":{"line":2,"character":3}}""";
        (string Method, string Parameters)[] kinds = [("textDocument/hover", at), ("textDocument/noSuchThing", "{}"), ("textDocument/documentSymbol", at), ("textDocument/hover", """{"position":3}"""), ("textDocument/completion", at)];
        // Over a library nothing is waited for, so that these may come later.
        var library = await client.Send("workspace/symbol", """{"query":""}""");
        var ids = new List<int>();
        for (var i = 0; i < 1000; i++)
            ids.Add(await client.Send(kinds[i % kinds.Length].Method, kinds[i % kinds.Length].Parameters));
        foreach (var id in ids)
            Assert.Equal(id, (int)(await client.Until(m => m["method"] is null && (int)m["id"]! != library))["id"]!);
        Assert.NotNull((await client.Answer(library))["result"]);
    }

    // Else a new question that takes long would hold all others back.
    [Fact]
    public void What_may_be_answered_later_is_what_waits_for_something()
    {
        var waiting = typeof(ILanguageServer).Assembly.GetTypes().Where(t => t.IsInterface).SelectMany(t => t.GetMethods())
            .Where(m => m.ReturnType.IsAssignableTo(typeof(Task)) && m.GetCustomAttribute<StreamJsonRpc.JsonRpcMethodAttribute>() is not null)
            .Select(m => m.GetCustomAttribute<StreamJsonRpc.JsonRpcMethodAttribute>()!.Name!);
        Assert.Equal(waiting.Order(), OrderedWire.Long.Order());
    }

    [Theory]
    [InlineData("""["utf-8","utf-16"]""", "utf-8", 10)]
    [InlineData("""["utf-32"]""", "utf-32", 8)]
    [InlineData("""["latin-1"]""", "utf-16", 8)]
    [InlineData("[]", "utf-16", 8)]
    public async Task Characters_count_as_the_client_counts_them(string offered, string chosen, int end)
    {
        await using var client = await LspClient.Start($$$"""{"general":{"positionEncodings":{{{offered}}}}}""");
        Assert.Equal(chosen, (string?)client.Capabilities["positionEncoding"]);
        await client.Open(Uri, "| CΔ 3 B♭7\n");
        var range = (await client.At("textDocument/hover", Uri, 0, end))!["range"]!;
        Assert.Equal((end - (chosen == "utf-8" ? 2 : 1), end + (chosen == "utf-8" ? 3 : 2)), ((int)range["start"]!["character"]!, (int)range["end"]!["character"]!));
    }

    private static int? Code(JsonNode answer) => (int?)answer["error"]?["code"];

    private static string? Value(JsonNode? hover) => (string?)hover?["contents"]?["value"];
}
