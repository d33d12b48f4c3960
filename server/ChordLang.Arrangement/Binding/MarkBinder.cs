// Marks that change what a note is: fingers, dead notes, bends; and the notes that marks bring with them.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Binding;

/// <summary>Applies marks to the notes of one sound.</summary>
internal sealed class MarkBinder(SoundPlace place, SoundBinder sounds, TroubleList troubles)
{
    /// <summary>The notes with their marks; marks that fit no note are told.</summary>
    public ImmutableArray<Note> Apply(ImmutableArray<Note> notes, ImmutableArray<MarkSyntax> marks)
    {
        foreach (var mark in marks)
        {
            if (mark.String is { } s && !notes.Any(n => n.String == s))
            {
                troubles.Add(place.Line, TroubleCodes.MarkOffString, mark.Name, notes.Any(n => n.String is null)
                    ? $"This mark is for string {s}, but the sound does not say which string each note is on. Write the strings too, such as G4@2."
                    : $"This mark is for string {s}, but the sound does not play that string. Name one that it plays, or take @{s} away.",
                    TroubleList.Replace($"Take @{s} away", new(mark.Name.End, 2), ""));
                continue;
            }
            notes = (mark.Kind, mark.Operand) switch
            {
                (MarkKind.Dead, _) => Each(notes, mark, n => n with { Dead = true }),
                (MarkKind.Finger, FingerOperand finger) => Fingered(notes, mark, finger.Finger),
                (MarkKind.Fingers, FingersOperand fingers) => Fingered(notes, fingers),
                (MarkKind.Bend, WordOperand amount) => Each(notes, mark, n => n with { BendTo = Spelling.Sounding(n.Midi + (amount.Word == "half" ? 1 : 2), place.Chord, place.Settings) }),
                (MarkKind.BendTo, NotesOperand { Notes.Notes: [{ Pitch: { } target }, ..] }) =>
                    Each(notes, mark, n => n with { BendTo = new Pitch(Spelling.Name(target), place.Octaves[target]) }),
                _ => notes,
            };
        }
        return notes;
    }

    /// <summary>The notes that marks of one kind bring with them, such as grace notes; their time is the event's onset.</summary>
    public ImmutableArray<Note> Operands(MarkKind kind, Rational onset)
    {
        var found = ImmutableArray.CreateBuilder<Note>();
        foreach (var mark in place.Marks)
            if (mark.Kind == kind && mark.Operand is NotesOperand { Notes: var notes })
                found.AddRange(sounds.Bind(notes, place with { Marks = [] }).Notes.Select(n => n with { Onset = onset, End = onset, WantedEnd = onset }));
        return found.ToImmutable();
    }

    private ImmutableArray<Note> Fingered(ImmutableArray<Note> notes, MarkSyntax mark, Finger finger)
    {
        if (mark.String is not null || notes.Length == 1)
            return Each(notes, mark, n => n with { Finger = finger });
        troubles.Add(place.Line, TroubleCodes.Fingers, mark.Span, $"{notes.Length} notes sound here, so one finger says too little. Write fingers with one entry a string, or the string behind the word: finger@2 3.");
        return notes;
    }

    private ImmutableArray<Note> Fingered(ImmutableArray<Note> notes, FingersOperand operand)
    {
        var (strings, fingers) = (place.Neck.Tuning.Strings, operand.Fingers);
        if (fingers.Length == strings)
            return [.. notes.Select(n => n.String is { } s && s <= strings ? n with { Finger = fingers[strings - s] } : n)];
        troubles.Add(place.Line, TroubleCodes.Fingers, operand.Span, $"These are fingers for {fingers.Length} strings, but the instrument has {strings}. Write one entry a string, lowest first, and x where no finger is.");
        return notes;
    }

    private static ImmutableArray<Note> Each(ImmutableArray<Note> notes, MarkSyntax mark, Func<Note, Note> change) =>
        [.. notes.Select(n => mark.String is null || n.String == mark.String ? change(n) : n)];
}
