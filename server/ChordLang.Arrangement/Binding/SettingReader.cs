// Turns setting lines into what is in force, and says where a value does not go with the instrument.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Necks;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Binding;

/// <summary>Reads settings line by line.</summary>
internal sealed class SettingReader(TroubleList troubles, Settings defaults)
{
    private readonly Dictionary<SettingKind, int> written = [];
    private bool begun;

    /// <summary>What is in force now.</summary>
    public Settings Current { get; private set; } = defaults;

    /// <summary>The title, or null.</summary>
    public string? Title { get; private set; }

    /// <summary>Who wrote it, or null.</summary>
    public string? By { get; private set; }

    /// <summary>The tags.</summary>
    public ImmutableArray<string> Tags { get; private set; } = [];

    /// <summary>A bar begins: the same setting may be written anew behind it.</summary>
    public void Begin()
    {
        begun = true;
        foreach (var kind in written.Keys.Where(k => k is not (SettingKind.Title or SettingKind.By or SettingKind.Tags)).ToList())
            written.Remove(kind);
    }

    /// <summary>Applies a setting line.</summary>
    public void Apply(SettingLine line, int number)
    {
        if (line.Value is null)
            return;
        if (written.TryGetValue(line.Kind, out var before))
            troubles.Add(number, TroubleCodes.DoubledSetting, line.Keyword, (begun, line.Kind) switch
            {
                (_, SettingKind.Title or SettingKind.By or SettingKind.Tags) => $"{line[line.Keyword].TrimEnd(':')} is written in line {before + 1} already, and it holds for the whole piece. Keep one of the two.",
                _ => $"{line[line.Keyword].TrimEnd(':')} is written in line {before + 1} already, with no bar between. This one holds; take the other out.",
            });
        written.TryAdd(line.Kind, number);
        var s = Current;
        Current = line.Value switch
        {
            TextValue text => Text(line.Kind, text.Text),
            TagsValue tags => Tagged(tags),
            KeyValue key => s with { Key = KeyOf(key) },
            MeterValue meter => s with { Meter = new(meter.Counts, meter.Unit) },
            TempoValue tempo => s with { BeatsPerMinute = tempo.BeatsPerMinute, Rubato = tempo.Rubato },
            NamingValue naming => s with { Strict = naming.Strict },
            LengthValue length => Necked(line, number, s.Neck with { ScaleLength = length.Millimetres }),
            ReachValue reach => Reach(line, number, reach),
            TuningValue tuning => Tuned(line, number, tuning),
            NumberValue n when line.Kind == SettingKind.Capo => Necked(line, number, s.Neck with { Capo = n.Number }),
            NumberValue n when line.Kind == SettingKind.Frets => Necked(line, number, s.Neck with { Frets = n.Number }),
            NumberValue n when line.Kind == SettingKind.Position => Position(line, number, n.Number),
            _ => s,
        };
    }

    private Settings Text(SettingKind kind, string text)
    {
        if (kind == SettingKind.Feel)
            return Current with { Feel = text };
        if (kind == SettingKind.Title)
            Title ??= text;
        else
            By ??= text;
        return Current;
    }

    private Settings Tagged(TagsValue tags)
    {
        Tags = Tags.AddRange(tags.Tags);
        return Current;
    }

    /// <summary>The key that a setting writes.</summary>
    public static Key KeyOf(KeyValue key)
    {
        if (key.Tonic is not { } tonic)
            return Key.Signature(key.Fifths);
        var mode = Enum.GetValues<Mode>().FirstOrDefault(m => string.Equals(m.ToString(), key.Mode, StringComparison.OrdinalIgnoreCase));
        return Key.Of(Spelling.Name(tonic), mode);
    }

    private Settings Necked(SettingLine line, int number, Neck neck)
    {
        if (neck.ScaleLength is > 200 and < 2000 && neck.HighestFret >= 1)
            return Current with { Neck = neck };
        troubles.Add(number, TroubleCodes.ValueOutOfRange, line.ValueSpan, line.Kind == SettingKind.ScaleLength
            ? "No guitar has strings of this length. Give the length of the open string from nut to bridge: scale-length 628 mm."
            : $"With {neck.Frets} frets, a capo on fret {neck.Capo} leaves nothing to play. Check capo and frets.");
        return Current;
    }

    private Settings Tuned(SettingLine line, int number, TuningValue value)
    {
        if (value.Open.Length is >= 4 and <= 9 && value.Open.All(p => p.Octave is not null))
            return Current with { Neck = Current.Neck with { Tuning = new([.. value.Open.Select(p => new Pitch(Spelling.Name(p), p.Octave!.Value))]) } };
        troubles.Add(number, TroubleCodes.ValueOutOfRange, line.ValueSpan,
            "A tuning has 4 to 9 strings, lowest first, each with its octave: strings E2 A2 D3 G3 B3 E4.");
        return Current;
    }

    private Settings Reach(SettingLine line, int number, ReachValue value)
    {
        if (value.From >= 1 && value.From < value.To && value.To <= Current.Neck.HighestFret)
            return Current with { Reach = (value.From, value.To) };
        troubles.Add(number, TroubleCodes.ValueOutOfRange, line.ValueSpan,
            $"The hand cannot reach from fret {value.From} to fret {value.To} on a neck of {Current.Neck.HighestFret} frets. Name two frets that the neck has, the lower first.");
        return Current;
    }

    private Settings Position(SettingLine line, int number, int position)
    {
        if (position >= 1 && position <= Current.Neck.HighestFret)
            return Current with { Position = position };
        troubles.Add(number, TroubleCodes.ValueOutOfRange, line.ValueSpan,
            $"The neck has {Current.Neck.HighestFret} frets, so there is no position {position}.");
        return Current;
    }
}
