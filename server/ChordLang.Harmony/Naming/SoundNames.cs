// What the naming of a sound takes and gives.
using System.Collections.Immutable;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Naming;

/// <summary>What is known around a sound.</summary>
/// <param name="Key">The key it stands in.</param>
/// <param name="Before">The chord that sounds before it.</param>
/// <param name="After">The chord that sounds after it.</param>
/// <param name="Chart">What the chart calls it.</param>
/// <param name="Spelled">True where the user wrote the pitches by name, so that their spelling counts.</param>
public sealed record NamingContext(Key? Key = null, Chord? Before = null, Chord? After = null, Chord? Chart = null, bool Spelled = false)
{
    /// <summary>Nothing is known.</summary>
    public static NamingContext None { get; } = new();
}

/// <summary>One sounding pitch under a reading.</summary>
/// <param name="Pitch">The pitch, spelled as the reading calls for.</param>
/// <param name="Degree">What it is above the root.</param>
public sealed record SoundTone(Pitch Pitch, Degree Degree);

/// <summary>One name for a sound.</summary>
/// <param name="Symbol">The chord symbol, with the slash bass where the lowest tone is not the root.</param>
/// <param name="Root">Spelled root, sounding or not.</param>
/// <param name="Bass">The lowest tone, spelled.</param>
/// <param name="Chord">The symbol as the chord reader understands it.</param>
/// <param name="Tones">The pitches given, lowest first, with their degrees.</param>
/// <param name="Missing">Degrees the name implies that do not sound.</param>
/// <param name="Rootless">True where the root does not sound.</param>
/// <param name="Score">Confidence, 0 to 1: the share that this root has among all twelve, after context.</param>
/// <param name="Why">A clause that says why this name fits.</param>
public sealed record SoundReading(
    string Symbol, PitchName Root, PitchName Bass, Chord? Chord, ImmutableArray<SoundTone> Tones,
    ImmutableArray<Degree> Missing, bool Rootless, double Score, string Why)
{
    /// <summary>The pitches given, lowest first, as players write them under this name: by degree, without double accidentals.</summary>
    public ImmutableArray<Pitch> Written => RootSpelling.Tones(this);
}

/// <summary>All useful names of a sound.</summary>
/// <param name="Readings">Best first, one for each root; empty for fewer than two different tones.</param>
/// <param name="EqualRoots">For a symmetrical sound, every root that serves as well as the first, rising from it; else empty.</param>
/// <param name="Shift">For a symmetrical sound, the semitones (frets) after which the family comes round; else null.</param>
/// <param name="Family">For a symmetrical sound, its name: <c>diminished</c>, <c>augmented</c>, <c>whole-tone</c>, <c>half-whole</c>, <c>tritone</c>; else null.</param>
public sealed record SoundNames(ImmutableArray<SoundReading> Readings, ImmutableArray<PitchName> EqualRoots, int? Shift, string? Family);
