// Turns a written sound into notes: which pitch, which string, which fret. Time comes later.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Necks;
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Binding;

/// <summary>Where a sound stands. The spans of its notes and troubles are offsets of its line.</summary>
/// <param name="Line">Its line.</param>
/// <param name="Settings">What is in force.</param>
/// <param name="Octaves">The octaves of its row.</param>
/// <param name="Chord">The chord that spells what is written as frets, or null.</param>
/// <param name="Marks">The marks on it.</param>
internal sealed record SoundPlace(int Line, Settings Settings, OctaveReading Octaves, Chord? Chord, ImmutableArray<MarkSyntax> Marks)
{
    /// <summary>The neck in force.</summary>
    public Neck Neck => Settings.Neck;

    /// <summary>True where a mark is on the whole sound or on this string.</summary>
    public bool Has(MarkKind kind, int? stringNumber) => Marks.Any(m => m.Kind == kind && (m.String is null || m.String == stringNumber));

    /// <summary>A note without time.</summary>
    public Note Note(Pitch pitch, bool written, Span span, int? stringNumber, int? fret) => new()
    {
        Pitch = pitch, PitchWritten = written, Span = span, String = stringNumber, Fret = fret,
        Onset = Rational.Zero, End = Rational.Zero, WantedEnd = Rational.Zero, Harmonic = Has(MarkKind.Harmonic, stringNumber),
    };
}

/// <summary>The notes of a sound, and the shape it is made from; no notes where it could not be bound.</summary>
internal readonly record struct BoundSound(ImmutableArray<Note> Notes, Shape? Shape = null);

/// <summary>Binds sounds; a pure question of neck, shapes and chord in force.</summary>
internal sealed class SoundBinder(ShapeShelf shelf, TroubleList troubles)
{
    private static readonly BoundSound Nothing = new([]);

    /// <summary>The notes of a sound, lowest string (or as written) first.</summary>
    public BoundSound Bind(SoundSyntax sound, SoundPlace place) => sound switch
    {
        NotesSound notes => Notes(notes, place),
        SlotsSound slots => Slots(slots, place),
        ShapeSound shape => Shaped(shape, place),
        EqualSound equal => Equal(equal, place),
        _ => Nothing,
    };

    private BoundSound Equal(EqualSound equal, SoundPlace place)
    {
        var (left, right) = (Bind(equal.Left, place), Bind(equal.Right, place));
        if (left.Notes.IsEmpty || right.Notes.IsEmpty)
            return left.Notes.IsEmpty ? right : left;
        return new(Sides.Join(left.Notes, right.Notes, equal, place, troubles), left.Shape ?? right.Shape);
    }

    private BoundSound Notes(NotesSound sound, SoundPlace place)
    {
        var notes = ImmutableArray.CreateBuilder<Note>(sound.Notes.Length);
        foreach (var syntax in sound.Notes)
            if ((syntax.Pitch is { } pitch ? Pitched(syntax, pitch, place) : Fretted(syntax, place)) is { } note)
            {
                if (note.String is { } s && notes.Any(n => n.String == s))
                    Shared(syntax, note, sound, s, place);
                else
                    notes.Add(note);
            }
        return new(notes.ToImmutable());
    }

    // The free string that lies nearest is what the hand would take.
    private void Shared(NoteSyntax syntax, Note note, NotesSound sound, int s, SoundPlace place)
    {
        var neck = place.Neck;
        var free = Enumerable.Range(1, neck.Tuning.Strings).Where(t => sound.Notes.All(n => n.String != t) && neck.FretOf(t, note.Midi) is not null)
            .OrderBy(t => Math.Abs(t - s)).ThenBy(t => neck.FretOf(t, note.Midi)).Take(1);
        var span = syntax.Span;
        troubles.Add(new Trouble(TroubleCodes.TwoOnOneString, span, $"String {s} has a note already, and a string sounds one note at a time. Put this one on another string.")
        {
            Strings = [s],
            Fixes = [.. free.Select(t => TroubleList.Replace($"Play it on string {t}", span, syntax.Pitch is null ? $"{neck.FretOf(t, note.Midi)}@{t}" : $"{note.Pitch}@{t}"))],
        });
    }

