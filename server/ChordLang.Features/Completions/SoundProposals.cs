// Proposals for the sound on a count: grips of the chord in force near the last one, shapes that fit it, its tones.
using ChordLang.Arrangement.Music;
using ChordLang.Features.Choices;
using ChordLang.Features.Voicings;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Completions;

internal static class SoundProposals
{
    private const int Grip = 3, MiddleC = 60;

    public static IEnumerable<Proposal> Of(Place place, RowLine? row, EditorChoices choices)
    {
        if (RowProposals.BarOf(place) is not { } bar)
            return [];
        var time = row is { Events: [.., var last] } ? bar.TimeOf(last.Count.Offset) : bar.Start;
        var chord = place.Lesson.Piece.ChordAt(time)?.Chord;
        var before = place.Lesson.Piece.Events.LastOrDefault(e => e.Onset < time && e.Notes.Length > 0);
        var words = new[] { place.Whole(ProposalKind.Word, "rest", "silence"), place.Whole(ProposalKind.Word, "tied", "the sound before goes on"), place.Whole(ProposalKind.Word, "again", "the same sound struck again") };
        return (chord is null ? [] : Voicings(place, bar, chord, time, choices)).Concat(Shapes(place, bar, chord)).Concat(chord is null ? [] : Tones(place, chord, before)).Concat(words);
    }

    private static IEnumerable<Proposal> Voicings(Place place, Bar bar, Chord chord, Rational time, EditorChoices choices)
    {
        var before = place.Lesson.Piece.Events.LastOrDefault(e => e.Onset < time && e.Voicing is { } v && v.Played.Count() >= Grip);
        return NearVoicings.Of(bar.Settings.Neck, bar.Settings.Hand, chord, before?.Voicing, choices.Voicings).Select(v => place.Whole(ProposalKind.Voicing, $"{v.Voicing}", $"{chord.Symbol}: {v.Why}"));
    }

    // Where a shape sounds nothing strange to the chord and all that makes it; without a chord, where it is written.
    private static IEnumerable<Proposal> Shapes(Place place, Bar bar, Chord? chord)
    {
        var neck = bar.Settings.Neck;
        foreach (var shape in place.Lesson.Piece.Shapes.Values.Where(s => s.Slots.Length == neck.Tuning.Strings).OrderBy(s => s.Name, StringComparer.Ordinal))
        {
            var voicing = new Voicing(shape.Slots);
            var lowest = shape.Slots.OfType<int>().Where(f => f > 0).DefaultIfEmpty(0).Min();
            var highest = shape.Slots.OfType<int>().DefaultIfEmpty(0).Max();
            for (var at = 1; chord is not null && lowest > 0 && !shape.Slots.Contains(0) && highest + at - lowest <= neck.HighestFret; at++)
                if (voicing.Played.Select(s => neck.Midi(s, voicing[s]!.Value + at - lowest)).ToList() is var midi
                    && midi.All(m => chord.RoleOf(m) != ToneRole.Contradiction) && chord.Missing(midi).IsEmpty)
                    yield return place.Whole(ProposalKind.Shape, $"{shape.Name} at {at}", $"the shape as {chord.Symbol}, {chord.DegreeOf(midi.Min()).Spoken()} lowest");
            yield return place.Whole(ProposalKind.Shape, shape.Name, $"{voicing}{(shape.Path is { } path ? $", of {path}" : "")}");
        }
    }

    // Each tone of the chord in the octave nearest to what came before.
    private static IEnumerable<Proposal> Tones(Place place, Chord chord, Event? before)
    {
        var from = before?.Notes.Max(n => n.Midi) ?? MiddleC;
        return chord.Tones.Select(t => (Tone: t, Midi: from + ((t.Name.PitchClass - from) % 12 + 18) % 12 - 6)).OrderBy(t => Math.Abs(t.Midi - from))
            .Select(t => place.Whole(ProposalKind.Pitch, $"{Pitch.Of(t.Midi, t.Tone.Name)}", $"the {t.Tone.Degree.Spoken()} of {chord.Symbol}"));
    }
}
