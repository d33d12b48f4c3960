// The fingers that the text writes, in the words of the hand, and back.
using System.Collections.Immutable;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;
using Written = ChordLang.Grammar.Syntax.Finger;

namespace ChordLang.Arrangement.Placing;

/// <summary>Crosses between the fingers of the notation and the digits of the hand.</summary>
public static class WrittenFingers
{
    /// <summary>The digit that a written finger names; null for <c>0</c> (open) and <c>x</c> (none).</summary>
    public static Finger? Digit(this Written finger) => finger switch
    {
        Written.First => Finger.First,
        Written.Second => Finger.Second,
        Written.Third => Finger.Third,
        Written.Fourth => Finger.Little,
        Written.Thumb => Finger.Thumb,
        _ => null,
    };

    /// <summary>A whole row of written fingers, lowest string first.</summary>
    public static Fingers Digits(this ImmutableArray<Written> fingers) => new([.. fingers.Select(Digit)]);

    /// <summary>As the notation writes the fingers of a grip: <c>0-3-2-0-1-0</c>; open strings <c>0</c>, strings that are not played <c>x</c>.</summary>
    public static string Text(this Fingers fingers, Voicing voicing) =>
        string.Join('-', fingers.Slots.Select((f, i) => f?.Written() ?? (i < voicing.Strings && voicing.Slots[i] == 0 ? "0" : "x")));
}
