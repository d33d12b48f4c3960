// Other places and other grips for a chord: the next set of strings, and other voicings under the same top note.
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Features.Voicings;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Actions;

internal static class GripActions
{
    // More grips than are offered are looked for, since some may need a string on which another voice sounds.
    private const int LeastNotes = 2, LeastChord = 3, MostOthers = 4, MostLooked = 12;

    public static IEnumerable<LessonAction> Of(Selection chosen)
    {
        if (chosen.Single is not { Voicing: { } voicing } e || e.Notes.Length < LeastNotes || e.Notes.Any(n => n.Dead || n.Harmonic || n.String is null || n.Fret is null))
            yield break;
        var (piece, neck) = (chosen.Piece, chosen.Piece.Bars[e.Bar].Settings.Neck);
        foreach (var across in (Across[])[Across.ToLowerStrings, Across.ToHigherStrings])
            if (OtherStringSet.Of(piece, e, across) is { } set && IsFree(piece, e, set.Voicing.Played))
                yield return new($"set {across}", set.Title, ActionKind.Rewrite, () => set.Edits);
        if (e.Notes.Length < LeastChord || (e.Is ?? piece.ChordAt(e.Onset)?.Chord) is not { } chord)
            yield break;
        var top = e.Notes.MaxBy(n => n.Midi)!;
        foreach (var other in ChordVoicings.Near(neck, piece.Bars[e.Bar].Settings.Hand, chord, top.Midi, voicing, MostLooked)
            .Where(o => IsFree(piece, e, o.Played) && o.Played.All(s => chord.RoleOf(neck.Midi(s, o[s]!.Value)) != ToneRole.Contradiction)).DistinctBy(o => o.ToString()).Take(MostOthers))
            yield return new($"voicing {other}", $"Play {chord.Symbol} as {other}, {Bass(chord, neck.Midi(other.Played.First(), other[other.Played.First()]!.Value))}, {top.Pitch} on top", ActionKind.Rewrite,
                () => Regrip.Of(piece, e, other));
    }

    // True where no other voice sounds on these strings while the event does.
    private static bool IsFree(Piece piece, Event e, IEnumerable<int> strings)
    {
        var end = e.Notes.Max(n => n.WantedEnd);
        var others = piece.Bars.Skip(Math.Max(0, e.Bar - 1)).Take(3).SelectMany(b => b.Rows).SelectMany(r => r.Events).Where(o => !ReferenceEquals(o, e))
            .SelectMany(o => o.Notes).Where(n => n.Onset < end && n.WantedEnd > e.Onset && n.String is not null).Select(n => n.String!.Value).ToHashSet();
        return !strings.Any(s => others.Contains(s) && e.Notes.All(n => n.String != s));
    }

    private static string Bass(Chord chord, int midi) => $"{chord.DegreeOf(midi).Spoken()} lowest";
}
