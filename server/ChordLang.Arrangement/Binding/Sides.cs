// Brings the two sides of an equal sign together: the pitches of one, strings and frets of the other.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Chords;

namespace ChordLang.Arrangement.Binding;

/// <summary>Joins two descriptions of one sound, and tells where they differ.</summary>
internal static class Sides
{
    /// <summary>
    /// The notes of both sides, each with its pitch as written and its string and fret. Where a pitch and a fret differ, the one that the chord in
    /// force agrees with is believed, else the fret.
    /// </summary>
    public static ImmutableArray<Note> Join(ImmutableArray<Note> left, ImmutableArray<Note> right, EqualSound equal, SoundPlace place, TroubleList troubles)
    {
        var swapped = !(left.All(n => n.PitchWritten) && right.All(n => n.Fret is not null)) && right.All(n => n.PitchWritten) && left.All(n => n.Fret is not null);
        var (pitches, placed) = swapped ? (right, left) : (left, right);
        var open = pitches.OrderBy(n => n.Midi).ToList();
        var (notes, foreign) = (new Note[placed.Length], new List<int>());
        foreach (var i in Enumerable.Range(0, placed.Length).OrderBy(i => placed[i].Midi))
        {
            var at = open.FindIndex(p => p.Midi == placed[i].Midi && (p.String is null || placed[i].String is null || p.String == placed[i].String));
            if (at < 0)
                foreign.Add(i);
            else
            {
                notes[i] = Both(open[at], placed[i]);
                open.RemoveAt(at);
            }
        }
        if (open.Count == 0 && foreign.Count == 0)
            return [.. notes];
        // In x35453 every sign is a string, so a fret of two digits cannot be written into it.
        var compact = equal.Left is SlotsSound { Compact: true } || equal.Right is SlotsSound { Compact: true };
        var fixes = new List<Fix>();
        var told = new List<string>();
        for (var k = 0; k < foreign.Count; k++)
            if (k < open.Count)
                notes[foreign[k]] = Decide(open[k], placed[foreign[k]], place, compact, told, fixes);
            else
            {
                notes[foreign[k]] = placed[foreign[k]];
                told.Add($"{Where(placed[foreign[k]])} sounds {placed[foreign[k]].Pitch}, which the other side does not have.");
            }
        foreach (var missing in open.Skip(foreign.Count))
            told.Add($"{missing.Pitch} is written, but the other side does not sound it.");
        var span = foreign is [var one] ? placed[one].Span : foreign.Count == 0 && open is [var only] ? only.Span : equal.Span;
        troubles.Add(new Trouble(TroubleCodes.SidesDiffer, span, "The two sides of = are not the same sound. " + string.Join(' ', told))
        {
            Fixes = foreign.Count == 1 && open.Count == 1 ? [.. fixes] : [],
            Strings = [.. foreign.Where(i => placed[i].String is not null).Select(i => placed[i].String!.Value)],
        });
        return [.. notes];
    }

    private static Note Both(Note pitch, Note placed) => placed with
    {
        Pitch = pitch.PitchWritten ? pitch.Pitch : placed.Pitch, PitchWritten = pitch.PitchWritten || placed.PitchWritten,
        PitchSpan = pitch.PitchSpan ?? placed.PitchSpan, String = placed.String ?? pitch.String, Fret = placed.Fret ?? pitch.Fret,
        FretWritten = placed.FretWritten || pitch.FretWritten, Finger = placed.Finger ?? pitch.Finger,
    };

    // One pitch against one fret: tells both ways to mend it, the one that the chord speaks for first.
    private static Note Decide(Note pitch, Note placed, SoundPlace place, bool compact, List<string> told, List<Fix> fixes)
    {
        var fret = placed.String is { } s ? Harmonics.Fret(place.Neck, s, pitch.Midi, placed.Harmonic) : null;
        told.Add($"{Where(placed)} sounds {placed.Pitch}, but {pitch.Pitch} is written; "
            + (pitch.Midi == placed.Midi ? $"and for another string, {pitch.String}." : fret is null ? $"that string does not reach {pitch.Pitch}." : $"{pitch.Pitch} is fret {fret} there."));
        var chord = place.Chord;
        var pitchFits = chord is null || chord.RoleOf(pitch.Midi) != ToneRole.Contradiction;
        var placedFits = chord is null || chord.RoleOf(placed.Midi) != ToneRole.Contradiction;
        List<Fix> both = [.. NextString(pitch, placed, place)];
        if (fret is { } f && placed.FretWritten && f != placed.Fret && (f < 10 || !compact))
            both.Add(TroubleList.Replace($"Play fret {f} on string {placed.String}", new(placed.Span.Start, $"{placed.Fret}".Length), $"{f}"));
        if (pitch.String is not null && pitch.String != placed.String && placed.String is { } there)
            both.Add(TroubleList.Replace($"Write {placed.Pitch}@{there}", pitch.Span, $"{placed.Pitch}@{there}"));
        else if (pitch.PitchSpan is { } where)
            both.Add(TroubleList.Replace($"Write {placed.Pitch}", where, $"{placed.Pitch}"));
        if (placedFits && !pitchFits)
            both.Reverse();
        fixes.AddRange(both);
        return pitchFits && !placedFits && fret is not null
            ? placed with { Pitch = pitch.Pitch, PitchWritten = true, PitchSpan = pitch.PitchSpan, Fret = fret, FretWritten = false } : placed;
    }

    // The same fret on the string beside it: the slip of an eye. Only where string and fret stand alone, as in 8@2.
    private static IEnumerable<Fix> NextString(Note pitch, Note placed, SoundPlace place)
    {
        if (placed is not { String: { } s, Fret: { } fret, FretWritten: true, Harmonic: false } || placed.Span.Length != $"{fret}@{s}".Length || pitch.String is not null)
            yield break;
        foreach (var other in (int[])[s - 1, s + 1])
            if (other >= 1 && other <= place.Neck.Tuning.Strings && place.Neck.Midi(other, fret) == pitch.Midi)
                yield return TroubleList.Replace($"Play it on string {other}, at the same fret", new(placed.Span.End - 1, 1), $"{other}");
    }

    private static string Where(Note n) => n is { String: { } s, Fret: { } f } ? f == 0 ? $"String {s}, open," : $"Fret {f} on string {s}" : "The other side";
}
