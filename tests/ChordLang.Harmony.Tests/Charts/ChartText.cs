// Writes a chart in a line of text, so that tests can be read: bars parted by |, chords of a bar share it evenly.
using System.Collections.Immutable;
using ChordLang.Harmony.Charts;
using ChordLang.Harmony.Functions;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;

namespace ChordLang.Harmony.Tests.Charts;

public static class ChartText
{
    /// <summary>What each chord of a chart does in a key that holds throughout.</summary>
    public static ImmutableArray<ChordFunction> Functions(string text, Key key) => FunctionReader.Read(Read(text), new(key, [new(1, key, true, 1)]));

    public static Chart Read(string text, int counts = 4)
    {
        var chords = new List<ChartChord>();
        var bar = 0;
        foreach (var cell in text.Split('|'))
        {
            bar++;
            var symbols = cell.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            for (var i = 0; i < symbols.Length; i++)
                chords.Add(new(bar, (double)counts * i / symbols.Length, (double)counts / symbols.Length,
                    ChordReader.Read(symbols[i]).Chord ?? throw new FormatException(symbols[i])));
        }
        return new([.. chords], counts);
    }
}
