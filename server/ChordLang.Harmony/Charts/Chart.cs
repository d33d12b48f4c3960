// A chord chart as harmony reads it: chords on a time line, nothing of strings, rows or text.
using System.Collections.Immutable;
using ChordLang.Theory.Chords;

namespace ChordLang.Harmony.Charts;

/// <summary>One chord of a chart.</summary>
/// <param name="Bar">The bar it stands in, as counted in the piece.</param>
/// <param name="Onset">Counts from the bar line to its start, 0 for the first count.</param>
/// <param name="Duration">Counts until the next chord of the chart, more than 0.</param>
/// <param name="Chord">What the symbol means.</param>
public sealed record ChartChord(int Bar, double Onset, double Duration, Chord Chord);

/// <summary>A chart: its chords in order of time.</summary>
/// <param name="Chords">The chords.</param>
/// <param name="Counts">Counts in a bar, the upper number of the meter.</param>
public sealed record Chart(ImmutableArray<ChartChord> Chords, int Counts);
