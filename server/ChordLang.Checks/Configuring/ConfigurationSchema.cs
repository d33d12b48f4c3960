// The JSON Schema of chordlang.json, made of the same list that reads it.
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Configuring;

/// <summary>Writes the schema (draft 7, which editors read).</summary>
public static class ConfigurationSchema
{
    /// <summary>The schema, as the repository publishes it in <c>editor-client/chordlang.schema.json</c>.</summary>
    public static string Text { get; } = Write();

    private static string Write()
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
        {
            json.WriteStartObject();
            json.WriteString("$schema", "http://json-schema.org/draft-07/schema#");
            json.WriteString("title", "chordlang.json");
            json.WriteString("description", "What holds for the lessons in this folder and below it, where a lesson says nothing itself. The nearest file wins, value by value.");
            json.WriteString("type", "object");
            json.WriteBoolean("additionalProperties", false);
            json.WriteStartObject("properties");
            json.WriteStartObject(ConfigurationKeys.Schema);
            json.WriteString("type", "string");
            json.WriteEndObject();
            Values(json);
            json.WriteStartObject(ConfigurationKeys.Files);
            json.WriteString("description", "Settings for some of the files, by glob from this folder: * is part of a name, ** any folders. Of two globs that meet, the later holds.");
            json.WriteString("type", "object");
            json.WriteStartObject("additionalProperties");
            json.WriteString("type", "object");
            json.WriteBoolean("additionalProperties", false);
            json.WriteStartObject("properties");
            Values(json);
            json.WriteEndObject();
            json.WriteEndObject();
            json.WriteEndObject();
            json.WriteStartObject(ConfigurationKeys.Ignore);
            json.WriteString("description", "Globs of files that are left out when a folder is named; a file that is named itself is read all the same.");
            json.WriteString("type", "array");
            json.WriteStartObject("items");
            json.WriteString("type", "string");
            json.WriteEndObject();
            json.WriteEndObject();
            json.WriteEndObject();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(bytes.ToArray()) + "\n";
    }

    private static void Values(Utf8JsonWriter json)
    {
        foreach (var key in ConfigurationKeys.Settings)
        {
            json.WriteStartObject(key.Key);
            json.WriteString("description", key.Summary);
            if (key.Numeric)
            {
                json.WriteStartArray("type");
                json.WriteStringValue("integer");
                json.WriteStringValue("string");
                json.WriteEndArray();
            }
            else
                json.WriteString("type", "string");
            json.WriteString("pattern", key.Pattern);
            json.WriteStartArray("examples");
            json.WriteStringValue(key.Example);
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteStartObject(ConfigurationKeys.Checks);
        json.WriteString("description", "Levels by check, or by family of checks; a check's own name goes before its family.");
        json.WriteString("type", "object");
        json.WriteBoolean("additionalProperties", false);
        json.WriteStartObject("properties");
        foreach (var (name, title) in ConfigurationKeys.Families.Select(f => (f, $"All checks whose names begin with {f}-.")).Concat(CheckCatalogue.All.Select(c => (c.Code, c.Title + "."))))
        {
            json.WriteStartObject(name);
            json.WriteString("description", title);
            json.WriteStartArray("enum");
            foreach (var level in ConfigurationKeys.Levels)
                json.WriteStringValue(level);
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndObject();
        json.WriteEndObject();
    }
}
