// A folder of lessons over the real protocol: names that several files share, the index, and what changes on disk.
using System.Text.Json.Nodes;

namespace ChordLang.Server.Tests.Lsp;

public sealed class LibraryTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("chordlang-library-").FullName;

    public LibraryTests()
    {
        File.WriteAllText(Path.Combine(folder, "chordlang.json"), "{}");
        File.WriteAllText(Path.Combine(folder, "grips.chl"), "shape low-drop = 1-x-1-1-1-x\nshape other = x-1-3-1-2-x\n");
        File.WriteAllText(Path.Combine(folder, "one.chl"), "title One Lamp\nuse \"grips.chl\"\nsection Opening\n| Fm7\n    1 low-drop\n");
        File.WriteAllText(Path.Combine(folder, "own.chl"), "title Its Own\nshape low-drop = x-1-3-1-2-x\n| Bbm7\n    1 low-drop\n");
        Directory.CreateDirectory(Path.Combine(folder, "more"));
        File.WriteAllText(Path.Combine(folder, "more", "two.chl"), "title Two Lamps\nuse \"../grips.chl\"\n| Fm7\n    1 low-drop at 1  3 low-drop\n");
    }

    public void Dispose() => Directory.Delete(folder, true);

    [Fact]
    public async Task A_shape_is_renamed_in_every_lesson_that_shares_it_and_in_no_other()
    {
        await using var client = await Start();
        await client.Open(Uri("one.chl"), File.ReadAllText(Path.Combine(folder, "one.chl")));
        var changes = (await client.At("textDocument/rename", Uri("one.chl"), 4, 8, ",\"newName\":\"minor-low\""))!["changes"]!.AsObject();
        Assert.Equal([Uri("grips.chl"), Uri("more/two.chl"), Uri("one.chl")], changes.Select(c => c.Key).Order(StringComparer.Ordinal));
        Assert.Equal(2, changes[Uri("more/two.chl")]!.AsArray().Count);
        Assert.Equal(4, (await client.At("textDocument/references", Uri("one.chl"), 4, 8, ",\"context\":{\"includeDeclaration\":false}"))!.AsArray().Count + 1);
        var definition = (await client.At("textDocument/definition", Uri("one.chl"), 4, 8))!.AsArray().Single()!;
        Assert.Equal((Uri("grips.chl"), 0), ((string?)definition["uri"], (int)definition["range"]!["start"]!["line"]!));
        Assert.Equal(Uri("grips.chl"), (string?)(await client.At("textDocument/definition", Uri("one.chl"), 1, 7))!.AsArray().Single()!["uri"]);
    }

    [Fact]
    public async Task A_name_that_another_lesson_has_already_is_refused()
    {
        await using var client = await Start();
        await client.Open(Uri("one.chl"), File.ReadAllText(Path.Combine(folder, "one.chl")));
        var answer = await client.Ask("textDocument/rename", $$$"""{"textDocument":{"uri":{{{LspClient.Json(Uri("one.chl"))}}}},"position":{"line":4,"character":8},"newName":"other"}""");
        Assert.Contains("There is a shape other already.", (string?)answer["error"]!["message"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_library_is_searched_closed_files_and_open_ones()
    {
        await using var client = await Start("""{"window":{"workDoneProgress":true}}""", answerProgress: true);
        Assert.Equal(["One Lamp", "Two Lamps"], (await Symbols(client, "lamp")).Where(s => (int)s["kind"]! == 1).Select(s => (string)s["name"]!).Order());
        var opening = Assert.Single(await Symbols(client, "opening"), s => (string?)s["name"] == "Section Opening");
        Assert.Equal(("One Lamp", Uri("one.chl")), ((string?)opening["containerName"], (string?)opening["location"]!["uri"]));
        await client.Open(Uri("one.chl"), "title Third Lamp\n| C\n");
        Assert.Contains(await Symbols(client, "third"), s => (string?)s["name"] == "Third Lamp");
        Assert.Empty(await Symbols(client, "opening"));
    }

    [Fact]
    public async Task Files_that_change_or_go_are_read_again()
    {
        await using var client = await Start();
        Assert.NotEmpty(await Symbols(client, "two lamps"));
        File.Delete(Path.Combine(folder, "more", "two.chl"));
        await client.Tell("workspace/didChangeWatchedFiles", $$$"""{"changes":[{"uri":{{{LspClient.Json(Uri("more/two.chl"))}}},"type":3}]}""");
        Assert.Empty(await Symbols(client, "two lamps"));
        await client.Tell("workspace/didChangeWorkspaceFolders", $$$"""{"event":{"added":[],"removed":[{"uri":{{{LspClient.Json(new Uri(folder).AbsoluteUri)}}},"name":"a"}]}}""");
        Assert.Empty(await Symbols(client, "one lamp"));
    }

    [Fact]
    public async Task Completion_knows_the_files_and_tags_of_the_library()
    {
        await using var client = await Start();
        await Symbols(client, "");
        await client.Open(Uri("own.chl"), "use \"\n");
        Assert.Contains((await client.At("textDocument/completion", Uri("own.chl"), 0, 5))!["items"]!.AsArray(), i => (string?)i!["textEdit"]!["newText"] == "\"grips.chl\"");
    }

    private async Task<LspClient> Start(string capabilities = "{}", bool answerProgress = false)
    {
        var client = LspClient.Silent();
        await client.Ask("initialize", $$$"""{"processId":null,"rootUri":{{{LspClient.Json(new Uri(folder).AbsoluteUri)}}},"capabilities":{{{capabilities}}}}""");
        await client.Tell("initialized", "{}");
        if (answerProgress)
        {
            var create = await client.Until(m => (string?)m["method"] == "window/workDoneProgress/create");
            await client.Write($$$"""{"jsonrpc":"2.0","id":{{{create["id"]!.ToJsonString()}}},"result":null}""");
            Assert.Equal("begin", (string?)(await client.Until(m => (string?)m["method"] == "$/progress"))["params"]!["value"]!["kind"]);
            await client.Until(m => (string?)m["method"] == "$/progress" && (string?)m["params"]!["value"]!["kind"] == "end");
        }
        return client;
    }

    private static async Task<IReadOnlyList<JsonNode>> Symbols(LspClient client, string query) =>
        [.. (await client.Ask("workspace/symbol", $$$"""{"query":{{{LspClient.Json(query)}}}}"""))["result"]!.AsArray().Select(s => s!)];

    private string Uri(string file) => new Uri(Path.Combine(folder, file)).AbsoluteUri;
}
