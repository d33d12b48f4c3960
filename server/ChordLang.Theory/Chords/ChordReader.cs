// Reads a chord symbol as players write it.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>Reads chord symbols.</summary>
public static class ChordReader
{
    /// <summary>Reads a whole symbol, such as <c>F#m7b5/C</c>.</summary>
    public static ChordReading Read(string symbol)
    {
        var end = symbol.Length > 1 && symbol[1] is '#' or 'b' ? 2 : 1;
        var slash = symbol.LastIndexOf('/');
        return slash > 0 ? Read(symbol[..end], symbol[end..slash], symbol[(slash + 1)..]) : Read(symbol[..end], symbol[end..], null);
    }

    /// <summary>Reads a symbol that is already parted into root, suffix and slash bass. Offsets of a trouble count from the start of the root.</summary>
    public static ChordReading Read(string root, string suffix, string? bass)
    {
        string? text = suffix switch
        {
            "" => "1 3 5", "m" => "1 b3 5", "7" => "1 3 5 b7", "maj7" => "1 3 5 7", "m7" => "1 b3 5 b7", "m7b5" => "1 b3 b5 b7", "dim7" => "1 b3 b5 bb7",
            _ => null,
        };
        if (text is null || !PitchName.TryParse(root, out var r))
            return new(null, new(root.Length, suffix.Length, "not understood", []));
        var tones = text.Split(' ').Select(t => Degree.TryParse(t, out var d) ? d : default)
            .Select(d => new ChordTone(d, d.Above(r), d.Number is 1 or 5 ? ToneRole.Optional : ToneRole.Essential)).ToImmutableArray();
        var usual = "1 b9 9 b3 3 11 #11 5 b13 13 b7 7".Split(' ').Select(t => Degree.TryParse(t, out var d) ? d : default).ToArray();
        foreach (var t in tones)
            usual[t.Degree.Interval] = t.Degree;
        var roles = Enumerable.Range(0, 12).Select(i => tones.FirstOrDefault(t => t.Degree.Interval == i)?.Role ?? ToneRole.Contradiction).ToImmutableArray();
        return new(new Chord(root + suffix, r, "other", tones, bass is not null && PitchName.TryParse(bass, out var b) ? b : null, roles, [.. usual]), null);
    }
}
