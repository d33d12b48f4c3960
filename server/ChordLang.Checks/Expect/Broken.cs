// Finds the places where a piece breaks an expectation.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Harmony.Voicings;

namespace ChordLang.Checks.Expect;

/// <summary>A place that breaks an expectation.</summary>
/// <param name="Span">Where.</param>
/// <param name="Sentence">What is there, as a sentence without capital and full stop.</param>
/// <param name="Strings">The strings to blame, 1 = highest.</param>
internal sealed record Broken(Span Span, string Sentence, ImmutableArray<int> Strings)
{
    // From three notes on, several sounds at once are a voicing; two are an interval (common practice).
    private const int Voiced = 3;

    /// <summary>All places that break an expectation about what is played, in order of time.</summary>
    public static IEnumerable<Broken> Find(Piece piece, Expectation wanted) => wanted.Kind switch
    {
        ExpectKind.NoFretAbove => Notes(piece, n => n.Fret > wanted.Number, Fret),
        ExpectKind.NoFretBelow => Notes(piece, n => n.Fret > 0 && n.Fret < wanted.Number, Fret),
        ExpectKind.NoOpenStrings => Notes(piece, n => n.Fret == 0, n => $"string {n.String} is played open"),
        ExpectKind.OnlyStrings => Notes(piece, n => n.String is { } s && !wanted.Names.Contains($"{s}"), n => $"{n.Pitch} is played on string {n.String}"),
        ExpectKind.OnlyShapes => Voicings(piece, e => e.Voicing is { } v && !wanted.Names.Any(n => IsMade(v, piece.Shapes[n])), e => $"the voicing {e.Voicing} is none of these shapes"),
        ExpectKind.OnlyVoicings => Voicings(piece, e => KindOf(piece, e) is { } kind && !wanted.Names.Contains(kind), e => $"the voicing is {KindOf(piece, e)}"),
        ExpectKind.EveryVoicingNamed => Voicings(piece, e => e.Is is null && piece.ChordAt(e.Onset)?.Chord is null, _ => "a voicing has no name"),
        ExpectKind.AtMostNotes => Moments(piece, m => m.Sounding.Length > wanted.Number, m => $"{m.Sounding.Length} notes sound at once"),
        ExpectKind.TopNoteIsMelody => Moments(piece, HasNoteAboveMelody, m => $"{m.Sounding[^1].Note.Pitch} lies above the melody note {Melody(m)!.Pitch}"),
        _ => [],
    };

    // Where no chord is named a kind cannot be told, and what cannot be told breaks nothing.
    private static string? KindOf(Piece piece, Event e) =>
        (e.Is ?? piece.ChordAt(e.Onset)?.Chord) is { } chord ? VoicingKind.Of([.. e.Notes.Where(n => !n.Dead).Select(n => n.Midi).Order()], chord).Kind : null;

    private static string Fret(Note note) => $"fret {note.Fret} is played on string {note.String}";

    private static IEnumerable<Broken> Notes(Piece piece, Func<Note, bool> breaks, Func<Note, string> what)
    {
        foreach (var e in Struck(piece))
            foreach (var n in e.Notes)
                if (breaks(n))
                    yield return new(n.Span, $"{Where(piece, e.Bar, e.Onset)} {what(n)}", n.String is { } s ? [s] : []);
    }

    private static IEnumerable<Broken> Voicings(Piece piece, Func<Event, bool> breaks, Func<Event, string> what) =>
        Struck(piece).Where(e => e.Notes.Length >= Voiced && breaks(e))
            .Select(e => new Broken(e.SoundSpan, $"{Where(piece, e.Bar, e.Onset)} {what(e)}", []));

    private static IEnumerable<Broken> Moments(Piece piece, Func<Moment, bool> breaks, Func<Moment, string> what) =>
        piece.Moments.Where(breaks).Select(m => new Broken(m.Events[0].SoundSpan, $"{Where(piece, m.Bar, m.Time)} {what(m)}", []));

    private static IEnumerable<Event> Struck(Piece piece) => piece.Events.Where(e => e.Kind == EventKind.Struck);

    private static string Where(Piece piece, int bar, Rational time) => $"in bar {piece.Bars[bar].Number} on {piece.Bars[bar].CountOf(time)}";

    // The same frets as the shape, all moved by one number of frets; a shape with open strings stays where it is.
    private static bool IsMade(Voicing voicing, Shape shape)
    {
        if (voicing.Slots.Length != shape.Slots.Length)
            return false;
        int? shift = shape.Slots.Contains(0) ? 0 : null;
        for (var i = 0; i < shape.Slots.Length; i++)
        {
            if (voicing.Slots[i] is null != shape.Slots[i] is null)
                return false;
            if (voicing.Slots[i] - shape.Slots[i] is { } moved && moved != (shift ??= moved))
                return false;
        }
        return true;
    }

    private static bool HasNoteAboveMelody(Moment moment) =>
        moment.Sounding.Length >= Voiced && Melody(moment) is { } melody && moment.Sounding[^1].Note.Midi > melody.Midi;

    // The highest note of the first row that sounds then, struck or held.
    private static Note? Melody(Moment moment) => moment.Sounding.LastOrDefault(h => h.Source.Row == 1)?.Note;
}
