// Where each note lies on the strings, also where a note is held over or stands before the beat.
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Grammar.Syntax;
using Finger = ChordLang.Fretboard.Hands.Finger;

namespace ChordLang.Interchange.Sheet;

/// <summary>A place on the neck.</summary>
/// <param name="String">String, 1 = highest.</param>
/// <param name="Fret">Fret from the capo.</param>
/// <param name="Finger">The left-hand finger, or null.</param>
internal readonly record struct Spot(int String, int Fret, Finger? Finger);

/// <summary>Finds places.</summary>
internal sealed class Places
{
    private readonly Dictionary<Note, Spot> exact = new(ReferenceEqualityComparer.Instance);
    private readonly Piece piece;
    private readonly PlacedPiece placed;
    private Dictionary<(string, Rational, int), Spot>? alike;

    public Places(Piece piece, PlacedPiece placed)
    {
        (this.piece, this.placed) = (piece, placed);
        exact.EnsureCapacity(placed.Events.Length);
        foreach (var e in placed.Events)
            foreach (var n in e.Notes)
                if (n is { String: { } s, Fret: { } f })
                    exact[n.Note] = new(s, f, n.Finger);
    }

    /// <summary>True for a note that was put on a string by itself.</summary>
    public bool Has(Note note) => exact.ContainsKey(note);

    /// <summary>The place of a note, or null where the neck has none.</summary>
    public Spot? Of(Event e, Note note)
    {
        if (exact.TryGetValue(note, out var spot))
            return spot;
        if (note is { String: { } s, Fret: { } f })
            return new(s, f, null);
        return (alike ??= Alike()).TryGetValue((e.VoiceKey, note.Onset, note.Midi), out spot) ? spot : null;
    }

    // For notes that are held over: where they were struck. Asked for seldom.
    private Dictionary<(string, Rational, int), Spot> Alike()
    {
        var struck = new Dictionary<(string, Rational, int), Spot>();
        foreach (var e in placed.Events)
            foreach (var n in e.Notes)
                if (n is { String: { } s, Fret: { } f })
                    struck.TryAdd((e.Event.VoiceKey, n.Note.Onset, n.Note.Midi), new(s, f, n.Finger));
        return struck;
    }

    /// <summary>The place of a grace note or of a slide's beginning: its own, or on the string of a note that it leads to.</summary>
    public Spot? Before(Event e, Note note)
    {
        if (note is { String: { } s, Fret: { } f })
            return new(s, f, null);
        var neck = piece.Bars[e.Bar].Settings.Neck;
        foreach (var to in e.Notes)
            if (Of(e, to) is { } spot && neck.FretOf(spot.String, note.Midi) is { } fret && fret >= 0)
                return new(spot.String, fret, null);
        return null;
    }
}
