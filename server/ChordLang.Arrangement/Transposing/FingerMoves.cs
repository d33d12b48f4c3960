// Written fingers after a move: they stay where the hand stays as it was, and follow where a string is no longer open or open now.
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Transposing;

/// <summary>Answers null where the written fingers stay, and an empty text where the mark has to go.</summary>
internal static class FingerMoves
{
    /// <summary>The operand of <c>fingers</c>.</summary>
    public static string? All(FingersOperand written, EventMove move, GripMoves grips, Settings settings)
    {
        var strings = settings.Neck.Tuning.Strings;
        if (written.Fingers.Length != strings)
            return null;
        if (Regripped(move))
            return move.Fingers is { } other ? Text(other, VoicingOf(move, strings)) : "";
        var freed = move.Notes.Where(n => n is { Note.Fret: > 0, Fret: 0, String: not null }).Select(n => strings - n.String!.Value).ToHashSet();
        var pressed = move.Notes.Any(n => n is { Note: { Fret: 0, Harmonic: false, Dead: false }, Fret: > 0 });
        if (pressed)
            return grips.Fingering(settings, VoicingOf(move, strings)) is { } best ? Text(best, VoicingOf(move, strings)) : null;
        return freed.Count == 0 ? null
            : string.Join('-', written.Fingers.Select((f, i) => freed.Contains(i) ? "0" : f == Grammar.Syntax.Finger.None ? "x" : f.Digit()?.Written() ?? "0"));
    }

    /// <summary>The operand of <c>finger</c>.</summary>
    public static string? One(int? stringNumber, EventMove move)
    {
        var meant = move.Notes.Where(n => stringNumber is null || n.Note.String == stringNumber).ToList();
        if (meant.Count == 0)
            return null;
        if (meant.Any(n => n.Fret == 0 && n.Note.Fret > 0))
            return "";
        return !Regripped(move) ? null : meant[0] is { String: { } s } && move.Fingers?[s] is { } finger ? finger.Written() : "";
    }

    private static bool Regripped(EventMove move) => move.Fingers is not null && move.Shift is null || !move.SameStrings;

    private static string Text(Fingers fingers, Voicing voicing) =>
        new Fingers([.. fingers.Slots.Select((f, i) => voicing.Slots[i] is null ? null : f)]).Text(voicing);

    private static Voicing VoicingOf(EventMove move, int strings)
    {
        var slots = new int?[strings];
        foreach (var n in move.Notes)
            if (n is { LeftOut: false, String: { } s, Fret: { } fret } && s <= strings)
                slots[^s] = fret;
        return new([.. slots]);
    }
}
