// What the speller is told of a note, and what it answers.
using System.Collections.Immutable;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Spelling;

/// <summary>A note whose spelling is asked for.</summary>
/// <param name="Onset">When it is struck, in whole notes.</param>
/// <param name="Midi">MIDI number.</param>
/// <param name="Voice">Its voice; notes of one voice that are struck together are a chord of that voice.</param>
/// <param name="Key">The key in force, or null where none is known.</param>
/// <param name="Chord">The chord in force, or null.</param>
/// <param name="Written">Its own spelling where that may be heeded when its neighbours are spelled, or null. It never speaks for itself.</param>
public sealed record NoteToSpell(double Onset, int Midi, int Voice, Key? Key, Chord? Chord, PitchName? Written = null);

/// <summary>What decided a spelling.</summary>
public enum SpellingReason
{
    /// <summary>It is a tone that the chord symbol asks for.</summary>
    ChordTone,

    /// <summary>It belongs to the signature of the key.</summary>
    Key,

    /// <summary>It belongs to the signature that the notes around it have for a while.</summary>
    PassingKey,

    /// <summary>It moves by a semitone to the next letter.</summary>
    LeadsOn,

    /// <summary>It comes from the letter beside it by a semitone.</summary>
    ComesFrom,

    /// <summary>It is spelled as an alteration of the chord in force.</summary>
    ChordAlteration,

    /// <summary>Its intervals with the notes around it are the plainest.</summary>
    Neighbours,
}

/// <summary>A note with the spelling that is called for.</summary>
/// <param name="Name">The spelling.</param>
/// <param name="Reason">What decided it.</param>
/// <param name="Beside">The note that it leads to or comes from, where that decided; else null.</param>
/// <param name="Signature">Sharps of the signature that the notes around it have for a while; flats are negative.</param>
/// <param name="Scores">The spellings that were weighed, with their scores in natural-log units; best first.</param>
public sealed record SpelledNote(PitchName Name, SpellingReason Reason, PitchName? Beside, int Signature, ImmutableArray<(PitchName Name, double Score)> Scores)
{
    /// <summary>By how much, in natural-log units, the chosen spelling beats another of the same sound; infinite for one that was not weighed.</summary>
    public double Over(PitchName other)
    {
        foreach (var (name, score) in Scores)
            if (name == other)
                return Scores[0].Score - score;
        return double.PositiveInfinity;
    }
}
