// Hovers of marks: what the player does.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Hovers;

internal static class MarkHover
{
    public static HoverText Of(Bar bar, MarkSyntax mark, Span span) =>
        HoverText.Of(span, What(mark), mark.String is { } s ? $"It is meant for string {s} only." : null,
            mark.Kind == MarkKind.Finger ? null : mark.Operand is CountOperand { Count: var count } ? $"That count is said \"{Say.Spoken(count.Offset)}\" in {bar.Settings.Meter}." : null,
            mark.Kind is MarkKind.Finger or MarkKind.Fingers ? Fretboard.Hands.Caution.Text : null);

    /// <summary>What a mark asks of the player. The words are those of the trade (common practice).</summary>
    public static string What(MarkSyntax mark) => mark.Kind switch
    {
        MarkKind.Ring => "Let it ring to the end of the bar.",
        MarkKind.RingUntil => "Let it ring until that count comes round next.",
        MarkKind.RingOver => "Let it ring over the bar line, to the end of the next bar.",
        MarkKind.Short => "Play it short: let go at once.",
        MarkKind.Fermata => "Hold it longer than it is written.",
        MarkKind.Accent => "Play it louder than its neighbours.",
        MarkKind.Roll => "Roll the chord: one string after the other, lowest first.",
        MarkKind.Slur => "Bind it to the note before without a new stroke.",
        MarkKind.Slide => "Slide to this note from the note before.",
        MarkKind.SlideFrom => "Slide to this note from the place that is written.",
        MarkKind.Hammer => "Hammer on: the finger comes down without a new stroke.",
        MarkKind.Pull => "Pull off: the finger above plucks the string as it leaves.",
        MarkKind.Grace => "A grace note, quick, before the count.",
        MarkKind.Bend => $"Bend the string {(mark.Operand is WordOperand { Word: "half" } ? "up a semitone" : "up a whole tone")}.",
        MarkKind.BendTo => "Bend the string until it sounds the pitch that is written.",
        MarkKind.Vibrato => "Let the note waver with the finger.",
        MarkKind.Harmonic => "Touch the string over the fret and let the harmonic sound.",
        MarkKind.PalmMute => "Rest the edge of the hand on the strings at the bridge.",
        MarkKind.Dead => "Struck without a pitch: the fingers lie on the string and do not press.",
        MarkKind.Finger => mark.Operand is FingerOperand { Finger: var finger } ? $"Hold it with the {Finger(finger)}." : "Hold it with that finger.",
        MarkKind.Fingers => "Left-hand fingers, one entry a string, lowest string first: 1 is the index finger, T the thumb, 0 open, x none.",
        MarkKind.Pluck => "Right-hand fingers: p is the thumb, i the index, m the middle and a the ring finger.",
        MarkKind.Is => "Behind this word stands the name of the sound; the checker holds the two against each other.",
        MarkKind.Unsure => "Written down by ear and not yet sure; check lists it.",
        MarkKind.Loudness => mark.Operand is WordOperand { Word: var word } ? $"From here on play {Loud(word)}." : "How loud to play from here on.",
        _ => "A remark to the player.",
    };

    private static string Finger(Finger finger) => finger switch
    {
        Grammar.Syntax.Finger.First => "index finger", Grammar.Syntax.Finger.Second => "middle finger", Grammar.Syntax.Finger.Third => "ring finger",
        Grammar.Syntax.Finger.Fourth => "little finger", Grammar.Syntax.Finger.Thumb => "thumb", _ => "open string",
    };

    private static string Loud(string word) => word switch { "p" => "softly", "mp" => "rather softly", "mf" => "with moderate strength", _ => "loudly" };
}
