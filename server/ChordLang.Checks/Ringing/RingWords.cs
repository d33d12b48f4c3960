// Says when and where, as players count.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Ringing;

/// <summary>Words about notes that sound on.</summary>
internal static class RingWords
{
    /// <summary>A note with its place: <c>G4 (string 2, fret 8)</c>.</summary>
    public static string Named(this Note note) => $"{note.Pitch} (string {note.String}, {(note.Fret == 0 ? "open" : $"fret {note.Fret}")})";

    /// <summary>What the writer asks: <c>is told to ring until bar 3, count 2&amp;</c>.</summary>
    public static string Asks(Piece piece, Hold hold) => hold.Kind switch
    {
        HoldKind.Ring => "is told to ring ",
        HoldKind.Tied => "is tied ",
        _ => "lasts ",
    } + Until(piece, hold.Note);

    /// <summary>A time as bar and count.</summary>
    public static string At(Piece piece, Rational time) => piece.BarAt(time) is { } bar ? $"bar {bar.Number}, count {bar.CountOf(time)}" : "the end of the piece";

    /// <summary>Several words as one says them: <c>Ab2, Eb3 and G3</c>.</summary>
    public static string Listed(IEnumerable<string> words) => words.ToList() is [.. var first, var last] ? first.Count == 0 ? last : $"{string.Join(", ", first)} and {last}" : "";

    private static string Until(Piece piece, Note note) =>
        piece.Bars.FirstOrDefault(b => b.End == note.WantedEnd) is { } bar ? $"to the end of bar {bar.Number}" : $"until {At(piece, note.WantedEnd)}";
}