    private Note? Pitched(NoteSyntax syntax, PitchSyntax written, SoundPlace place)
    {
        var pitch = new Pitch(Spelling.Name(written), place.Octaves[written]);
        var (neck, harmonic) = (place.Neck, place.Has(MarkKind.Harmonic, syntax.String));
        if (syntax.String is { } s && s > neck.Tuning.Strings)
        {
            NoString(syntax, s, place);
            return null;
        }
        var fret = syntax.String is { } on ? Harmonics.Fret(neck, on, pitch.Midi, harmonic) : null;
        var note = place.Note(pitch, true, syntax.Span, syntax.String, fret) with { PitchSpan = written.Span };
        if (fret is null && !(syntax.String is null && Reachable(neck, pitch.Midi, harmonic).Any()))
            OutOfReach(syntax, pitch, place, harmonic);
        return note;
    }

    private Note? Fretted(NoteSyntax syntax, SoundPlace place)
    {
        if (syntax is not { Fret: { } fret, String: { } s })
            return null;
        if (s > place.Neck.Tuning.Strings)
        {
            NoString(syntax, s, place);
            return null;
        }
        return OnNeck(place, s, fret, syntax.Span);
    }

    private BoundSound Slots(SlotsSound sound, SoundPlace place)
    {
        var (strings, slots) = (place.Neck.Tuning.Strings, sound.Slots);
        if (slots.Length != strings)
        {
            WrongSlots(sound.Span, slots.Length, place, Fitted(sound, place));
            return Nothing;
        }
        var notes = ImmutableArray.CreateBuilder<Note>(strings);
        for (var i = 0; i < strings; i++)
            if (slots[i].Fret is { } fret)
                notes.Add(OnNeck(place, strings - i, fret, slots[i].Span));
        if (notes.Count == 0)
            troubles.Add(place.Line, TroubleCodes.NothingPlayed, sound.Span, "An x is a string that is not played, so nothing sounds here. Write rest for a silence.",
                TroubleList.Replace("Write rest", sound.Span, "rest", true));
        return new(notes.ToImmutable());
    }

    private BoundSound Shaped(ShapeSound sound, SoundPlace place)
    {
        if (shelf.Find(sound, place.Line) is not var (shape, by))
            return Nothing;
        var strings = place.Neck.Tuning.Strings;
        if (shape.Slots.Length != strings)
        {
            WrongSlots(sound.Span, shape.Slots.Length, place);
            return Nothing;
        }
        var lowest = shape.Slots.Where(f => f > 0).Min();
        var shift = sound.At is { } at && lowest is { } l ? at - l : by;
        if (shape.Slots.Contains(0) && (shift != 0 || sound.At is not null && lowest is null))
        {
            troubles.Add(place.Line, TroubleCodes.OpenShape, sound.Span,
                $"The shape {shape.Name} has open strings, and those stay where they are when the hand moves. Write {shape.Name} alone, or give these frets one slot a string.");
            return Nothing;
        }
        var notes = ImmutableArray.CreateBuilder<Note>(strings);
        var off = false;
        for (var i = 0; i < strings; i++)
            if (shape.Slots[i] is { } fret)
            {
                var moved = fret + shift;
                if (!off && (moved < 0 || moved > place.Neck.HighestFret))
                {
                    off = true;
                    troubles.Add(new Trouble(TroubleCodes.OffNeck, sound.Span, moved < 0
                        ? $"Moved so far down, the shape {shape.Name} leaves the neck on string {strings - i}."
                        : $"Moved so far up, the shape {shape.Name} wants fret {moved} on string {strings - i}, but the neck ends at fret {place.Neck.HighestFret}.")
                    { Strings = [strings - i] });
                }
                var finger = shape.Fingers is { } fingers ? fingers[i] : (Finger?)null;
                notes.Add(Sounding(place, strings - i, moved, sound.Span) with { Finger = finger });
            }
        return off ? Nothing : new(notes.ToImmutable(), shape);
    }

    private Note OnNeck(SoundPlace place, int s, int fret, Span span)
    {
        if (fret > place.Neck.HighestFret)
            troubles.Add(new Trouble(TroubleCodes.OffNeck, span, place.Neck.Capo > 0
                ? $"There is no fret {fret}: counted from the capo, this neck ends at fret {place.Neck.HighestFret}."
                : $"There is no fret {fret}: this neck ends at fret {place.Neck.HighestFret}. If yours has more, say so with the setting frets.")
            { Strings = [s] });
        return Sounding(place, s, fret, span) with { FretWritten = true };
    }

    private static Note Sounding(SoundPlace place, int s, int fret, Span span)
    {
        var midi = Harmonics.Midi(place.Neck, s, fret, place.Has(MarkKind.Harmonic, s));
        return place.Note(Spelling.Sounding(midi, place.Chord, place.Settings), false, span, s, fret);
    }

