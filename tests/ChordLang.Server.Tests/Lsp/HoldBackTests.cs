// Rules on the bar being typed wait for the next key; syntax never does, and what was told stays.
using System.Text.Json.Nodes;

namespace ChordLang.Server.Tests.Lsp;

public sealed class HoldBackTests
{
    private const string Uri = "untitled:lesson", Clean = "key C major\n\n| Cmaj7\n    1 x-3-5-4-5-x\n\n| Fmaj7\n    1 1-x-2-2-1-x\n";

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_rule_on_the_bar_being_typed_comes_a_moment_later(bool wholeTexts)
    {
        await using var client = await LspClient.Start(options: """{"holdBack":30}""");
        await client.Open(Uri, Clean);
        Assert.Empty(await client.Findings(Uri, 1));
        // A fret that fights the name, and a mark that is none, in the first bar.
        var typed = Clean.Replace("x-3-5-4-5-x", "x-3-5-4-6-x rinq", StringComparison.Ordinal);
        if (wholeTexts)
            await client.Replace(Uri, typed, 2);
        else
            await client.Tell("textDocument/didChange", $$$"""{"textDocument":{"uri":"{{{Uri}}}","version":2},"contentChanges":[{"range":{"start":{"line":3,"character":14},"end":{"line":3,"character":17}},"text":"6-x rinq"}]}""");
        Assert.Equal(["text-unknown-mark"], Codes(await client.Findings(Uri, 2)));
        Assert.Equal(["name-fret-slip", "text-unknown-mark"], Codes(await client.Findings(Uri, 2)));
        // While one types on, in this bar or in another, what was told stays told.
        await client.Replace(Uri, typed.Replace("rinq", "ring", StringComparison.Ordinal), 3);
        Assert.Equal(["name-fret-slip"], Codes(await client.Findings(Uri, 3)));
        await client.Replace(Uri, typed.Replace("rinq", "ring", StringComparison.Ordinal).Replace("1-x-2-2-1-x", "1-x-2-3-1-x", StringComparison.Ordinal), 4);
        Assert.Equal(["name-fret-slip"], Codes(await client.Findings(Uri, 4)));
        Assert.Equal(2, (await client.Findings(Uri, 4)).Count);
    }

    private static IEnumerable<string?> Codes(JsonArray findings) => findings.Select(f => (string?)f!["code"]).Order();
}
