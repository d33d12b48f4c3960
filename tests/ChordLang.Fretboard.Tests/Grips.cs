// How tests write grips and fingers: as the notation does.
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Fretboard.Tests;

internal static class Grips
{
    public static Voicing Voicing(string text) => new([.. text.Split('-').Select(t => t == "x" ? (int?)null : int.Parse(t))]);

    public static Fingers Fingers(string text) => new([.. text.Split('-').Select(Digit)]);

    private static Finger? Digit(string text) => text switch { "x" or "0" => null, "T" => Finger.Thumb, _ => (Finger)int.Parse(text) };
}
