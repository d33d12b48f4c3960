// The canonical text of events, sounds and marks: nothing left out, nothing said twice.
using System.Text;
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Grammar.Formatting;

/// <summary>Writes the parts of a row. Octaves come from the row's reading; chord symbols stay as the user wrote them.</summary>
public sealed class Written(RowLine row, OctaveReading octaves)
{
    /// <summary>An event as written, its count included; a run whose sounds do not fit stays a run.</summary>
    public string Event(EventSyntax e)
    {
        var text = new StringBuilder(CountSyntax.Write(e.Count.Offset));
        if (e.To is { } to)
            text.Append(" to ").Append(CountSyntax.Write(to.Offset));
        foreach (var played in e.Sounds)
            text.Append(' ').Append(Played(played));
        return text.ToString();
    }

    /// <summary>A sound with its marks.</summary>
    public string Played(PlayedSyntax played)
    {
        var text = new StringBuilder(Sound(played.Sound));
        foreach (var mark in played.Marks)
            text.Append(' ').Append(Mark(mark));
        return text.ToString();
    }

    /// <summary>A sound.</summary>
    public string Sound(SoundSyntax sound) => sound switch
    {
        RestSound => "rest",
        TiedSound => "tied",
        AgainSound => "again",
        NotesSound notes => string.Join('+', notes.Notes.Select(Note)),
        SlotsSound slots => Slots(slots),
        ShapeSound shape => shape.Name + (shape.Shift == 0 ? "" : $"+{shape.Shift}") + (shape.At is { } at ? $" at {at}" : ""),
        EqualSound equal => Both(equal),
        _ => row[sound.Span],
    };

    /// <summary>Slots with their dashes: <c>x-3-5-4-5-3</c>.</summary>
    public static string Slots(SlotsSound slots) => string.Join('-', slots.Slots.Select(s => s.Fret is { } fret ? $"{fret}" : "x"));

    /// <summary>Fingers, one a string: <c>x-1-3-2-4-x</c>.</summary>
    public static string Fingers(FingersOperand fingers) => string.Join('-', fingers.Fingers.Select(Finger));

    /// <summary>A mark with its operand.</summary>
    public string Mark(MarkSyntax mark)
    {
        if (mark.Kind == MarkKind.Remark)
            return $"\"{((WordOperand)mark.Operand!).Word}\"";
        var (first, second) = Words(mark);
        var at = mark.String is { } guitar ? $"@{guitar}" : "";
        var operand = mark.Operand is { } o && mark.Kind != MarkKind.Loudness ? " " + Operand(o) : "";
        return $"{first}{at}{second}{operand}";
    }

    /// <summary>A pitch with its octave.</summary>
    public string Pitch(PitchSyntax pitch) => Name(pitch) + octaves[pitch];

    /// <summary>A pitch without its octave.</summary>
    public static string Name(PitchSyntax pitch) => pitch.Letter + new string(pitch.Alteration < 0 ? 'b' : '#', Math.Abs(pitch.Alteration));

    private string Note(NoteSyntax note) => (note.Pitch is { } pitch ? Pitch(pitch) : $"{note.Fret}") + (note.String is { } guitar ? $"@{guitar}" : "");

    // A loop, not recursion: descriptions do not nest today, and a tree made by hand might.
    private string Both(EqualSound equal)
    {
        var right = new Stack<string>();
        SoundSyntax left = equal;
        while (left is EqualSound both)
        {
            right.Push(both.Right is EqualSound inner ? row[inner.Span] : Sound(both.Right));
            left = both.Left;
        }
        return string.Join(" = ", right.Prepend(Sound(left)));
    }

    private string Operand(OperandSyntax operand) => operand switch
    {
        CountOperand count => CountSyntax.Write(count.Count.Offset),
        NotesOperand notes => Sound(notes.Notes),
        WordOperand word => word.Word,
        FingerOperand finger => Finger(finger.Finger),
        FingersOperand fingers => Fingers(fingers),
        _ => row[operand.Span],
    };

    private static string Finger(Finger finger) => finger switch { Syntax.Finger.None => "x", Syntax.Finger.Thumb => "T", _ => $"{(int)finger}" };

    private static (string First, string Second) Words(MarkSyntax mark) => mark.Kind switch
    {
        MarkKind.RingUntil => ("ring", " until"),
        MarkKind.RingOver => ("ring", " over"),
        MarkKind.SlideFrom => ("slide", " from"),
        MarkKind.BendTo => ("bend", " to"),
        MarkKind.PalmMute => ("palm-mute", ""),
        MarkKind.Loudness => (((WordOperand)mark.Operand!).Word, ""),
        _ => (mark.Kind.ToString().ToLowerInvariant(), ""),
    };
}
