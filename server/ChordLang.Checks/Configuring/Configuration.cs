// What holds for one piece besides its own lines: several sources laid over each other, each value with its origin.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;
using LeftHand = ChordLang.Fretboard.Hands.Hand;

namespace ChordLang.Checks.Configuring;

/// <summary>
/// What is configured for one piece. Made from layers, strongest first: the nearest chordlang.json, those of the folders above it, the editor.
/// A piece's own lines go before all of them.
/// <para>How a language server fills it: <c>Configuration.Of([.. layers of the files, .. ConfigurationReader.ReadEditor(json).For(null)])</c>, where json is the
/// object that the client keeps under <c>chordlang</c> (the same keys as in chordlang.json). <see cref="Defaults"/> goes to the binder by way of
/// <see cref="ILibrary.Defaults"/>, the whole to <see cref="CheckCatalogue.Run(Piece, Configuration)"/>.</para>
/// </summary>
public sealed class Configuration
{
    private readonly ImmutableArray<ConfigurationLayer> layers;
    private readonly Lazy<Settings> defaults;
    private readonly Lazy<ImmutableDictionary<string, ConfiguredValue>> levels;

    private Configuration(ImmutableArray<ConfigurationLayer> layers)
    {
        this.layers = layers;
        defaults = new(ReadDefaults);
        levels = new(ReadLevels);
    }

    /// <summary>Nothing is configured.</summary>
    public static Configuration None { get; } = new([]);

    /// <summary>Lays sources over each other, strongest first.</summary>
    public static Configuration Of(IEnumerable<ConfigurationLayer> layers) => new([.. layers]);

    /// <summary>What is in force where the piece says nothing.</summary>
    public Settings Defaults => defaults.Value;

    /// <summary>The levels that are configured, by the name of the check.</summary>
    public ImmutableDictionary<string, ConfiguredValue> Levels => levels.Value;

    /// <summary>The strongest value of a setting, or null where no source says one.</summary>
    public ConfiguredValue? this[string key]
    {
        get
        {
            foreach (var layer in layers)
                if (layer.Settings.TryGetValue(key, out var value))
                    return value;
            return null;
        }
    }

    /// <summary>Findings at their configured levels; those of a check that is off are left out.</summary>
    public ImmutableArray<Finding> Apply(ImmutableArray<Finding> findings) =>
        Levels.IsEmpty ? findings : [.. findings.Select(Levelled).OfType<Finding>()];

    /// <summary>A finding at its configured level, or null where its check is off.</summary>
    public Finding? Levelled(Finding finding) => !Levels.TryGetValue(finding.Code, out var level) ? finding
        : Enum.TryParse<Severity>(level.Value, true, out var severity) ? finding with { Severity = severity } : null;

    /// <summary>Settings as lines of the notation; the hand, which no line says, is left out.</summary>
    internal static string AsLines(IEnumerable<KeyValuePair<string, ConfiguredValue>> settings) =>
        // Frets go before what is held against the length of the neck.
        string.Join('\n', settings.Where(s => s.Key != ConfigurationKeys.Hand).OrderBy(s => s.Key is "capo" or "reach" ? 1 : 0).Select(s => $"{s.Key} {s.Value.Value}"));

    private Settings ReadDefaults()
    {
        var chosen = ConfigurationKeys.Settings.Select(k => (k.Key, Value: this[k.Key])).Where(v => v.Value is not null).Select(v => KeyValuePair.Create(v.Key, v.Value!)).ToList();
        var hand = this[ConfigurationKeys.Hand] is { } named ? LeftHand.Named(named.Value) : null;
        return Binder.Bind(SyntaxTree.Parse(AsLines(chosen))).Settings with { Hand = hand ?? LeftHand.Medium };
    }

    private ImmutableDictionary<string, ConfiguredValue> ReadLevels()
    {
        var found = ImmutableDictionary.CreateBuilder<string, ConfiguredValue>(StringComparer.Ordinal);
        foreach (var code in CheckCatalogue.All.Select(c => c.Code))
            foreach (var layer in layers)
                if (layer.Levels.TryGetValue(code, out var level) || layer.Levels.TryGetValue(ConfigurationKeys.Family(code), out level))
                {
                    found.Add(code, level);
                    break;
                }
        return found.ToImmutable();
    }
}
