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
        Assert.Contains("<h1>&lt;b&gt;</h1>", (string?)sheet["parts"]![0]!["html"], StringComparison.Ordinal);
        Assert.Equal(["<h2>One</h2>", "<h2>Two</h2>"], sheet["parts"]!.AsArray().Skip(1).Select(p => (string?)p!["html"]).OfType<string>().Select(h => h.Trim()));
        Assert.Equal(["Bar 1", "Bar 2"], Lines(sheet).Select(l => (string?)l["name"]));
        Assert.Equal([["C4", "E4"], ["G4", "B4"]], Lines(sheet).Select(l => Written(l, "title <b>\n\n" + One + Two)));
        Assert.All(Lines(sheet), l => Assert.Contains(l["spoken"]!.AsArray(), s => ((string?)s)!.StartsWith((string)l["name"]!, StringComparison.Ordinal)));
        // All that a drawing refers to is among the signs that come along.
        var signs = XDocument.Parse((string)sheet["look"]!["signs"]!).Descendants().Select(e => "#" + e.Attribute("id")?.Value).ToHashSet();
        Assert.All(Lines(sheet).SelectMany(l => XDocument.Parse((string)l["svg"]!).Descendants().Where(e => e.Name.LocalName == "use")), u => Assert.Contains(u.Attribute("href")!.Value, signs));
    }

    [Fact]
    public async Task After_an_edit_only_the_lines_that_look_otherwise_are_sent()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, One + Two);
        var first = (await client.Of("chordlang/sheet", Uri))!;
        var (before, known) = (Lines(first), first["parts"]!.AsArray().Select(p => p!["id"]!).Append(first["look"]!["id"]!).Select(id => id.ToJsonString()));
        var edited = "// longer\n" + One.Replace("E4", "E4 short", StringComparison.Ordinal) + Two;
        await client.Replace(Uri, edited, 2);
        var sheet = (await client.Of("chordlang/sheet", Uri, $",\"known\":[{string.Join(',', known)}]"))!;
        var after = Lines(sheet);
        Assert.Equal(2, (int?)sheet["version"]);
        // Of all that is not a line nothing has changed.
        Assert.Null(sheet["look"]!["style"]);
        Assert.Equal(1, sheet["parts"]!.AsArray().Count(p => p!["html"] is not null || p["line"]?["svg"] is not null));
        Assert.Equal(["C4", "E4"], Written(after[0], edited));
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

    [Fact]
    public async Task Large_print_numerals_and_what_remains_can_be_chosen()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, "key C major\n\n| Dm7 | G7 | Cmaj7 | Cmaj7\n");
        var plain = (await client.Of("chordlang/sheet", Uri))!;
        var chosen = (await client.Of("chordlang/sheet", Uri, ",\"large\":true,\"numerals\":true,\"skeleton\":true"))!;
        Assert.DoesNotContain("remains", (string?)plain["parts"]![0]!["html"], StringComparison.Ordinal);
        Assert.Contains("remains", (string?)chosen["parts"]![0]!["html"], StringComparison.Ordinal);
        var drawn = Lines(chosen).SelectMany(l => XDocument.Parse((string)l["svg"]!).Descendants()).ToList();
        Assert.Equal(["ii7", "V7", "Imaj7", "Imaj7"], drawn.Where(e => ((string?)e.Attribute("class"))?.Split(' ').Contains("cu") == true).Select(e => e.Value));
        Assert.Contains(drawn, e => (string?)e.Attribute("class") == "bone");
        Assert.NotEqual((string?)plain["look"]!["style"], (string?)chosen["look"]!["style"]);
    }

    [Fact]
    public async Task A_narrow_page_has_shorter_lines()
    {
        await using var client = await LspClient.Start();
        await client.Open(Uri, "key C major\n\n" + string.Concat(Enumerable.Repeat("| C\n    1 C4  2 E4  3 G4  4 E4\n\n", 8)));
        Assert.Equal(2, Lines((await client.Of("chordlang/sheet", Uri))!).Count);
        var narrow = Lines((await client.Of("chordlang/sheet", Uri, ",\"width\":400"))!);
        Assert.Equal(4, narrow.Count);
        Assert.All(narrow, l => Assert.StartsWith("0 0 400 ", XDocument.Parse((string)l["svg"]!).Root!.Attribute("viewBox")!.Value, StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_it_sounds_comes_when_it_is_asked_for()
    {
        await using var client = await LspClient.Start();
        Assert.Null(await client.Of("chordlang/heard", Uri));
        await client.Open(Uri, "tempo 60\n\n" + One + Two);
        var heard = (await client.Of("chordlang/heard", Uri))!;
        Assert.Equal(1, (int?)heard["version"]);
        var music = JsonNode.Parse((string)heard["music"]!)!;
        Assert.Equal([60, 64, 67, 71], music["notes"]!.AsArray().Select(n => (int)n![2]!));
        Assert.Equal([0, 2, 4, 6], music["notes"]!.AsArray().Select(n => (double)n![0]!));
        Assert.All(heard["practise"]!.AsArray(), p => Assert.Equal($"Practise bar {(int)p!["bar"]! + 1}", (string?)p["words"]));
        var line = Lines((await client.Of("chordlang/sheet", Uri))!)[0];
        Assert.Contains("Hear from here", (string?)line["margin"], StringComparison.Ordinal);
    }

    // A line as it was sent, with the id of its part.
    private static List<JsonNode> Lines(JsonNode sheet) =>
    [
        .. sheet["parts"]!.AsArray().Where(p => p!["line"] is not null).Select(p =>
        {
            var line = p!["line"]!.DeepClone();
            line["id"] = (string?)p["id"];
            return line;
        }),
    ];

    // The text behind each number of the tablature.
    private static List<string> Written(JsonNode line, string text) =>
    [
        .. XDocument.Parse((string)line["svg"]!).Descendants().Where(e => e.Attribute("data-fret") is not null)
            .Select(e => text[(Place(e, "data-from") + (int)line["from"]!)..(Place(e, "data-to") + (int)line["from"]!)]),
    ];

    private static int Place(XElement element, string name) => int.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