    private void NoString(NoteSyntax syntax, int s, SoundPlace place) =>
        troubles.Add(place.Line, TroubleCodes.NoSuchString, new(syntax.Span.End - 1, 1),
            $"There is no string {s}: this instrument has {place.Neck.Tuning.Strings}, and string 1 is the highest.",
            syntax.Fret is { } fret && fret >= 1 && fret <= place.Neck.Tuning.Strings && s <= place.Neck.HighestFret
                ? [TroubleList.Replace($"Write {s}@{fret}: the fret comes first", syntax.Span, $"{s}@{fret}")] : []);

    // Slots brought to the number of strings by an x more or fewer at either end; first the one that goes best with the chord.
    private static ImmutableArray<Fix> Fitted(SoundSyntax sound, SoundPlace place)
    {
        var (neck, slots) = (place.Neck, ((SlotsSound)sound).Slots.Select(s => s.Fret).ToList());
        var lacking = neck.Tuning.Strings - slots.Count;
        List<List<int?>> ways = [];
        if (lacking > 0)
            ways = [[.. slots, .. new int?[lacking]], [.. new int?[lacking], .. slots]];
        else if (slots.TakeLast(-lacking).All(f => f is null))
            ways.Add(slots[..neck.Tuning.Strings]);
        else if (slots.Take(-lacking).All(f => f is null))
            ways.Add(slots[-lacking..]);
        int Foreign(List<int?> way) => place.Chord is not { } chord ? 0
            : way.Select((f, i) => f is not { } fret ? 0 : chord.RoleOf(neck.Midi(way.Count - i, fret)) switch { ToneRole.Contradiction => 3, ToneRole.Tension => 1, _ => 0 }).Sum();
        return [.. ways.OrderBy(Foreign).Select(w => string.Join('-', w.Select(f => f?.ToString() ?? "x"))).Select(w => TroubleList.Replace($"Write {w}", sound.Span, w))];
    }

    private void WrongSlots(Span span, int slots, SoundPlace place, ImmutableArray<Fix> fixes = default)
    {
        var strings = place.Neck.Tuning.Strings;
        troubles.Add(place.Line, TroubleCodes.Slots, span,
            $"These are frets for {slots} strings, but the instrument has {strings}. Write one slot a string, lowest string first, and x for a string that is not played.", fixes.IsDefault ? [] : fixes);
    }

    private void OutOfReach(NoteSyntax syntax, Pitch pitch, SoundPlace place, bool harmonic)
    {
        var neck = place.Neck;
        var others = Reachable(neck, pitch.Midi, harmonic).ToList();
        if (syntax.String is { } s)
        {
            var open = neck.Midi(s, 0);
            troubles.Add(new Trouble(TroubleCodes.OutOfReach, syntax.Span,
                $"String {s} does not reach {pitch}: " + (pitch.Midi < open ? $"its open sound is {Spelling.Sounding(open, null, place.Settings)}, and {pitch} lies below." : $"{pitch} lies above its last fret.")
                + (others.Count > 0 ? $" It can be played on {Listed(others)}." : " No string reaches it."))
            {
                Strings = [s],
                Fixes = [.. others.OrderBy(o => Math.Abs(o - s)).Take(2).Select(o => TroubleList.Replace($"Play it on string {o}", new(syntax.Span.End - 1, 1), $"{o}"))],
            });
            return;
        }
        var up = pitch.Midi < Enumerable.Range(1, neck.Tuning.Strings).Min(n => neck.Midi(n, 0));
        var octave = pitch.Octave;
        for (var i = 0; i < 10 && !Reachable(neck, (pitch with { Octave = octave }).Midi, harmonic).Any(); i++)
            octave += up ? 1 : -1;
        var there = pitch with { Octave = octave };
        troubles.Add(place.Line, TroubleCodes.OutOfReach, syntax.Pitch!.Span,
            $"No string reaches {pitch}: it lies {(up ? "below the lowest open string" : "above the last fret of the highest string")}. Check the octave; middle C is C4.",
            Reachable(neck, there.Midi, harmonic).Any() ? [TroubleList.Replace($"Write {there}", syntax.Pitch.Span, $"{there}")] : []);
    }

    private static IEnumerable<int> Reachable(Neck neck, int midi, bool harmonic) =>
        Enumerable.Range(1, neck.Tuning.Strings).Where(s => Harmonics.Fret(neck, s, midi, harmonic) is not null);

    private static string Listed(List<int> strings) => strings.Count == 1 ? $"string {strings[0]}"
        : $"strings {string.Join(", ", strings.Take(strings.Count - 1))} and {strings[^1]}";
}
