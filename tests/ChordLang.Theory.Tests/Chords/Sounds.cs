// Short ways to say what a symbol sounds like.
using ChordLang.Theory.Chords;

namespace ChordLang.Theory.Tests.Chords;

internal static class Sounds
{
    public static Chord Chord(string symbol) => ChordReader.Read(symbol) is { Chord: { } chord } ? chord : throw new FormatException($"{symbol}: {ChordReader.Read(symbol).Trouble!.Message}");

    public static string Degrees(string symbol) => string.Join(' ', Chord(symbol).Tones.Select(t => t.Degree));

    public static string Names(string symbol) => string.Join(' ', Chord(symbol).Tones.Select(t => t.Name));

    public static IEnumerable<int> Intervals(Chord chord) => chord.Tones.Select(t => t.Degree.Interval).Distinct().Order();
}
