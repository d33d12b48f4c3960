// A grip to be shown: strings as lines, highest on top, the degree where the finger stands; in plain signs, and as a picture for clients that draw.
using System.Collections.Immutable;
using System.Text;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Hovers;

/// <summary>A grip on a stretch of the neck.</summary>
/// <param name="Voicing">The grip.</param>
/// <param name="First">The first fret shown.</param>
/// <param name="Last">The last.</param>
/// <param name="Degrees">What stands in each place, string 1 first: the degree in the chord, or the note's name where there is no chord; empty for a silent string.</param>
/// <param name="Pitches">What each string sounds, string 1 first; null for a silent one.</param>
public sealed record FretDiagram(Voicing Voicing, int First, int Last, ImmutableArray<string> Degrees, ImmutableArray<Pitch?> Pitches)
{
    private const int FewestFrets = 4, MostFrets = 9, Cell = 5;

    /// <summary>The grip of an event, or null where it is not all on strings.</summary>
    public static FretDiagram? Of(Event e, Neck neck, Chord? chord) => e.Voicing is { } voicing ? Of(voicing, neck, chord) : null;

    /// <summary>The grip; null where it spans too many frets.</summary>
    public static FretDiagram? Of(Voicing voicing, Neck neck, Chord? chord)
    {
        if (voicing.Strings != neck.Tuning.Strings)
            return null;
        var fretted = voicing.Slots.OfType<int>().Where(f => f > 0).ToList();
        var first = fretted.Count == 0 ? 1 : fretted.Min();
        var last = fretted.Count == 0 ? FewestFrets : Math.Max(fretted.Max(), first + FewestFrets - 1);
        if (last - first >= MostFrets)
            return null;
        var (degrees, pitches) = (ImmutableArray.CreateBuilder<string>(voicing.Strings), ImmutableArray.CreateBuilder<Pitch?>(voicing.Strings));
        for (var s = 1; s <= voicing.Strings; s++)
        {
            var midi = voicing[s] is { } f ? neck.Midi(s, f) : (int?)null;
            var name = midi is { } m ? chord?.Spell(m) ?? PitchName.Nearest(m, 2) : (PitchName?)null;
            degrees.Add(midi is { } d ? chord is null ? $"{name}" : Short(chord.DegreeOf(d)) : "");
            pitches.Add(midi is { } sounding && name is { } spelled ? Pitch.Of(sounding, spelled) : null);
        }
        return new(voicing, first, last, degrees.ToImmutable(), pitches.ToImmutable());
    }

    /// <summary>The grip in plain signs, a line a string.</summary>
    public string Signs()
    {
        var text = new StringBuilder("fret    ");
        for (var fret = First; fret <= Last; fret++)
            text.Append($"{fret}".PadLeft((Cell + 1) / 2 + 1).PadRight(Cell + 1));
        TrimEnd(text);
        for (var s = 1; s <= Voicing.Strings; s++)
        {
            var degree = Degrees[s - 1];
            text.Append('\n').Append($"{s}".PadRight(2)).Append((Voicing[s] is null ? "x" : Voicing[s] == 0 ? degree : "").PadRight(4)).Append(Voicing[s] == 0 ? " o" : "  ").Append('|');
            for (var fret = First; fret <= Last; fret++)
                text.Append(Voicing[s] == fret ? $"({degree})".PadLeft(Cell - 1, '-').PadRight(Cell, '-') : new string('-', Cell)).Append('|');
            if (Pitches[s - 1] is { } pitch)
                text.Append("  ").Append(pitch);
        }
        return text.ToString();
    }

    private static string Short(Degree degree) => degree.Number == 1 ? "R" : degree.ToString();

    private static void TrimEnd(StringBuilder text)
    {
        while (text.Length > 0 && text[^1] == ' ')
            text.Length--;
    }
}
