// Traffic that no client should send: the session answers or ends, and never hangs.
using System.Text;

namespace ChordLang.Server.Tests.Lsp;

public sealed class MalformedTrafficTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(1);

    [Theory]
    [InlineData("Content-Length: many\r\n\r\n{}")]
    [InlineData("Content-Length: -5\r\n\r\n{}")]
    [InlineData("GET / HTTP/1.1\r\nHost: x\r\n\r\n")]
    [InlineData("Content-Length: 99999999\r\n\r\n{}")]
    [InlineData("Content-Length: 2\r\n\r\n[]")]
    [InlineData("Content-Length: 4\r\n\r\nnull")]
    [InlineData("Content-Length: 17\r\n\r\n{\"jsonrpc\":\"2.0\"}")]
    [InlineData("Content-Length: 45\r\n\r\n{\"jsonrpc\":\"2.0\",\"id\":{},\"method\":\"shutdown\"}")]
    [InlineData("Content-Length: 43\r\n\r\n{\"jsonrpc\":\"2.0\",\"id\":7,\"result\":\"unasked\"}\n")]
    [InlineData("Content-Length: 2\r\nContent-Type: application/vscode-jsonrpc; charset=latin-1\r\n\r\n{}")]
    [InlineData("{\"jsonrpc\":\"2.0\"}\n")]
    [InlineData("\0\0\0\0\r\n\r\n")]
    public async Task Garbage_ends_the_session_or_is_passed_over(string bytes)
    {
        var client = await LspClient.Start();
        await client.WriteBytes(Encoding.UTF8.GetBytes(bytes));
        await client.End();
        Assert.Equal(1, await client.Server.WaitAsync(Patience));
    }

    // Not UTF-8, and half a surrogate pair: both are JSON texts that a client with a broken buffer may send.
    [Fact]
    public async Task Broken_characters_are_kept_or_refused_and_the_next_question_is_answered()
    {
        await using var client = await LspClient.Start();
        await client.Write("""{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"untitled:x","languageId":"chordlang","version":1,"text":"title \ud834\n| C\n"}}}""");
        Assert.NotNull(await client.At("textDocument/hover", "untitled:x", 1, 2) ?? "closed");
    }

    [Fact]
    public async Task A_storm_of_cancelled_requests_leaves_an_answer_each()
    {
        await using var client = await LspClient.Start();
        await client.Open("untitled:x", "key C major\n\n| Cmaj7\n    1 x-3-5-4-6-x\n");
        var ids = new List<int>();
        for (var i = 0; i < 300; i++)
        {
            ids.Add(await client.Send(i % 3 == 0 ? "textDocument/codeAction" : "textDocument/hover",
                """{"textDocument":{"uri":"untitled:x"},"position":{"line":3,"character":14},"range":{"start":{"line":3,"character":14},"end":{"line":3,"character":14}},"context":{"diagnostics":[]}}"""));
            await client.Tell("$/cancelRequest", $"{{\"id\":{ids[^1]}}}");
            await client.Tell("$/cancelRequest", $"{{\"id\":{ids[^1] + 100_000}}}");
        }
        foreach (var id in ids)
            Assert.True(await client.Answer(id) is { } a && (a["error"] is null || (int?)a["error"]!["code"] == -32800));
    }
}
