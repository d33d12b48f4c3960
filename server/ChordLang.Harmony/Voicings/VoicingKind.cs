// Tells the kind of a voicing by its definition, and how one voicing moves to the next.
using System.Collections.Immutable;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Voicings;

/// <summary>What a voicing is under a chord.</summary>
/// <param name="Kind"><c>quartal</c>, <c>cluster</c>, <c>shell</c>, <c>drop-2</c>, <c>drop-3</c>, <c>drop-2-and-4</c>; else <c>rootless</c> where the root does not sound, or its spacing.</param>
/// <param name="Spacing"><c>close</c> (inside an octave, no tone twice), <c>open</c>, or <c>spread</c> (over more than two octaves).</param>
/// <param name="Rootless">True where the chord's root does not sound.</param>
/// <param name="Inversion">0 with the root lowest, 1 the third, 2 the fifth, 3 the seventh (or sixth); null where another tone is lowest.</param>
/// <param name="Degrees">The degree of each pitch, lowest first.</param>
public sealed record VoicingShape(string Kind, string Spacing, bool Rootless, int? Inversion, ImmutableArray<Degree> Degrees);

/// <summary>Motion from one voicing to the next.</summary>
/// <param name="Common">MIDI numbers that both hold.</param>
/// <param name="Moves">Semitones that each voice moves, lowest first, where both have as many voices; else empty.</param>
/// <param name="Motion"><c>parallel</c>, <c>similar</c>, <c>contrary</c>, <c>oblique</c> or <c>none</c>: of the outer voices.</param>
public sealed record VoicingMotion(ImmutableArray<int> Common, ImmutableArray<int> Moves, string Motion);

/// <summary>Voicing knowledge on pitches alone. Definitions are common practice of arranging.</summary>
public static class VoicingKind
{
    private const int Octave = 12, Wide = 24;

    /// <summary>The shape of a voicing; at least one pitch.</summary>
    /// <param name="midiLowToHigh">MIDI numbers, lowest first.</param>
    /// <param name="chord">The chord it voices.</param>
    public static VoicingShape Of(ImmutableArray<int> midiLowToHigh, Chord chord)
    {
        var degrees = midiLowToHigh.Select(chord.DegreeOf).ToImmutableArray();
        int? inversion = degrees.IsEmpty ? null : degrees[0].Number switch { 1 => 0, 3 => 1, 5 => 2, 7 or 6 => 3, _ => null };
        var rootless = degrees.All(d => d.Interval != 0);
        var spacing = IsClose(midiLowToHigh) && midiLowToHigh.Length > 2 ? "close" : !midiLowToHigh.IsEmpty && midiLowToHigh[^1] - midiLowToHigh[0] > Wide ? "spread" : "open";
        return new(Built(midiLowToHigh, degrees, chord) ?? (rootless && midiLowToHigh.Length > 2 ? "rootless" : spacing), spacing, rootless, inversion, degrees);
    }

    /// <summary>How the voices move.</summary>
    public static VoicingMotion Between(ImmutableArray<int> from, ImmutableArray<int> to)
    {
        var common = from.Intersect(to).ToImmutableArray();
        var moves = from.Length == to.Length ? [.. from.Zip(to, (a, b) => b - a)] : ImmutableArray<int>.Empty;
        if (from.IsEmpty || to.IsEmpty)
            return new(common, moves, "none");
        var (low, high) = (to[0] - from[0], to[^1] - from[^1]);
        var motion = (Math.Sign(low), Math.Sign(high)) switch
        {
            (0, 0) => "none",
            (0, _) or (_, 0) => "oblique",
            var (a, b) when a != b => "contrary",
            _ => low == high ? "parallel" : "similar",
        };
        return new(common, moves, motion);
    }

    // The kind that the way of building gives, or null where only the spacing is left to tell.
    private static string? Built(ImmutableArray<int> pitches, ImmutableArray<Degree> degrees, Chord chord)
    {
        var steps = pitches.Zip(pitches.Skip(1), (a, b) => b - a).ToArray();
        if (IsQuartal(steps))
            return "quartal";
        if (steps.Length >= 2 && steps.All(s => s is 1 or 2))
            return "cluster";
        if (pitches.Length is 2 or 3 && IsShell(degrees, chord))
            return "shell";
        // A dropped voicing is what comes of a close one when voices, counted from the top, go down an octave.
        if (pitches.Length >= 4)
            foreach (var (name, dropped) in new (string, int[])[] { ("drop-2", [2]), ("drop-3", [3]), ("drop-2-and-4", [2, 4]) })
                if (IsDrop(pitches, dropped))
                    return name;
        return null;
    }

    // Fourths on fourths, one of them augmented at most; a pile of three or more may carry a major third on top.
    private static bool IsQuartal(int[] steps)
    {
        var fourths = steps.Length >= 4 && steps[^1] == 4 ? steps[..^1] : steps;
        return fourths.Length >= 2 && fourths.All(s => s is 5 or 6) && fourths.Count(s => s == 6) <= 1;
    }

    // Root, third and seventh (or sixth) of a chord that has one, each at most once; of two notes one is third or seventh.
    private static bool IsShell(ImmutableArray<Degree> degrees, Chord chord) =>
        chord.Tones.Any(t => t.Degree.Number is 6 or 7) && degrees.All(d => d.Number is 1 or 3 or 6 or 7) && degrees.Distinct().Count() == degrees.Length
        && (degrees.Length == 2 ? degrees.Any(d => d.Number != 1) : degrees.Any(d => d.Number == 3) && degrees.Any(d => d.Number is 6 or 7));

    // All within an octave, no chord tone left out between neighbours of the sound itself.
    private static bool IsClose(ImmutableArray<int> pitches) =>
        pitches[^1] - pitches[0] < Octave && pitches.Select(p => p % Octave).Distinct().Count() == pitches.Length;

    private static bool IsDrop(ImmutableArray<int> pitches, int[] dropped)
    {
        // Undo the drop: the lowest voices go up an octave and must land at the places, from the top, they were dropped from.
        var raised = pitches.Take(dropped.Length).Select(p => p + Octave).ToArray();
        var close = pitches.Skip(dropped.Length).Concat(raised).OrderDescending().ToImmutableArray();
        return IsClose([.. close.Reverse()]) && dropped.All(place => raised.Contains(close[place - 1]));
    }
}
