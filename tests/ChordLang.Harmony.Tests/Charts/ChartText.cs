// Writes a chart in a line of text, so that tests can be read: bars parted by |, chords of a bar share it evenly.
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Chords;

namespace ChordLang.Harmony.Tests.Charts;

public static class ChartText
{
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
