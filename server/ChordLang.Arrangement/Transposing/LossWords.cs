// Says in plain sentences what stopped a voicing, what is written instead, and what to do.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;

namespace ChordLang.Arrangement.Transposing;

/// <summary>The words of losses.</summary>
internal static class LossWords
{
    /// <summary>A grip that could not move along.</summary>
    public static string Grip(Stop stop, GripMove move, int by, Settings settings)
    {
        var strings = Strings(stop.Strings);
        var why = (stop.Obstacle, by > 0) switch
        {
            (Obstacle.OpenString, true) when stop.Far is { } far => $"{strings} {(stop.Strings.Length == 1 ? "was" : "were")} open. {Frets(by)} up, where no string is open, "
                + $"the {far.Pair} would lie {far.Millimetres:0} mm apart in this grip, and this hand is at ease up to {far.Comfortable:0} mm.",
            (Obstacle.OpenString, true) => $"{strings} {(stop.Strings.Length == 1 ? "was" : "were")} open. {Frets(by)} up, where no string is open, this grip cannot be held.",
            (Obstacle.OpenString, _) => $"{strings} {(stop.Strings.Length == 1 ? "was" : "were")} open, and an open string does not go lower.",
            (_, true) => $"{Frets(by)} up, this grip leaves the neck, which ends at fret {settings.Neck.HighestFret}.",
            _ => $"{Frets(-by)} down, this grip leaves the neck at the nut.",
        };
        var notes = move.Events.SelectMany(e => e.Notes).Where(n => n.Note is { String: not null, Dead: false, Harmonic: false }).ToList();
        if (!stop.Found)
            return $"{why} No grip near by holds its tones. {(notes.All(n => n.String is not null) ? "The frets are written all the same" : "Its pitches are written without strings")}: choose a voicing of your own.";
        var (gone, octaves) = (notes.Where(n => n.LeftOut).ToList(), notes.Count(n => !n.LeftOut && n.Pitch.Midi - n.Note.Midi != by));
        var instead = octaves == 0 ? "The same notes lie on other strings now" : octaves == notes.Count && octaves > 1 ? "All of it sounds an octave away now"
            : notes.Count == 1 ? "It sounds in another octave now"
            : $"The tones are the same, {octaves} of them in another octave";
        var less = gone.Count == 0 ? "" : $", and {string.Join(" and ", gone.Select(n => n.Pitch))} {(gone.Count == 1 ? "is" : "are")} left out";
        var (was, now) = (notes.MinBy(n => n.Note.Midi)!, notes.Where(n => !n.LeftOut).MinBy(n => n.Pitch.Midi)!);
        var bass = (now.Pitch.Midi - was.Note.Midi - by) % 12 == 0 ? "" : $" The lowest tone is {now.Pitch.Name} now and no longer {was.Pitch.Name}.";
        return $"{why} {instead}{less}.{bass} Play it, and choose another voicing if it does not suit your hand.";
    }

    /// <summary>A shape with open strings whose frets are written out.</summary>
    public static string Shape(string name) =>
        $"The shape {name} has open strings, so it cannot move along. Its frets are written out here and sound the same.";

    /// <summary>A natural harmonic that is held now.</summary>
    public static string Harmonic(ImmutableArray<int> strings) =>
        $"{Strings(strings)} gave a natural harmonic, and that lies where it lies. The same pitch is written as a held harmonic, or without a string where none gives it: try whether it can be played.";

    /// <summary>A pitch that no string has any more.</summary>
    public static string Octave(string wanted, string written) =>
        $"No string reaches {wanted}, so {written} is written, an octave away. See whether the line still sings.";

    /// <summary>A grace note or the begin of a slide that could not move along.</summary>
    public static string Operand(string mark, int fret, int stringNumber, string? slide) =>
        $"The fret behind {mark} was {fret} on string {stringNumber}, and that string does not hold the new pitch. "
        + (slide is null ? "It is written as a pitch: choose its string." : $"It is written as a slide from {slide}.");

    /// <summary>A position that the neck does not have.</summary>
    public static string Position(int position, int by) =>
        $"Position {position} cannot move {Frets(Math.Abs(by)).ToLowerInvariant()} {(by > 0 ? "up" : "down")}, so it stays as written. Write the position that is meant, or take the line out.";

    private static string Frets(int frets) => Math.Abs(frets) == 1 ? "One fret" : $"{Math.Abs(frets)} frets";

    private static string Strings(ImmutableArray<int> strings) => strings.Length == 1 ? $"String {strings[0]}"
        : $"Strings {string.Join(", ", strings.Take(strings.Length - 1))} and {strings[^1]}";
}
