// How a sound stands to a name: which tones are foreign, which only colour, which are missed. Interprets the chord's own table.
using System.Collections.Immutable;
using ChordLang.Theory.Chords;

namespace ChordLang.Checks.Names;

/// <summary>The answer.</summary>
/// <param name="Foreign">MIDI numbers that the name does not bear: contradictions, and under strict naming every tone it does not name.</param>
/// <param name="Colours">MIDI numbers that agree with the name and are not in it.</param>
/// <param name="Missing">Essential tones that are not heard.</param>
internal sealed record Fit(ImmutableArray<int> Foreign, ImmutableArray<int> Colours, ImmutableArray<ChordTone> Missing)
{
    /// <summary>Holds sounding pitches against a chord.</summary>
    /// <param name="chord">The chord.</param>
    /// <param name="strict">True where every tone must be named.</param>
    /// <param name="midi">Pitches that the name answers for.</param>
    /// <param name="heard">Pitch classes heard besides, a bit each: they can supply what is missing.</param>
    public static Fit Of(Chord chord, bool strict, IEnumerable<int> midi, int heard)
    {
        var (foreign, colours) = (ImmutableArray.CreateBuilder<int>(), ImmutableArray.CreateBuilder<int>());
        foreach (var m in midi)
        {
            heard |= 1 << (m % 12 + 12) % 12;
            var role = chord.RoleOf(m);
            if (role == ToneRole.Contradiction || strict && role == ToneRole.Tension)
                foreign.Add(m);
            else if (role == ToneRole.Tension)
                colours.Add(m);
        }
        return new(foreign.ToImmutable(), colours.ToImmutable(),
            [.. chord.Tones.Where(t => t.Role == ToneRole.Essential && (heard >> t.Name.PitchClass & 1) == 0)]);
    }
}
