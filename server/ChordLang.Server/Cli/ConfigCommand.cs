// `chordlang config`: what holds for a file and where it comes from, and the schema of chordlang.json.
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Configuring;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

internal sealed record ConfiguredJson(string Name, string? Value, string Origin);
internal sealed record ConfigTroubleJson(string? Path, int Line, string Message);
internal sealed record ConfigJson(int Version, IReadOnlyList<ConfiguredJson> Settings, IReadOnlyList<ConfigTroubleJson> Troubles);

/// <inheritdoc/>
internal sealed class ConfigCommand : Command
{
    public override string Name => "config";

    public override string Takes => "show FILE | schema";

    public override string Summary => "Says which settings hold for a file and where each comes from; prints the schema of chordlang.json";

    public override IReadOnlyList<Option> Options { get; } = [Format];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        switch (arguments.Words)
        {
            case ["schema"]:
                terminal.Out.Write(ConfigurationSchema.Text);
                return Clean;
            case ["show", var path]:
                return Show(path, arguments.Json, terminal);
            default:
                throw new MisuseException("config takes 'show FILE', or 'schema'.");
        }
    }

    /// <summary>Tells on standard error, once each, what configuration files should say otherwise.</summary>
    public static void Tell(IEnumerable<(string? Path, ConfigurationTrouble Trouble)> troubles, Terminal terminal)
    {
        foreach (var (path, trouble) in troubles.Distinct())
            terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(path is null ? "editor" : Path.GetRelativePath(Environment.CurrentDirectory, path).Replace('\\', '/'))}, line {trouble.Line + 1}: {Terminal.Harmless(trouble.Message)}");
    }

    private static int Show(string path, bool json, Terminal terminal)
    {
        var source = Sources.Read(path);
        if (source.Text is not { } text)
        {
            terminal.Error.WriteLine($"chordlang: {Unreadable(source)}");
            return Trouble;
        }
        var library = new Library(source.FullPath);
        var piece = Binder.Bind(SyntaxTree.Parse(text), library);
        var shown = Settings(piece, library.Configuration).Concat(Levels(library.Configuration)).ToList();
        if (json)
            terminal.Json(JsonSerializer.Serialize(
                new ConfigJson(1, shown, [.. library.Configured.Troubles.Select(t => new ConfigTroubleJson(t.Path, t.Trouble.Line, t.Trouble.Message))]), Json.Plain.ConfigJson));
        else
        {
            var (names, values) = (shown.Max(s => s.Name.Length), Math.Min(24, shown.Max(s => Value(s).Length)));
            foreach (var s in shown)
                terminal.Out.WriteLine($"{s.Name.PadRight(names)}  {Terminal.Harmless(Value(s)).PadRight(values)}  {Terminal.Harmless(s.Origin)}");
            Tell(library.Configured.Troubles, terminal);
        }
        return library.Configured.Troubles.Any(t => t.Trouble.Unreadable) ? Trouble : library.Configured.Troubles.IsEmpty ? Clean : Found;
    }

    private static string Value(ConfiguredJson setting) => setting.Value ?? "–";

    // What is in force where the music begins.
    private static IEnumerable<ConfiguredJson> Settings(Piece piece, Configuration configuration)
    {
        var first = piece.Bars is [var bar, ..] ? bar.Line : piece.Tree.Lines.Length;
        foreach (var (word, kind) in Vocabulary.Settings.OrderBy(s => s.Value))
        {
            if (kind is SettingKind.Title or SettingKind.By or SettingKind.Tags)
                continue;
            var written = piece.Tree.Lines.Take(first).Select((line, i) => (Line: line as SettingLine, Number: i)).LastOrDefault(l => l.Line is { Value: not null } line && line.Kind == kind);
            yield return written.Line is { } own ? new(word, own[own.ValueSpan], $"piece, line {written.Number + 1}")
                : configuration[word] is { } value ? new(word, value.Value, value.Origin) : new(word, Default(kind), "default");
        }
        yield return configuration[ConfigurationKeys.Hand] is { } hand ? new(ConfigurationKeys.Hand, hand.Value, hand.Origin) : new(ConfigurationKeys.Hand, "medium", "default");
    }

    private static IEnumerable<ConfiguredJson> Levels(Configuration configuration) =>
        CheckCatalogue.All.Where(c => configuration.Levels.ContainsKey(c.Code))
            .Select(c => new ConfiguredJson($"{ConfigurationKeys.Checks}.{c.Code}", configuration.Levels[c.Code].Value, configuration.Levels[c.Code].Origin));

    private static string? Default(SettingKind kind)
    {
        var s = Arrangement.Music.Settings.Default;
        return kind switch
        {
            SettingKind.Meter => s.Meter.ToString(),
            SettingKind.Strings => s.Neck.Tuning.ToString(),
            SettingKind.Capo => "0",
            SettingKind.Frets => $"{s.Neck.Frets}",
            SettingKind.ScaleLength => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{s.Neck.ScaleLength} mm"),
            SettingKind.Naming => s.Strict ? "strict" : "jazz",
            _ => null,
        };
    }
}
