// Binds one row of one bar: its events, their notes, what rings, what is tied and what is struck again.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Chords;

namespace ChordLang.Arrangement.Binding;

/// <summary>Which row is bound.</summary>
/// <param name="Syntax">The row.</param>
/// <param name="Line">Its line.</param>
/// <param name="Number">Its number in the bar, from 1.</param>
/// <param name="VoiceKey">Its voice.</param>
/// <param name="Borrowed">True where <c>%</c> repeats it.</param>
internal sealed record RowPlan(RowLine Syntax, int Line, int Number, string VoiceKey, bool Borrowed);

/// <summary>Binds rows. What a row needs of others is the voice's memory, handed in, and the bars' places in time. All spans are offsets of the row's line.</summary>
internal sealed class RowBinder(ImmutableArray<Bar> bars, SoundBinder sounds, ChordBook book, TroubleList troubles)
{
    private readonly RingReader rings = new(bars, troubles);
    private readonly Dictionary<int, OctaveReading> octaves = [];

    /// <summary>True where the first sound of a row leans on the sound before it in its voice, or where it has none, so that later rows may.</summary>
    public static bool Leans(ImmutableArray<PlacedSound> places)
    {
        foreach (var place in places)
            if (place is { Misplaced: false, Played.Sound: not RestSound })
                return place.Played.Sound is TiedSound or AgainSound;
        return true;
    }

    /// <summary>The sounds of a row on their places.</summary>
    public ImmutableArray<PlacedSound> Places(RowPlan row, Bar bar) => RowPlaces.Of(row.Syntax, row.Line, bar, troubles);

    /// <summary>Binds a row of a bar whose chords are bound.</summary>
    public List<EventDraft> Bind(RowPlan row, Bar bar, ImmutableArray<PlacedSound> places, VoiceMemory memory)
    {
        if (!octaves.TryGetValue(row.Line, out var reading))
            octaves[row.Line] = reading = OctaveReading.Of(row.Syntax);
        var drafts = new List<EventDraft>(places.Length);
        for (var i = 0; i < places.Length; i++)
        {
            var onset = Rational.Max(bar.Start, Rational.Min(bar.TimeOf(places[i].Offset), bar.End));
            var next = i + 1;
            while (next < places.Length && places[next].Misplaced)
                next++;
            var end = places[i].Misplaced ? onset : next < places.Length ? bar.TimeOf(places[next].Offset) : bar.End;
            drafts.Add(Event(row, bar, places[i], onset, end, reading, memory));
        }
        return drafts;
    }

    private EventDraft Event(RowPlan row, Bar bar, PlacedSound place, Rational onset, Rational end, OctaveReading reading, VoiceMemory memory)
    {
        var played = place.Played;
        var bound = new Event
        {
            Kind = EventKind.Unbound, Bar = bar.Index, Row = row.Number, VoiceKey = row.VoiceKey, Offset = place.Offset, Onset = onset, End = end, Notes = [],
            Syntax = row.Borrowed ? null : played, Line = row.Line, SoundSpan = played?.Sound.Span ?? place.Count, CountSpan = place.Count,
            Marks = played?.Marks ?? [], InRun = place.InRun, Repeated = row.Borrowed,
        };
        if (played is null || place.Misplaced)
        {
            memory.Broken |= played is null;
            return new(bound, [], Home(row, bar));
        }
        switch (played.Sound)
        {
            case RestSound:
                memory.Open = null;
                return new(bound with { Kind = EventKind.Rest }, [], Home(row, bar));
            case TiedSound:
                return Tied(bound, row, bar, memory);
            case AgainSound:
                return Again(bound, row, bar, reading, memory);
            default:
                var chord = Is(played.Marks, row.Line);
                var scene = Place(row, bar, onset, reading, played.Marks, chord);
                var sound = sounds.Bind(played.Sound, scene);
                if (sound.Notes.IsEmpty)
                {
                    (memory.Broken, memory.Sound, memory.Open) = (true, null, null);
                    return new(bound with { Is = chord }, [], Home(row, bar));
                }
                var marked = new MarkBinder(scene, sounds, troubles);
                var notes = marked.Apply(sound.Notes, played.Marks);
                return Struck(bound with
                {
                    Is = chord, Shape = sound.Shape, Voicing = VoicingOf(notes, scene), Grace = marked.Operands(MarkKind.Grace, onset),
                    SlideFrom = marked.Operands(MarkKind.SlideFrom, onset),
                }, [.. notes.Select(n => new Strike(n, Home(row, bar), bound.Onset, bound.End))], Home(row, bar), row, bar, memory);
        }
    }

    private static RowHome Home(RowPlan row, Bar bar) => new(bar.Index, row.Number - 1);

