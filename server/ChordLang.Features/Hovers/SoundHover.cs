// Hovers of sounds: one note, and the whole grip it belongs to.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Features.Lessons;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Text;
using ChordLang.Harmony.Naming;
using ChordLang.Harmony.Voicings;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Hovers;

internal static class SoundHover
{
    private const int OtherNames = 3, WideFrets = 4;
    private const double WorthSaying = 0.02;

    public static HoverText Of(Lesson lesson, Bar bar, Event e, Span token, int offset)
    {
        var chord = e.Is ?? lesson.Piece.ChordAt(e.Onset)?.Chord;
        var under = e.Notes.FirstOrDefault(n => n.Span.Start <= offset && offset < n.Span.End || n.PitchSpan is { } p && p.Start <= offset && offset < p.End);
        if (e.Notes.Length == 1)
            under = e.Notes[0];
        // A shape is one word: each of its notes has the whole word for its span.
        var one = under is not null && (e.Notes.Length == 1 || under.Span.Length < e.SoundSpan.Length);
        if (e.Notes.Length == 0)
            return HoverText.Of(token, "Nothing sounds here.");
        if (e.Notes.Length == 1)
            return HoverText.Of(e.SoundSpan, Note(under!, chord), Key(lesson, bar, under!), Lasting(bar, e));
        var grip = Grip(lesson, bar, e, chord);
        var spoken = $"{lesson.Text[e.SoundSpan]} sounds {Say.List(Rising(e).Select(n => $"{n.Pitch}"))}{Degrees(e, chord)}.";
        return one ? new(under!.PitchSpan is { } written && written.Start <= offset && offset < written.End ? written : under.Span, Note(under, chord), [.. Key(lesson, bar, under) is { } key ? new[] { key } : [], spoken, .. grip], FretDiagram.Of(e, bar.Settings.Neck, chord))
            : new(e.SoundSpan, spoken, [.. grip], FretDiagram.Of(e, bar.Settings.Neck, chord));
    }

    /// <summary>What is to be said of a grip that is not part of a piece.</summary>
    public static HoverText Shape(Span span, string name, Voicing voicing, Settings settings)
    {
        var midi = voicing.Played.Select(s => settings.Neck.Midi(s, voicing[s]!.Value)).Order().ToImmutableArray();
        var names = midi.Length < 2 ? null : SoundNamer.Name([.. midi.Select(m => Pitch.Nearest(m))], NamingContext.None);
        var best = names?.Readings.FirstOrDefault();
        return new(span, $"{name} is the grip {voicing}{(best is null ? "" : $", which sounds {best.Symbol} where it is written")}.",
            [.. new[] { Hand(voicing, settings), Open(voicing), names is null ? null : Symmetry(names) }.OfType<string>()], FretDiagram.Of(voicing, settings.Neck, best?.Chord));
    }

    private static string Note(Note note, Chord? chord)
    {
        var where = note switch
        {
            { Dead: true } => "",
            { String: { } s, Fret: 0 } => $"Open string {s} sounds ",
            { String: { } s, Fret: { } fret } => $"Fret {fret} on string {s} sounds ",
            _ => "",
        };
        if (note.Dead)
            return $"A dead note on string {note.String}: struck without a pitch.";
        return $"{where}{note.Pitch}{(where.Length == 0 ? " is left open to any string" : "")}{(chord is null ? "" : $", the {chord.DegreeOf(note.Midi).Spoken()} of {chord.Symbol}")}"
            + (note.Harmonic ? ", as a harmonic." : ".");
    }

    private static string? Key(Lesson lesson, Bar bar, Note note) =>
        note.Dead || (bar.Settings.Key ?? lesson.Harmony.Keys.At(bar.Number)) is not { Tonic: { } tonic } key ? null
            : $"In {key} it is degree {InKey(note.Pitch.Name, tonic)}{(key.Holds(note.Midi) ? "" : ", which is not in the key")}.";

    private static Degree InKey(PitchName name, PitchName tonic)
    {
        var number = (name.Letter - tonic.Letter + 7) % 7 + 1;
        return new(number, (name.PitchClass - tonic.PitchClass - new Degree(number, 0).Interval + 30) % 12 - 6);
    }

    private static string Lasting(Bar bar, Event e) => $"It sounds for {Say.Counts((e.Notes[0].End - e.Notes[0].Onset) / bar.Settings.Meter.Count)}.";

