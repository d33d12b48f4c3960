// `serve --check`: the server's trial of itself.
using System.Text.Json;
using ChordLang.Server.Lsp.Checking;
using ChordLang.Server.Lsp.Protocol;

namespace ChordLang.Server.Tests.Lsp;

public sealed class ServerCheckTests
{
    // The whole of the samples takes a run of its own, see .ci/run.
    [Fact]
    public void Every_request_at_every_position_of_a_sample_is_answered()
    {
        var call = Call.Of("serve", "--check", "samples/valid/top-four.chl", "samples/broken/five-fingers.chl");
        Assert.Equal((0, ""), (call.Code, call.Error));
        Assert.Matches("^[0-9]{3,} requests about 2 files: all were answered\\.\n$", call.Out);
    }

    [Fact]
    public void A_file_that_cannot_be_read_and_a_call_without_files_are_told()
    {
        Assert.Equal(2, Call.Of("serve", "--check", "samples/no-such-file.chl").Code);
        Assert.Equal(2, Call.Of("serve", "--check").Code);
        Assert.Equal(2, Call.Of("serve", "samples").Code);
    }

    // What is offered and not in the table would never be tried.
    [Fact]
    public void Everything_that_can_be_offered_is_tried()
    {
        var tried = Request.All.Select(r => r.Capability.Split('.')[0]).ToHashSet();
        var offered = typeof(ServerCapabilities).GetProperties().Select(p => JsonNamingPolicy.CamelCase.ConvertName(p.Name)).Where(n => n.EndsWith("Provider", StringComparison.Ordinal));
        Assert.Empty(offered.Except(tried));
        var all = JsonDocument.Parse("""{"hoverProvider":true,"completionProvider":{},"renameProvider":false}""").RootElement;
        Assert.Equal(["textDocument/hover", "textDocument/completion"], Request.All.Where(r => r.IsOffered(all)).Select(r => r.Method));
    }

    [Theory]
    [InlineData("""{"id":1,"error":{"code":-32603,"message":"broke off"}}""", "| C", 0, "broke off")]
    [InlineData("""{"id":1,"result":null}""", "| C", 0, "nothing is said of '|'")]
    [InlineData("""{"id":1,"result":{"contents":{"kind":"markdown","value":" "}}}""", "key G major", 4, "nothing is said of 'G'")]
    [InlineData("""{"id":1,"result":null}""", "> prose", 3, null)]
    [InlineData("""{"id":1,"result":{"contents":{"kind":"markdown","value":"A bar."}}}""", "| C", 0, null)]
    public void A_fault_is_seen(string answer, string text, int character, string? fault) =>
        Assert.Equal(fault, ServerCheck.Fault(JsonDocument.Parse(answer).RootElement, Request.All[0], ChordLang.Grammar.Syntax.SyntaxTree.Parse(text), 0, character));
}
