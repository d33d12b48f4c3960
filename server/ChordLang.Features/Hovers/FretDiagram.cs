// A grip as a picture in plain signs: strings as lines, highest on top, the degree where the finger stands.
using System.Text;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Hovers;

/// <summary>Draws grips.</summary>
public static class FretDiagram
{
    private const int FewestFrets = 4, MostFrets = 9, Cell = 5;

    /// <summary>The grip of an event, or null where it is not all on strings.</summary>
    public static string? Of(Event e, Neck neck, Chord? chord) => e.Voicing is { } voicing ? Of(voicing, neck, chord) : null;

    /// <summary>The grip; in each place stands the degree in the chord, or the note's name where there is no chord. Null where it spans too many frets.</summary>
    public static string? Of(Voicing voicing, Neck neck, Chord? chord)
    {
        if (voicing.Strings != neck.Tuning.Strings)
            return null;
        var fretted = voicing.Slots.OfType<int>().Where(f => f > 0).ToList();
        var first = fretted.Count == 0 ? 1 : fretted.Min();
        var last = fretted.Count == 0 ? FewestFrets : Math.Max(fretted.Max(), first + FewestFrets - 1);
        if (last - first >= MostFrets)
            return null;
        var text = new StringBuilder("fret    ");
        for (var fret = first; fret <= last; fret++)
            text.Append($"{fret}".PadLeft((Cell + 1) / 2 + 1).PadRight(Cell + 1));
        TrimEnd(text);
        for (var s = 1; s <= voicing.Strings; s++)
        {
            var midi = voicing[s] is { } f ? neck.Midi(s, f) : (int?)null;
            var name = midi is { } m ? chord?.Spell(m) ?? PitchName.Nearest(m, 2) : (PitchName?)null;
            var degree = midi is { } d ? chord is null ? $"{name}" : Short(chord.DegreeOf(d)) : "";
            text.Append('\n').Append($"{s}".PadRight(2)).Append((voicing[s] is null ? "x" : voicing[s] == 0 ? degree : "").PadRight(4)).Append(voicing[s] == 0 ? " o" : "  ").Append('|');
            for (var fret = first; fret <= last; fret++)
                text.Append(voicing[s] == fret ? $"({degree})".PadLeft(Cell - 1, '-').PadRight(Cell, '-') : new string('-', Cell)).Append('|');
            if (midi is { } sounding && name is { } spelled)
                text.Append("  ").Append(Pitch.Of(sounding, spelled));
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
