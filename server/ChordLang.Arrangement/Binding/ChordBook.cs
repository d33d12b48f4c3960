// Reads each chord symbol once, for all pieces, and tells what is wrong where it stands.
using System.Collections.Concurrent;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Chords;

namespace ChordLang.Arrangement.Binding;

/// <summary>The chord symbols of one piece.</summary>
internal sealed class ChordBook(TroubleList troubles)
{
    private const int MostFixes = 4, MostKept = 4096;

    // What a symbol means hangs on nothing else. When full, all is forgotten and begun anew.
    private static readonly ConcurrentDictionary<(string, string, string?), ChordReading> Readings = [];

    /// <summary>What a symbol on a line means, or null; the trouble is told.</summary>
    public Chord? Read(SymbolSyntax symbol, int line)
    {
        var key = (symbol.Root, symbol.Suffix, symbol.Bass);
        if (!Readings.TryGetValue(key, out var reading))
        {
            if (Readings.Count >= MostKept)
                Readings.Clear();
            Readings[key] = reading = ChordReader.Read(symbol.Root, symbol.Suffix, symbol.Bass);
        }
        if (reading.Trouble is { } trouble)
            troubles.Add(line, TroubleCodes.UnknownChord, Blame(symbol, trouble), trouble.Message,
                [.. trouble.Nearest.Take(MostFixes).Select(n => TroubleList.Replace($"Write {n}", symbol.Span, n))]);
        return reading.Chord;
    }

    // The reader counts in the symbol without blanks; where blanks stood in it, its places are not those of the text.
    private static Span Blame(SymbolSyntax symbol, ChordTrouble trouble) =>
        symbol.Text.Length == symbol.Span.Length && trouble.Length > 0 && trouble.At >= 0 && trouble.At + trouble.Length <= symbol.Span.Length
            ? new(symbol.Span.Start + trouble.At, trouble.Length) : symbol.Span;
}
