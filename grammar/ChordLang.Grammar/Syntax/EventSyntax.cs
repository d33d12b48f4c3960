// What stands in a row: events on their counts, the sounds they make, and the marks on them.
using System.Collections.Immutable;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Syntax;

/// <summary>An event, or a run of them (<c>1 to 4&amp; D4 E F</c>).</summary>
/// <param name="Span">From the count to the last mark.</param>
/// <param name="Count">Where it starts.</param>
/// <param name="To">The count of a run's last sound, or null.</param>
/// <param name="Sounds">One sound; in a run, several; none where it was forgotten (there is a finding then).</param>
public sealed record EventSyntax(Span Span, CountSyntax Count, CountSyntax? To, ImmutableArray<PlayedSyntax> Sounds);

/// <summary>A sound with the marks behind it.</summary>
public sealed record PlayedSyntax(Span Span, SoundSyntax Sound, ImmutableArray<MarkSyntax> Marks);

/// <summary>A count: the number that is spoken, and what lies behind it.</summary>
/// <param name="Span">Where it stands.</param>
/// <param name="Whole">The number, from 1.</param>
/// <param name="Beyond">How far behind that number, in counts, 0 up to but not including 1.</param>
public sealed record CountSyntax(Span Span, int Whole, Rational Beyond)
{
    private const int Most = 99;

    /// <summary>Counts from the bar line: count 1 is 0, <c>2&amp;</c> is 3/2.</summary>
    public Rational Offset => Whole - 1 + Beyond;

    /// <summary>True where a place in a bar can be written: no number of a count has more than two digits.</summary>
    public static bool CanWrite(Rational offset) => offset >= 0 && offset.Floor < Most && (offset - Rational.Of(offset.Floor)).Denominator <= Most;

    /// <summary>A place in a bar as the notation writes it: 3/2 is <c>2&amp;</c>, 17/5 is <c>4+2/5</c>.</summary>
    public static string Write(Rational offset)
    {
        var whole = offset.Floor;
        var beyond = offset - Rational.Of(whole);
        var sign = (beyond.Numerator, beyond.Denominator) switch
        {
            (0, _) => "", (1, 2) => "&", (1, 4) => "e", (3, 4) => "a", (1, 3) => "trip", (2, 3) => "let",
            _ => $"+{beyond}",
        };
        return $"{whole + 1}{sign}";
    }
}

/// <summary>What sounds.</summary>
/// <param name="Span">Where it stands.</param>
public abstract record SoundSyntax(Span Span);

/// <summary><c>rest</c>.</summary>
public sealed record RestSound(Span Span) : SoundSyntax(Span);

/// <summary><c>tied</c>: the sound before goes on.</summary>
public sealed record TiedSound(Span Span) : SoundSyntax(Span);

/// <summary><c>again</c>: the same sound struck again, with the same marks.</summary>
public sealed record AgainSound(Span Span) : SoundSyntax(Span);

/// <summary>One note or several joined by <c>+</c>.</summary>
public sealed record NotesSound(Span Span, ImmutableArray<NoteSyntax> Notes) : SoundSyntax(Span);

/// <summary>A note: <c>Eb4</c>, <c>Eb4@2</c> or <c>8@2</c>. It has a pitch, or a fret and a string.</summary>
/// <param name="Span">Where it stands.</param>
/// <param name="Pitch">Its pitch, or null where a fret is written.</param>
/// <param name="Fret">Its fret, or null where a pitch is written.</param>
/// <param name="String">Its string, 1 = highest, or null.</param>
public sealed record NoteSyntax(Span Span, PitchSyntax? Pitch, int? Fret, int? String);

/// <summary>A pitch as written.</summary>
/// <param name="Span">Where it stands, without the string.</param>
/// <param name="Letter">A to G, capital.</param>
/// <param name="Alteration">Semitones: sharps positive, flats negative.</param>
/// <param name="Octave">The octave, or null where it was left out.</param>
public sealed record PitchSyntax(Span Span, char Letter, int Alteration, int? Octave);

/// <summary>One slot a string, lowest string first: <c>x-3-5-4-5-x</c>, or compact <c>x35453</c>.</summary>
/// <param name="Span">Where it stands.</param>
/// <param name="Slots">The slots, 4 to 9 (other numbers are kept, and found later).</param>
/// <param name="Compact">True for the form without dashes, which the formatter writes out.</param>
public sealed record SlotsSound(Span Span, ImmutableArray<SlotSyntax> Slots, bool Compact) : SoundSyntax(Span);

/// <summary>A slot.</summary>
/// <param name="Span">Where it stands.</param>
/// <param name="Fret">The fret, or null for <c>x</c>.</param>
public sealed record SlotSyntax(Span Span, int? Fret);

/// <summary>A shape by its name: <c>low-drop</c>, <c>low-drop+7</c>, <c>low-drop at 8</c>.</summary>
/// <param name="Span">Where it stands.</param>
/// <param name="Name">The shape's name.</param>
/// <param name="NameSpan">Where the name stands.</param>
/// <param name="Shift">Frets up (or down), where written with <c>+</c> or <c>-</c> and a number; else 0.</param>
/// <param name="At">The fret of the lowest fretted note, where written with <c>at</c>.</param>
public sealed record ShapeSound(Span Span, string Name, Span NameSpan, int Shift, int? At) : SoundSyntax(Span);

/// <summary>Two descriptions of one sound: <c>C4+E4+A4 = x-x-x-5-5-5</c>.</summary>
public sealed record EqualSound(Span Span, SoundSyntax Left, Span Sign, SoundSyntax Right) : SoundSyntax(Span);
