// An arrangement as plain sentences, complete: pitches, strings, frets and rhythm can be rebuilt from the words alone.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Spoken;

/// <summary>A sentence about a place.</summary>
/// <param name="Bar">Index of the bar, or -1 for the piece as a whole.</param>
/// <param name="Offset">Offset in counts of what it tells, or null for the bar as a whole.</param>
/// <param name="Text">The sentence.</param>
public sealed record Sentence(int Bar, Rational? Offset, string Text);

/// <summary>Describes pieces for those who listen.</summary>
public static class Describer
{
    /// <summary>Everything, event by event.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="placed">Its notes on strings.</param>
    /// <param name="prose">False to leave out the teaching text under the bars, where that is read in another place.</param>
    public static ImmutableArray<Sentence> Whole(Piece piece, PlacedPiece placed, bool prose = true)
    {
        var sentences = ImmutableArray.CreateBuilder<Sentence>();
        Opening(piece, sentences);
        var places = PlacesOf(placed.Events);
        for (var i = 0; i < piece.Bars.Length; i++)
            Bar(piece, i, places, prose, sentences);
        return sentences.ToImmutable();
    }

    /// <summary>One bar as <see cref="Whole"/> tells it, without its teaching text.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="index">The bar.</param>
    /// <param name="places">The places of its events.</param>
    public static ImmutableArray<string> OfBar(Piece piece, int index, IEnumerable<EventPlace> places)
    {
        var sentences = ImmutableArray.CreateBuilder<Sentence>();
        Bar(piece, index, PlacesOf(places), false, sentences);
        return [.. sentences.Select(s => s.Text)];
    }

    private static Dictionary<Event, EventPlace> PlacesOf(IEnumerable<EventPlace> events) => events.ToDictionary(e => e.Event, ReferenceEqualityComparer.Instance as IEqualityComparer<Event>);

    private static void Bar(Piece piece, int index, Dictionary<Event, EventPlace> places, bool prose, ImmutableArray<Sentence>.Builder sentences)
    {
        var bar = piece.Bars[index];
        Section(piece, bar, sentences);
        sentences.Add(new(index, null, Heading(bar, index == 0 ? null : piece.Bars[index - 1].Settings)));
        foreach (var text in bar.Prose.Where(p => prose && p.Length > 0))
            sentences.Add(new(index, null, $"Note: {text}"));
        foreach (var e in bar.Rows.SelectMany(r => r.Events.Select(e => (Row: r, Event: e))).OrderBy(x => x.Event.Onset).ThenBy(x => x.Event.Row))
            sentences.Add(new(index, e.Event.Offset, Told(bar, e.Row, e.Event, places.GetValueOrDefault(e.Event))));
    }

    /// <summary>One sentence a bar: its chords, how much is played, and where on the neck.</summary>
    public static ImmutableArray<Sentence> Brief(Piece piece, PlacedPiece placed)
    {
        var sentences = ImmutableArray.CreateBuilder<Sentence>();
        Opening(piece, sentences);
        var byBar = placed.Events.ToLookup(e => e.Event.Bar);
        foreach (var bar in piece.Bars)
        {
            Section(piece, bar, sentences);
            var notes = byBar[bar.Index].SelectMany(e => e.Notes).ToList();
            var frets = notes.Select(n => n.Fret ?? 0).Where(f => f > 0).ToList();
            var chords = string.Join(", then ", bar.Chords.Where(c => c.Symbol is not null && c.Chord is not null).Select(c => SpokenWords.Of(c.Chord!, c.Symbol!)));
            sentences.Add(new(bar.Index, null, $"{Name(bar)}: {(chords.Length > 0 ? chords : "no chord")}; "
                + (notes.Count == 0 ? "nothing is written out." : $"{notes.Count} {(notes.Count == 1 ? "note" : "notes")}, the highest {SpokenWords.Of(notes.MaxBy(n => n.Note.Midi)!.Note.Pitch)}"
                + (frets.Count == 0 ? ", open strings only." : frets.Min() == frets.Max() ? $", at fret {frets.Min()}." : $", between frets {frets.Min()} and {frets.Max()}."))));
        }
        return sentences.ToImmutable();
    }

    private static void Opening(Piece piece, ImmutableArray<Sentence>.Builder sentences)
    {
        if (piece.Title is { } title)
            sentences.Add(new(-1, null, $"{title}{(piece.By is { } by ? $", by {by}" : "")}."));
        var neck = piece.Settings.Neck;
        sentences.Add(new(-1, null, $"The strings from the lowest: {string.Join(", ", neck.Tuning.Open.Select(SpokenWords.Of))}."
            + (neck.Capo > 0 ? $" Capo at fret {neck.Capo}; frets count from it, pitches are as they sound." : "")));
        foreach (var prose in piece.Prose.Where(p => p.Length > 0))
            sentences.Add(new(-1, null, $"Note: {prose}"));
    }

