// Key, tempo and tuning in the words of the trade, for the line under the title and for changes on the way.
using System.Globalization;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Necks;
using ChordLang.Theory.Keys;

namespace ChordLang.Interchange.Sheet;

/// <summary>Settings as words.</summary>
internal static class Facts
{
    /// <summary>The line under the title.</summary>
    public static IEnumerable<string> Of(Settings settings)
    {
        if (settings.Key is { } key)
            yield return Key(key);
        yield return settings.Meter.ToString();
        if (Tempo(settings) is { } tempo)
            yield return tempo;
        if (settings.Feel is { } feel)
            yield return feel;
        if (Neck(settings.Neck) is { } neck)
            yield return neck;
        if (settings.Position is { } position)
            yield return $"position {position}";
    }

    public static string Key(Key key) => Signs(key.ToString());

    public static string? Tempo(Settings settings) => (settings.Rubato, settings.BeatsPerMinute) switch
    {
        (true, { } around) => string.Create(CultureInfo.InvariantCulture, $"free time, around {around:0.##}"),
        (true, null) => "free time",
        (false, { } beats) => string.Create(CultureInfo.InvariantCulture, $"{beats:0.##} beats a minute"),
        _ => null,
    };

    /// <summary>Tuning and capo; null where there is nothing to say.</summary>
    public static string? Neck(Neck neck)
    {
        var tuning = neck.Tuning == Tuning.Standard ? null : "strings " + string.Join(' ', neck.Tuning.Open.Select(p => Signs(p.Name.ToString())));
        var capo = neck.Capo == 0 ? null : $"capo {neck.Capo}";
        return tuning is null ? capo : capo is null ? tuning : $"{tuning}, {capo}";
    }

    // The accidental of a note name only: "2 flats" and the b of a word stay.
    private static string Signs(string name) => name.Length > 1 && name[0] is >= 'A' and <= 'G' && name[1] is 'b' or '#'
        ? name[0] + name[1..].TrimStart('b', '#') switch { var rest => string.Concat(name[1..^rest.Length].Select(c => c == 'b' ? '♭' : '♯')) + rest } : name;
}