    private EventDraft Struck(Event bound, ImmutableArray<Strike> strikes, RowHome grace, RowPlan row, Bar bar, VoiceMemory memory)
    {
        var draft = new EventDraft(bound with { Kind = EventKind.Struck }, strikes, grace);
        foreach (var strike in strikes)
            if (rings.End(draft.Bound, bar, row.Line, strike.Note.String) is { } end)
                strike.WantedEnd = end;
        (memory.Sound, memory.Open, memory.Broken) = (draft, draft, false);
        return draft;
    }

    private EventDraft Tied(Event bound, RowPlan row, Bar bar, VoiceMemory memory)
    {
        var before = memory.Open;
        if (before is null || !before.Strikes.Any(s => s.WantedEnd >= bound.Onset))
        {
            if (!memory.Broken)
                troubles.Add(row.Line, TroubleCodes.NothingBefore, bound.Syntax?.Sound.Span ?? default, before is null
                    ? "tied lets the sound before go on, but no sound stands before it in this voice. Write the sound itself; a voice is known by its label, or by the place of its row in the bar."
                    : "tied lets the sound before go on, but that has ended by then. Write the sound itself, or let the sound before last up to here.",
                    bound.Syntax is { } tie ? [TroubleList.Replace("Write rest", tie.Sound.Span, "rest")] : []);
            return new(bound, [], Home(row, bar));
        }
        var draft = new EventDraft(bound with
        {
            Kind = EventKind.Tied, Is = Is(bound.Marks, row.Line) ?? before.Bound.Is, Voicing = before.Bound.Voicing, Shape = before.Bound.Shape,
        }, [.. before.Strikes.Where(s => s.WantedEnd >= bound.Onset)], Home(row, bar));
        foreach (var strike in draft.Strikes)
            strike.WantedEnd = rings.End(draft.Bound, bar, row.Line, strike.Note.String) ?? Rational.Max(strike.WantedEnd, bound.End);
        (memory.Open, memory.Broken) = (draft, false);
        return draft;
    }

    private EventDraft Again(Event bound, RowPlan row, Bar bar, OctaveReading reading, VoiceMemory memory)
    {
        if (memory.Sound is not { } before)
        {
            if (!memory.Broken)
                troubles.Add(row.Line, TroubleCodes.NothingBefore, bound.Syntax?.Sound.Span ?? default,
                    "again strikes the sound before once more, but no sound stands before it in this voice. Write the sound itself; a voice is known by its label, or by the place of its row in the bar.");
            return new(bound, [], Home(row, bar));
        }
        var own = bound.Marks;
        var marks = own.IsEmpty ? before.Bound.Marks : [.. before.Bound.Marks.Where(m => !own.Any(o => Replaces(o, m))), .. own];
        var scene = Place(row, bar, bound.Onset, reading, own, null);
        var notes = new MarkBinder(scene, sounds, troubles).Apply([.. before.Strikes.Select(s => s.Note)], own);
        return Struck(bound with
        {
            Marks = marks, Repeated = true, Is = Is(own, row.Line) ?? before.Bound.Is, Voicing = before.Bound.Voicing, Shape = before.Bound.Shape,
            Grace = [.. before.Bound.Grace.Select(n => n with { Onset = bound.Onset, End = bound.Onset, WantedEnd = bound.Onset })],
        }, [.. notes.Select((n, i) => new Strike(n, before.Strikes[i].Home, bound.Onset, bound.End))], before.Grace, row, bar, memory);
    }

    private Chord? Is(ImmutableArray<MarkSyntax> marks, int line)
    {
        Chord? chord = null;
        foreach (var mark in marks)
            if (mark is { Kind: MarkKind.Is, Operand: SymbolOperand { Symbol: var symbol } })
                chord = book.Read(symbol, line) ?? chord;
        return chord;
    }

    private static SoundPlace Place(RowPlan row, Bar bar, Rational onset, OctaveReading reading, ImmutableArray<MarkSyntax> marks, Chord? chord) =>
        new(row.Line, bar.Settings, reading, chord ?? bar.Chords.LastOrDefault(c => c.Start <= onset)?.Chord, marks);

    private static Voicing? VoicingOf(ImmutableArray<Note> notes, SoundPlace place)
    {
        var slots = new int?[place.Neck.Tuning.Strings];
        foreach (var note in notes)
        {
            if (note is not { String: { } s, Fret: { } fret } || s > slots.Length || slots[^s] is not null)
                return null;
            slots[^s] = fret;
        }
        return new([.. slots]);
    }

    // A mark of one's own takes the place of the same mark of the sound before; the three ways to ring are one.
    private static bool Replaces(MarkSyntax own, MarkSyntax old) => Kin(own.Kind) == Kin(old.Kind) && (own.String is null || own.String == old.String);

    private static MarkKind Kin(MarkKind kind) => kind switch
    {
        MarkKind.RingUntil or MarkKind.RingOver => MarkKind.Ring, MarkKind.SlideFrom => MarkKind.Slide, MarkKind.BendTo => MarkKind.Bend, _ => kind,
    };
}
