// Reads what is configured: the same JSON whether it stands in chordlang.json or comes from an editor.
using System.Collections.Immutable;
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Grammar.Parsing;

namespace ChordLang.Checks.Configuring;

/// <summary>Reads configuration. Never fails: what cannot be used is left out and told.</summary>
public sealed class ConfigurationReader
{
    private readonly string origin;
    private readonly bool file;
    private readonly List<ConfigurationTrouble> troubles = [];

    private ConfigurationReader(string origin, bool file) => (this.origin, this.file) = (origin, file);

    /// <summary>Reads the text of a chordlang.json.</summary>
    /// <param name="text">The text.</param>
    /// <param name="origin">How people name the file; its lines are added to it.</param>
    public static ConfigurationFile ReadFile(string text, string origin) => new ConfigurationReader(origin, true).Read(text);

    /// <summary>Reads an editor's settings: the object that an editor keeps under <c>chordlang</c>, as JSON. Its origin is <c>editor</c>, without lines; an empty text or null says nothing.</summary>
    public static ConfigurationFile ReadEditor(string? json) => new ConfigurationReader("editor", false).Read(string.IsNullOrWhiteSpace(json) ? "{}" : json);

    private ConfigurationFile Read(string text)
    {
        JsonPart whole;
        try
        {
            whole = JsonPart.Read(text);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            var line = (int)((e as JsonException)?.LineNumber ?? 0);
            return new(ConfigurationLayer.Empty, [], [], [new(line, "This is no JSON, so nothing in it holds. Look for a comma, a quote or a bracket that is missing here or on the line before.", true)]);
        }
        if (whole.Kind is JsonTokenType.Null)
            return new(ConfigurationLayer.Empty, [], [], []);
        if (whole.Kind != JsonTokenType.StartObject)
            return new(ConfigurationLayer.Empty, [], [], [new(whole.Line, "A configuration is one object: { \"naming\": \"strict\" }.", true)]);
        var all = Layer(whole, ConfigurationKeys.Top);
        var parts = Last(whole, ConfigurationKeys.Files) is { } files ? Parts(files) : [];
        var ignore = Last(whole, ConfigurationKeys.Ignore) is { } globs ? Globs(globs) : [];
        return new(all, parts, ignore, [.. troubles.OrderBy(t => t.Line)]);
    }

    private ConfigurationLayer Layer(JsonPart part, ImmutableArray<string> known)
    {
        var layer = ConfigurationLayer.Empty;
        foreach (var (key, line, value) in part.Members)
            if (ConfigurationKeys.Settings.FirstOrDefault(s => s.Key == key) is { } setting)
                layer = Text(value) is not { } text ? Tell(layer, line, $"{key} takes a text, such as \"{setting.Example}\".")
                    : setting.Fault(text) is { } fault ? Tell(layer, line, fault + ".")
                    : layer with { Settings = layer.Settings.SetItem(key, new(text, Place(line))) };
            else if (key == ConfigurationKeys.Checks && known.Contains(key))
                layer = layer with { Levels = Levels(value) };
            else if (!known.Contains(key))
                Unknown(key, line, "setting", known);
        // An editor keeps other things of ours under the same word; only a file is told of what it should not hold.
        if (OutOfRange(layer) is { } refused)
            Tell(layer, part.Line, refused);
        return layer;
    }

    // What is good alone may not go together: a reach to fret 30 on a neck of 21.
    private static string? OutOfRange(ConfigurationLayer layer) =>
        Binder.Bind(Grammar.Syntax.SyntaxTree.Parse(Configuration.AsLines(layer.Settings))).Troubles is [var first, ..] ? first.Message : null;

    private ImmutableSortedDictionary<string, ConfiguredValue> Levels(JsonPart part)
    {
        var levels = ConfigurationLayer.Empty.Levels;
        if (part.Kind != JsonTokenType.StartObject)
            Tell(levels, part.Line, "checks takes an object of levels: { \"hand-wide-stretch\": \"off\", \"name\": \"hint\" }.");
        var names = Catalogue.CheckCatalogue.All.Select(c => c.Code).Concat(ConfigurationKeys.Families).ToImmutableArray();
        foreach (var (name, line, value) in part.Members)
            if (!names.Contains(name))
                Unknown(name, line, "check or family of checks", names);
            else if (value.Kind != JsonTokenType.String || !ConfigurationKeys.Levels.Contains(value.Text))
                Tell(levels, line, $"The level of {name} can be {string.Join(", ", ConfigurationKeys.Levels)}.");
            else
                levels = levels.SetItem(name, new(value.Text, Place(line)));
        return levels;
    }

    private ImmutableArray<(string, ConfigurationLayer)> Parts(JsonPart files)
    {
        if (files.Kind != JsonTokenType.StartObject || files.Members.Any(m => m.Value.Kind != JsonTokenType.StartObject))
        {
            Tell(files, files.Line, "files takes an object of globs, each with its settings: { \"exercises/**\": { \"naming\": \"strict\" } }.");
            return [];
        }
        return [.. files.Members.Select(m => (m.Key, Layer(m.Value, ConfigurationKeys.Part)))];
    }

    private ImmutableArray<string> Globs(JsonPart globs)
    {
        if (globs.Kind == JsonTokenType.StartArray && globs.Items.All(i => i.Kind == JsonTokenType.String))
            return [.. globs.Items.Select(i => i.Text)];
        Tell(globs, globs.Line, "ignore takes a list of globs: [ \"drafts/**\" ].");
        return [];
    }

    private void Unknown(string key, int line, string what, ImmutableArray<string> known)
    {
        if (!file && what == "setting")
            return;
        var nearest = Vocabulary.Nearest(key, known) ?? known.FirstOrDefault(k => k.Contains(key, StringComparison.OrdinalIgnoreCase));
        Tell(key, line, $"There is no {what} '{key}'. " + (nearest is not null ? $"Did you mean {nearest}?"
            : what == "setting" ? $"These are known: {string.Join(", ", known.Where(k => k != ConfigurationKeys.Schema))}." : "'chordlang explain' lists them."));
    }

    private T Tell<T>(T result, int line, string message)
    {
        troubles.Add(new(line, message));
        return result;
    }

    private string Place(int line) => file ? $"{origin}, line {line + 1}" : origin;

    private static JsonPart? Last(JsonPart whole, string key) => whole.Members.LastOrDefault(m => m.Key == key).Value;

    private static string? Text(JsonPart value) => value.Kind is JsonTokenType.String or JsonTokenType.Number ? value.Text : null;
}
