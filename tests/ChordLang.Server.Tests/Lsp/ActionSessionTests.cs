// Code actions and commands as clients ask for them: by kind, resolved late or at once, in either form of edit.
using System.Text.Json.Nodes;

namespace ChordLang.Server.Tests.Lsp;

public sealed class ActionSessionTests
{
    private const string Uri = "untitled:lesson", Text = "title: A\n\nkey C major\n\n| Cmaj7\n    1 x-3-5-4-6-x\n    2 B♭3\n";
    private const string Resolving = """{"textDocument":{"codeAction":{"dataSupport":true,"resolveSupport":{"properties":["edit"]}}},"workspace":{"workspaceEdit":{"documentChanges":true},"applyEdit":true}}""";

    [Fact]
    public async Task An_edit_comes_in_the_form_that_the_client_takes()
    {
        await using var old = await LspClient.Start();
        await old.Open(Uri, Text, 3);
        var fix = (await Actions(old, 5, 14))[0]!;
        Assert.NotNull(fix["edit"]!["changes"]![Uri]);
        Assert.Equal("name-fret-slip", (string?)fix["diagnostics"]![0]!["code"]);
        await using var versioned = await LspClient.Start(Resolving);
        await versioned.Open(Uri, Text, 3);
        var change = (await Actions(versioned, 5, 14))[0]!["edit"]!["documentChanges"]![0]!;
        Assert.Equal((Uri, 3), ((string?)change["textDocument"]!["uri"], (int?)change["textDocument"]!["version"]));
    }

    // Some clients count bytes in the findings they hand back: only the asked range and our own findings count.
    [Fact]
    public async Task The_findings_that_a_client_hands_back_are_not_believed()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, Text);
        var asked = await client.Of("textDocument/codeAction", Uri, ""","range":{"start":{"line":5,"character":14},"end":{"line":5,"character":14}},"context":{"diagnostics":[{"range":{"start":{"line":0,"character":90},"end":{"line":0,"character":99}},"message":"x"}]}""");
        Assert.Equal(((await Actions(client, 5, 14)).ToJsonString()), asked!.ToJsonString());
    }

    [Fact]
    public async Task A_costly_action_is_worked_out_when_it_is_chosen()
    {
        await using var client = await LspClient.Start(Resolving);
        Assert.True((bool)client.Capabilities["codeActionProvider"]!["resolveProvider"]!);
        await client.Open(Uri, Text);
        var action = (await Actions(client, 0, 0, "source.fixAll"))[0]!;
        Assert.Null(action["edit"]);
        var whole = (await client.Ask("codeAction/resolve", action.ToJsonString()))["result"]!;
        Assert.Equal("title  A", (string?)whole["edit"]!["documentChanges"]![0]!["edits"]![0]!["newText"]);
        await client.Replace(Uri, Text + "\n", 2);
        Assert.Equal(-32801, (int?)(await client.Ask("codeAction/resolve", action.ToJsonString()))["error"]!["code"]);
        await using var old = await LspClient.Start();
        await old.Open(Uri, Text);
        Assert.NotNull((await Actions(old, 0, 0, "source"))[0]!["edit"]);
    }

    [Fact]
    public async Task Commands_answer_with_text_or_ask_the_client_to_change_its_document()
    {
        await using var client = await LspClient.Start(Resolving);
        await client.Open(Uri, "key C major\n\n| Cmaj7\n    1 x-3-5-4-5-x\n");
        await Run(client, "chordlang.transpose", "\"by\":2");
        var edits = (await client.Until(m => (string?)m["method"] == "workspace/applyEdit"))["params"]!["edit"]!["documentChanges"]![0]!["edits"]!.AsArray();
        Assert.Equal(["key D major", "| Dmaj7", "    1 x-5-7-6-7-x"], edits.Select(e => (string?)e!["newText"]));
        await Run(client, "chordlang.transpose", "\"to\":\"F major\"");
        Assert.Contains("\"key F major\"", (await client.Until(m => (string?)m["method"] == "workspace/applyEdit")).ToJsonString(), StringComparison.Ordinal);
        Assert.Contains("-3-", (string?)(await Run(client, "chordlang.export", "\"to\":\"tab\""))["result"], StringComparison.Ordinal);
        Assert.StartsWith("<?xml", (string?)(await Run(client, "chordlang.export", "\"to\":\"musicxml\""))["result"], StringComparison.Ordinal);
        Assert.StartsWith("The strings from the lowest", (string?)(await Run(client, "chordlang.describe", "\"brief\":true"))["result"], StringComparison.Ordinal);
        Assert.StartsWith("1. Bar 1, likely the hardest (score ", (string?)(await Run(client, "chordlang.practice", ""))["result"], StringComparison.Ordinal);
        Assert.Contains("## What", (string?)(await Run(client, "chordlang.explain", "\"code\":\"name-fret-slip\""))["result"], StringComparison.Ordinal);
        foreach (var (command, arguments) in (IEnumerable<(string, string)>)[("chordlang.transpose", ""), ("chordlang.export", "\"to\":\"x\""), ("chordlang.explain", "\"code\":\"x\""), ("chordlang.sing", "")])
            Assert.Equal(-32602, (int?)(await Run(client, command, arguments))["error"]!["code"]);
        Assert.Equal(-32602, (int?)(await client.Ask("workspace/executeCommand", """{"command":"chordlang.describe"}"""))["error"]!["code"]);
    }

    [Fact]
    public async Task A_transposition_tells_what_was_lost_by_the_name_of_its_check_or_why_there_is_none()
    {
        await using var client = await LspClient.Start(Resolving);
        await client.Open(Uri, "key E major\n\n| E\n    1 0-7-9-9-x-x\n");
        var told = (string?)(await Run(client, "chordlang.transpose", "\"by\":1"))["result"];
        Assert.StartsWith("Bar 1: ", told, StringComparison.Ordinal);
        Assert.EndsWith(" [hand-open-string-lost]", told, StringComparison.Ordinal);
        Assert.Contains("it is in E major, and no interval makes that F minor", (string?)(await Run(client, "chordlang.transpose", "\"to\":\"F minor\""))["error"]!["message"], StringComparison.Ordinal);
    }

    private static Task<JsonNode> Run(LspClient client, string command, string arguments) =>
        client.Ask("workspace/executeCommand", $$$"""{"command":"{{{command}}}","arguments":[{"uri":"{{{Uri}}}"{{{(arguments.Length > 0 ? "," + arguments : "")}}}}]}""");

    private static async Task<JsonArray> Actions(LspClient client, int line, int character, string only = "") =>
        (await client.Of("textDocument/codeAction", Uri, $$$""","range":{"start":{"line":{{{line}}},"character":{{{character}}}},"end":{"line":{{{line}}},"character":{{{character}}}}},"context":{"diagnostics":[]{{{(only.Length > 0 ? $",\"only\":[\"{only}\"]" : "")}}}}"""))!.AsArray();
}