    private static string Degrees(Event e, Chord? chord) => chord is null || e.Notes.Any(n => n.Dead) ? ""
        : $": {Say.List(Rising(e).Select(n => chord.DegreeOf(n.Midi).Spoken()))} of {chord.Symbol}";

    private static IEnumerable<string> Grip(Lesson lesson, Bar bar, Event e, Chord? chord)
    {
        var rising = Rising(e).ToList();
        if (rising.Any(n => n.Dead))
            yield break;
        var midi = rising.Select(n => n.Midi).ToImmutableArray();
        if (chord is not null && midi.Length > 1)
            yield return Kind(VoicingKind.Of(midi, chord));
        var names = SoundNamer.Name([.. rising.Select(n => n.Pitch)], new(bar.Settings.Key, Chart: chord, Spelled: e.Notes.All(n => n.PitchWritten)));
        var others = names.Readings.Where(r => r.Symbol != chord?.Symbol && r.Score >= WorthSaying).Take(OtherNames).Select(r => $"{r.Symbol} ({r.Why})").ToList();
        if (others.Count > 0)
            yield return $"{(chord is null ? "It may be called" : "It may also be called")} {Say.List(others, "or")}.";
        if (Symmetry(names) is { } symmetry)
            yield return symmetry;
        if (Motion(lesson, e) is { } motion)
            yield return motion;
        if (e.Voicing is not { } voicing)
            yield break;
        yield return Hand(voicing, bar.Settings);
        if (Open(voicing) is { } open)
            yield return open;
        if (e.Shape is { } shape)
            yield return $"It is the shape {shape.Name}{(shape.Path is { } path ? $" of {path}" : "")}.";
    }

    private static string Kind(VoicingShape shape) => VoicingWords.Kind(shape.Kind, shape.Inversion, shape.Rootless);

    // How it moves to the next grip of its voice, wherever that is written.
    private static string? Motion(Lesson lesson, Event e)
    {
        var next = lesson.Piece.Events.FirstOrDefault(o => o.VoiceKey == e.VoiceKey && o.Onset > e.Onset && o.Notes.Length > 0);
        if (next is null || next.Notes.Length < 2 || next.Notes.Any(n => n.Dead))
            return null;
        var motion = VoicingKind.Between([.. Rising(e).Select(n => n.Midi)], [.. Rising(next).Select(n => n.Midi)]);
        return motion is { Motion: "none", Moves: [0, ..] } && motion.Moves.All(m => m == 0) ? null
            : VoicingWords.Motion([.. motion.Common.Select(m => e.Notes.First(n => n.Midi == m).Pitch.ToString())], motion.Moves, motion.Motion);
    }

    private static string? Symmetry(SoundNames names) => names.Shift is { } shift && names.EqualRoots.Length > 1
        ? names.Readings[0].Tones.Select(t => t.Pitch.Name.PitchClass).ToHashSet() is var sound && sound.All(n => sound.Contains((n + shift) % 12))
            ? $"Moved {Say.Number(shift, "fret")} it stays in its family; {Say.List(names.EqualRoots.Select(r => $"{r}"))} serve equally as its root."
            : $"Its notes lie in the {names.Family} scale of {names.EqualRoots[0]}, which is also that of {Say.List(names.EqualRoots.Skip(1).Select(r => $"{r}"))}; moved {Say.Number(shift, "fret")} it stays in that scale." : null;

    private static string Hand(Voicing voicing, Settings settings)
    {
        var fretted = voicing.Slots.OfType<int>().Where(f => f > 0).ToList();
        if (fretted.Count == 0)
            return "It takes no left-hand finger.";
        var frets = fretted.Max() - fretted.Min() + 1;
        var wide = frets >= WideFrets ? $", {settings.Neck.Distance(fretted.Min(), fretted.Max()):0} mm along the neck. {Caution.Text}" : ".";
        return FingeringSearch.Best(settings.Neck, settings.Hand, voicing) is { Best: { } fingers }
            ? $"Fingers {fingers} hold it, over {Say.Number(frets, "fret")}{wide}" : $"No fingering was found for it, over {Say.Number(frets, "fret")}{wide}";
    }

    private static string? Open(Voicing voicing) => voicing.Slots.Contains(0)
        ? "It holds open strings, so it cannot be moved along the neck." : null;

    private static IEnumerable<Note> Rising(Event e) => e.Notes.OrderBy(n => n.Midi);
}
