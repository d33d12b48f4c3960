// The command line and the server say the same of every sample, byte for byte.
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Lsp;

public sealed class SameFindingsTests
{
    private static readonly string[] Severities = ["error", "warning", "information", "hint"];
    private static readonly JsonSerializerOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, TypeInfoResolver = new System.Text.Json.Serialization.Metadata.DefaultJsonTypeInfoResolver() };

    [Fact]
    public async Task The_server_finds_what_check_finds()
    {
        await using var client = await LspClient.Start("""{"textDocument":{"publishDiagnostics":{"relatedInformation":true},"codeAction":{"codeActionLiteralSupport":{}}}}""");
        var compared = 0;
        foreach (var path in Repository.Samples())
        {
            var uri = new Uri(Repository.At(path)).AbsoluteUri;
            await client.Open(uri, Repository.Text(path));
            var served = new JsonArray();
            foreach (var d in await client.Findings(uri, 1))
                served.Add(await AsChecked(client, uri, d!));
            var said = JsonNode.Parse(Call.Of("check", path, "--format", "json").Out)!["files"]![0]!["findings"]!.AsArray();
            foreach (var finding in said)
                foreach (var fix in finding!["fixes"]!.AsArray())
                    fix!.AsObject().Remove("safe");
            Assert.Equal(said.ToJsonString(Plain), served.ToJsonString(Plain));
            compared += served.Count;
            await client.Tell("textDocument/didClose", $$$"""{"textDocument":{"uri":{{{LspClient.Json(uri)}}}}}""");
        }
        Assert.True(compared > 50);
    }

    // A diagnostic in the words of `check`; the fixes are those that the server offers for it.
    private static async Task<JsonNode> AsChecked(LspClient client, string uri, JsonNode d)
    {
        var actions = (await client.Of("textDocument/codeAction", uri, $$$""","range":{{{d["range"]!.ToJsonString()}}},"context":{"diagnostics":[],"only":["quickfix"]}"""))!.AsArray();
        var fixes = actions.Where(a => !((string)a!["title"]!).StartsWith("Allow ", StringComparison.Ordinal) && a["diagnostics"]![0]!.ToJsonString() == d.ToJsonString());
        return new JsonObject
        {
            ["code"] = d["code"]!.DeepClone(),
            ["severity"] = Severities[(int)d["severity"]! - 1],
            ["message"] = d["message"]!.DeepClone(),
            ["bar"] = d["data"]!["bar"]?.DeepClone(),
            ["count"] = d["data"]!["count"]?.DeepClone(),
            ["range"] = d["range"]!.DeepClone(),
            ["related"] = new JsonArray([.. (d["relatedInformation"]?.AsArray() ?? []).Select(r => new JsonObject
            {
                ["message"] = r!["message"]!.DeepClone(),
                ["path"] = Path.GetRelativePath(Repository.Root, new Uri((string)r["location"]!["uri"]!).LocalPath).Replace('\\', '/'),
                ["range"] = r["location"]!["range"]!.DeepClone(),
            })]),
            ["fixes"] = new JsonArray([.. fixes.Select(a => new JsonObject
            {
                ["title"] = a!["title"]!.DeepClone(),
                ["edits"] = a["edit"]!["changes"]![uri]!.DeepClone(),
            })]),
            ["strings"] = d["data"]!["strings"]!.DeepClone(),
        };
    }
}
