// An interval that knows its letters: a minor third and an augmented second are the same semitones and not the same.
namespace ChordLang.Theory.Pitches;

/// <summary>A spelled interval, up or down. Made with <see cref="Of"/> or <see cref="Between"/>, so that letters and semitones agree.</summary>
public readonly record struct Interval
{
    private const int Octave = 12, Tritone = 6;

    private Interval(int semitones, int fifths) => (Semitones, Fifths) = (semitones, fifths);

    /// <summary>Semitones, negative downward.</summary>
    public int Semitones { get; }

    /// <summary>Steps on the line of fifths: a major second is 2, a minor second -5; octaves do not count.</summary>
    public int Fifths { get; }

    /// <summary>The same way back.</summary>
    public Interval Inverse => new(-Semitones, -Fifths);

    /// <summary>The interval of so many semitones whose spelling lies nearest to a number of steps on the line of fifths; on a tie, the flat side.</summary>
    public static Interval Of(int semitones, double nearFifths)
    {
        // Seven fifths are a semitone, octaves aside; twelve fifths are a change of spelling.
        var least = PitchName.Modulo(7 * semitones, Octave);
        var turns = (int)Math.Ceiling((nearFifths - least) / Octave - 0.5);
        return new(semitones, least + Octave * turns);
    }

    /// <summary>The interval from one name to the other, the shorter way; a tritone goes up.</summary>
    public static Interval Between(PitchName from, PitchName to)
    {
        var up = PitchName.Modulo(to.PitchClass - from.PitchClass, Octave);
        return new(up > Tritone ? up - Octave : up, to.Fifths - from.Fifths);
    }

    /// <summary>The name this interval away. It may need three accidentals and more where the interval is a far one.</summary>
    public PitchName From(PitchName name) => PitchName.FromFifths(name.Fifths + Fifths);

    /// <summary>The pitch this interval away.</summary>
    public Pitch From(Pitch pitch) => Pitch.Of(pitch.Midi + Semitones, From(pitch.Name));
}
