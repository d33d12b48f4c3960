// MusicXML's harmony element as a chord symbol.
using System.Collections.Immutable;
using System.Globalization;
using System.Xml.Linq;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.MusicXml;

/// <summary>Reads harmony elements.</summary>
internal static class HarmonyReader
{
    /// <summary>A chord of the score.</summary>
    /// <param name="Symbol">The symbol; null for no chord.</param>
    /// <param name="Known">False where no symbol says it.</param>
    public readonly record struct Reading(string? Symbol, bool Known);

    /// <summary>The symbol of an element; transposition moves it.</summary>
    public static Reading Of(XElement harmony, Func<PitchName, PitchName> transpose)
    {
        var kind = harmony.Element("kind");
        var value = kind?.Value.Trim() ?? "";
        var text = (string?)kind?.Attribute("text");
        if (value == "none" || text is "N.C." or "NC")
            return new(null, true);
        if (Name(harmony.Element("root"), "root") is not { } root)
            return new(null, false);
        root = transpose(root);
        var bass = Name(harmony.Element("bass"), "bass") is { } low ? transpose(low) : (PitchName?)null;
        var degrees = Degrees(harmony, value);
        // The symbol as the writer spelled it, where it means what the kind and its degrees say.
        var tail = bass is { } b ? "/" + b : "";
        if (text is not null && text.Length < 24 && !text.Any(char.IsWhiteSpace) && ChordReader.Read($"{root}", text, bass?.ToString()).Chord is { } asWritten && (asWritten.Kind == value || Same(asWritten, degrees)))
            return new($"{root}{text}{tail}", true);
        if (degrees.IsEmpty)
            return new(null, false);
        var written = harmony.Element("degree") is null && ChordKinds.Find(value)?.Suffix is { } suffix && ChordReader.Read($"{root}", suffix, null).Chord is not null ? $"{root}{suffix}{tail}"
            : ChordWriter.Write(root, degrees, bass) ?? ChordWriter.Write(root, degrees, bass, true);
        return new(written, written is not null);
    }

    private static bool Same(Chord chord, ImmutableArray<Degree> degrees) =>
        chord.Tones.Select(t => t.Degree.Interval).Order().Distinct().SequenceEqual(degrees.Select(d => d.Interval).Order().Distinct());

    private static ImmutableArray<Degree> Degrees(XElement harmony, string kind)
    {
        var degrees = ChordKinds.Find(kind)?.Degrees.ToList() ?? [];
        if (kind is "other")
            degrees = [new(1, 0)];
        foreach (var element in harmony.Elements("degree"))
        {
            if (!int.TryParse(element.Element("degree-value")?.Value, out var number) || number is < 1 or > 15)
                continue;
            var alter = (int)Math.Round(Number(element.Element("degree-alter")));
            var own = degrees.FirstOrDefault(d => d.Number == number);
            switch (element.Element("degree-type")?.Value.Trim())
            {
                case "subtract":
                    degrees.RemoveAll(d => d.Number == number);
                    break;
                case "alter":
                    degrees.RemoveAll(d => d.Number == number);
                    degrees.Add(new(number, Math.Clamp((own.Number == number ? own.Alteration : 0) + alter, -2, 2)));
                    break;
                default:
                    // An added seventh counts from the dominant one (MusicXML 4.0, degree-alter).
                    degrees.Add(new(number, Math.Clamp(number == 7 ? alter - 1 : alter, -2, 2)));
                    break;
            }
        }
        return [.. degrees];
    }

    private static PitchName? Name(XElement? element, string name) =>
        element?.Element(name + "-step")?.Value.Trim() is [>= 'A' and <= 'G' and var letter] && (int)Math.Round(Number(element.Element(name + "-alter"))) is >= -2 and <= 2 and var alter
            ? new(Enum.Parse<Letter>(letter.ToString()), alter) : null;

    private static double Number(XElement? element) =>
        double.TryParse(element?.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && Math.Abs(number) < 100 ? number : 0;
}