    private static void Section(Piece piece, Bar bar, ImmutableArray<Sentence>.Builder sentences)
    {
        foreach (var section in piece.Sections.Where(s => !s.Again && s.FirstBar == bar.Index))
            sentences.Add(new(bar.Index, null, $"Section {section.Name}, {section.BarCount} {(section.BarCount == 1 ? "bar" : "bars")}."));
    }

    private static string Name(Bar bar) => bar.Number == 0 ? "Pickup" : $"Bar {bar.Number}";

    private static string Heading(Bar bar, Settings? before)
    {
        var settings = before is null || before.Meter != bar.Settings.Meter ? $", meter {bar.Settings.Meter.Counts} over {bar.Settings.Meter.Unit}" : "";
        var from = bar.From > Rational.Zero ? $", from count {SpokenWords.Count(bar.From)}" : "";
        var chords = bar.Chords.Where(c => !c.Carried || bar.Repeats is not null).Select(c => c.Symbol is null ? $"no chord on {SpokenWords.Count(bar.OffsetOf(c.Start))}"
            : $"{(c.Chord is { } chord ? SpokenWords.Of(chord, c.Symbol) : c.Symbol.Text)} on {SpokenWords.Count(bar.OffsetOf(c.Start))}").ToList();
        return $"{Name(bar)}{settings}{from}: {(chords.Count > 0 ? string.Join(", ", chords) : "the chord before lasts on")}.";
    }

    private static string Told(Bar bar, Row row, Event e, EventPlace? place)
    {
        var voice = row.Voice is { } label ? $", voice {label}" : bar.Rows.Length > 1 ? $", {SpokenWords.Ordinal(row.Number)} row" : "";
        var length = SpokenWords.Length((e.End - e.Onset) / bar.Settings.Meter.Count);
        var what = e.Kind switch
        {
            EventKind.Rest => "rest",
            EventKind.Tied => "the sound before goes on",
            EventKind.Unbound => "not understood",
            _ => string.Join("; ", e.Notes.Select(n => Told(n, place, e.Notes.Length > 1 || n.Finger is not null))),
        };
        var marks = e.Marks.Where(m => m.Kind is not (MarkKind.Finger or MarkKind.Fingers)).Select(m => Mark(e, m)).ToList();
        return $"Count {SpokenWords.Count(e.Offset)}{voice}: {what}; for {length}{(marks.Count > 0 ? $"; {string.Join(", ", marks)}" : "")}.";
    }

    // A finger is said where several notes are held together, or where it is written.
    private static string Told(Note note, EventPlace? place, bool finger)
    {
        var at = place?.Notes.FirstOrDefault(n => ReferenceEquals(n.Note, note));
        var (s, fret) = at is null ? (note.String, note.Fret) : (at.String, at.Fret);
        var where = s is null ? " without a place on the neck" : fret is null ? $" on string {s} without a fret" : fret == 0 ? $" on string {s} open" : $" on string {s} fret {fret}";
        return $"{(note.Dead ? "dead note " : "")}{SpokenWords.Of(note.Pitch)}{where}{(finger && at?.Finger is { } f ? $" with {Fretboard.Hands.FingerNames.Spoken(f)}" : "")}";
    }

    private static string Mark(Event e, MarkSyntax mark)
    {
        var at = mark.String is { } s ? $" on string {s}" : "";
        return mark.Kind switch
        {
            MarkKind.Ring => "ring to the end of the bar" + at,
            MarkKind.RingOver => "ring to the end of the next bar" + at,
            MarkKind.RingUntil when mark.Operand is CountOperand { Count: var c } => $"ring until count {SpokenWords.Count(c.Offset)}" + at,
            MarkKind.Grace => $"grace {string.Join(" and ", e.Grace.Select(g => SpokenWords.Of(g.Pitch)))}",
            MarkKind.BendTo or MarkKind.Bend when e.Notes.FirstOrDefault(n => n.BendTo is not null)?.BendTo is { } to => $"bent to {SpokenWords.Of(to)}" + at,
            MarkKind.Is when mark.Operand is SymbolOperand { Symbol: var symbol } => $"a voicing of {(e.Is is { } chord ? SpokenWords.Of(chord, symbol) : symbol.Text)}",
            MarkKind.Remark when mark.Operand is WordOperand { Word: var words } => $"remark {words}",
            MarkKind.Loudness when mark.Operand is WordOperand { Word: var loud } => loud switch { "p" => "soft", "mp" => "rather soft", "mf" => "rather loud", _ => "loud" },
            MarkKind.Pluck when mark.Operand is WordOperand { Word: var fingers } => $"plucked {fingers.Replace('-', ' ')}",
            MarkKind.PalmMute => "palm muted" + at,
            MarkKind.Unsure => "not sure",
            _ => mark.Kind.ToString().ToLowerInvariant() + at,
        };
    }
}
