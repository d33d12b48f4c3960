// What the server can be told: the table that users read against what is read, and what is left alone.
using System.Text.Json;
using System.Text.RegularExpressions;
using ChordLang.Features.Choices;
using ChordLang.Server.Lsp;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Lsp;

public sealed partial class ChoiceTests
{
    [Fact]
    public void Each_setting_of_the_page_is_read_and_its_default_is_what_the_page_says()
    {
        var rows = Row().Matches(File.ReadAllText(Repository.At("editor-client/OTHERS.md"))).Select(m => (Name: m.Groups[1].Value, Default: m.Groups[2].Value)).ToList();
        Assert.Equal(7, rows.Count);
        // The settings of the VS Code extension are the same ones.
        var settings = JsonDocument.Parse(File.ReadAllText(Repository.At("editor-client/package.json"))).RootElement.GetProperty("contributes").GetProperty("configuration").GetProperty("properties");
        Assert.Equal(rows.Select(r => r.Default), rows.Select(r => settings.GetProperty("chordlang." + r.Name).GetProperty("default").GetRawText()));
        foreach (var (name, without) in rows)
        {
            Assert.Equal(new EditorChoices(), Read(name, without));
            Assert.NotEqual(new EditorChoices(), Read(name, without switch { "true" => "false", "false" => "true", _ => "3" }));
            Assert.Equal(new EditorChoices(), Read(name, "\"a word\""));
        }
    }

    [Theory]
    [InlineData("""{"voicings":100000}""", 40)]
    [InlineData("""{"voicings":-1}""", 0)]
    [InlineData("""{"voicings":1.5}""", 8)]
    [InlineData("""{"hints":7}""", 8)]
    [InlineData("[]", 8)]
    [InlineData("null", 8)]
    public void Wrong_values_do_no_harm(string json, int voicings) => Assert.Equal(voicings, ChoiceReader.Read(JsonDocument.Parse(json).RootElement, new()).Voicings);

    private static EditorChoices Read(string name, string value)
    {
        var json = name.Split('.').Reverse().Aggregate(value, (inner, part) => "{\"" + part + "\":" + inner + "}");
        return ChoiceReader.Read(JsonDocument.Parse(json).RootElement, new());
    }

    [GeneratedRegex(@"^\| `([a-zA-Z.]+)` \| `([a-z0-9]+)` \|", RegexOptions.Multiline)]
    private static partial Regex Row();
}
