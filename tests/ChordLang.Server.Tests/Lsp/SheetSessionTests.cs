// The sheet of an open document as an editor asks for it: whole at first, then only what looks otherwise.
using System.Globalization;
using System.Text.Json.Nodes;
using System.Xml.Linq;

namespace ChordLang.Server.Tests.Lsp;

public sealed class SheetSessionTests
{
    private const string Uri = "untitled:sheet", One = "section One\n\n| Cmaj7\n    1 C4  3 E4\n\n", Two = "section Two\n\n| G7\n    1 G4  3 B4\n";

    [Fact]
    public async Task Every_note_of_a_line_leads_to_its_text()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, "title <b>\n\n" + One + Two);
        var sheet = (await client.Of("chordlang/sheet", Uri))!;
        Assert.Equal("<b>", (string?)sheet["title"]);
        Assert.Equal(["Bar 1", "Bar 2"], Lines(sheet).Select(l => (string?)l["name"]));
        Assert.Equal([["C4", "E4"], ["G4", "B4"]], Lines(sheet).Select(l => Written(l, "title <b>\n\n" + One + Two)));
        Assert.All(Lines(sheet), l => Assert.Contains(l["spoken"]!.AsArray(), s => ((string?)s)!.StartsWith((string)l["name"]!, StringComparison.Ordinal)));
        // All that a drawing refers to is among the signs that come along.
        var signs = XDocument.Parse((string)sheet["signs"]!).Descendants().Select(e => "#" + e.Attribute("id")?.Value).ToHashSet();
        Assert.All(Lines(sheet).SelectMany(l => XDocument.Parse((string)l["svg"]!).Descendants().Where(e => e.Name.LocalName == "use")), u => Assert.Contains(u.Attribute("href")!.Value, signs));
    }

    [Fact]
    public async Task After_an_edit_only_the_lines_that_look_otherwise_are_sent()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, One + Two);
        var before = Lines((await client.Of("chordlang/sheet", Uri))!);
        var edited = "// longer\n" + One.Replace("E4", "F#4", StringComparison.Ordinal) + Two;
        await client.Replace(Uri, edited, 2);
        var sheet = (await client.Of("chordlang/sheet", Uri, $",\"known\":[{string.Join(',', before.Select(l => l["id"]!.ToJsonString()))}]"))!;
        var after = Lines(sheet);
        Assert.Equal(2, (int?)sheet["version"]);
        Assert.Equal(["C4", "F#4"], Written(after[0], edited));
        Assert.NotEqual((string?)before[0]["id"], (string?)after[0]["id"]);
        Assert.Equal((string?)before[1]["id"], (string?)after[1]["id"]);
        Assert.Null(after[1]["svg"]);
        // What the client kept still leads to its text, from where the line begins now.
        after[1]["svg"] = (string?)before[1]["svg"];
        Assert.Equal(["G4", "B4"], Written(after[1], edited));
    }

    [Fact]
    public async Task A_document_that_is_not_open_has_no_sheet_and_one_without_music_has_no_line()
    {
        await using var client = await LspClient.Start();
        Assert.Null(await client.Of("chordlang/sheet", Uri));
        await client.Open(Uri, "");
        Assert.Empty(Lines((await client.Of("chordlang/sheet", Uri))!));
    }

    private static List<JsonNode> Lines(JsonNode sheet) => [.. sheet["lines"]!.AsArray().Select(l => l!)];

    // The text behind each number of the tablature.
    private static List<string> Written(JsonNode line, string text) =>
    [
        .. XDocument.Parse((string)line["svg"]!).Descendants().Where(e => e.Attribute("data-fret") is not null)
            .Select(e => text[(Place(e, "data-from") + (int)line["from"]!)..(Place(e, "data-to") + (int)line["from"]!)]),
    ];

    private static int Place(XElement element, string name) => int.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
