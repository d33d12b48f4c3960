// Octaves that were left out while typing, worked out the way a player would take them.
using ChordLang.Grammar.Syntax;

namespace ChordLang.Grammar.Reading;

/// <summary>
/// The octave of every pitch of a row. The first pitch carries one; the next takes the octave nearest, in semitones, to the pitch before
/// (of a stack: its first). Six semitones either way: the one with fewer letter steps (C to F sharp goes up, C to G flat goes down).
/// In a stack each note is the next above the one before it. A pitch behind a mark (<c>grace D#</c>) is nearest to its own sound.
/// </summary>
public sealed class OctaveReading
{
    private const string Letters = "CDEFGAB";
    private readonly Dictionary<int, int> octaves = [];
    private (int Midi, int Step)? before;

    private OctaveReading()
    {
    }

    /// <summary>Reads a row.</summary>
    public static OctaveReading Of(RowLine row)
    {
        var reading = new OctaveReading();
        foreach (var e in row.Events)
            foreach (var played in e.Sounds)
            {
                reading.Sound(played.Sound);
                foreach (var mark in played.Marks)
                    if (mark.Operand is NotesOperand operand)
                        reading.Notes(operand.Notes, stays: reading.before is not null);
            }
        return reading;
    }

    /// <summary>The octave of a pitch of this row, written or worked out. Where nothing stands before it, it is read as in octave 4, and a finding says so.</summary>
    public int this[PitchSyntax pitch] => octaves.GetValueOrDefault(pitch.Span.Start, pitch.Octave ?? 4);

    /// <summary>The MIDI number of a pitch of this row: C4 is 60.</summary>
    public int Midi(PitchSyntax pitch) => MidiOf(pitch, this[pitch]);

    /// <summary>The first pitch of a row, where it has no octave; else null.</summary>
    public static PitchSyntax? Unread(RowLine row)
    {
        foreach (var e in row.Events)
            foreach (var played in e.Sounds)
            {
                if (First(played.Sound) is { } pitch)
                    return pitch.Octave is null ? pitch : null;
                foreach (var mark in played.Marks)
                    if (mark.Operand is NotesOperand operand && First(operand.Notes) is { } other)
                        return other.Octave is null ? other : null;
            }
        return null;
    }

    private static PitchSyntax? First(SoundSyntax sound) => sound switch
    {
        NotesSound notes => notes.Notes.FirstOrDefault(n => n.Pitch is not null)?.Pitch,
        EqualSound equal => First(equal.Left) ?? First(equal.Right),
        _ => null,
    };

    private void Sound(SoundSyntax sound)
    {
        switch (sound)
        {
            case NotesSound notes:
                Notes(notes, stays: false);
                break;
            case EqualSound equal:
                Sound(equal.Left);
                Sound(equal.Right);
                break;
        }
    }

    private void Notes(NotesSound notes, bool stays)
    {
        var (kept, first, below) = (before, ((int Midi, int Step)?)null, (int?)null);
        foreach (var note in notes.Notes)
        {
            if (note.Pitch is not { } pitch)
                continue;
            var octave = pitch.Octave ?? (below is { } b ? Above(pitch, b) : before is { } reference ? Nearest(pitch, reference) : 4);
            octaves[pitch.Span.Start] = octave;
            below = MidiOf(pitch, octave);
            first ??= (below.Value, StepOf(pitch, octave));
        }
        before = stays ? kept : first ?? before;
    }

    private static int Above(PitchSyntax pitch, int below)
    {
        var octave = -1;
        while (octave < 9 && MidiOf(pitch, octave) <= below)
            octave++;
        return octave;
    }

    private static int Nearest(PitchSyntax pitch, (int Midi, int Step) reference)
    {
        var best = (Semitones: int.MaxValue, Steps: 0, Octave: 4);
        for (var octave = -1; octave <= 9; octave++)
        {
            var here = (Math.Abs(MidiOf(pitch, octave) - reference.Midi), Math.Abs(StepOf(pitch, octave) - reference.Step), octave);
            if (here.CompareTo(best) < 0)
                best = here;
        }
        return best.Octave;
    }

    private static int MidiOf(PitchSyntax pitch, int octave) =>
        12 * (octave + 1) + pitch.Alteration + pitch.Letter switch { 'C' => 0, 'D' => 2, 'E' => 4, 'F' => 5, 'G' => 7, 'A' => 9, _ => 11 };

    private static int StepOf(PitchSyntax pitch, int octave) => 7 * octave + Letters.IndexOf(pitch.Letter);
}
