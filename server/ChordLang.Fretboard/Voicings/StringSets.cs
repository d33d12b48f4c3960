// The same sounding notes on the neighbouring set of strings: how players learn one voicing all over the neck.
using System.Collections.Immutable;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;

namespace ChordLang.Fretboard.Voicings;

/// <summary>Which way a voicing is taken across the strings.</summary>
public enum Across
{
    /// <summary>Towards string 1: each note on a higher string, at a lower fret.</summary>
    ToHigherStrings,
    /// <summary>Towards the lowest string: each note on a lower string, at a higher fret.</summary>
    ToLowerStrings,
}

/// <summary>A voicing on another set of strings.</summary>
/// <param name="Voicing">The same pitches, elsewhere.</param>
/// <param name="Fingers">Its best fingers, together with what else is held.</param>
/// <param name="Strings">For each string that was played, by its number: the string that takes its note.</param>
public sealed record OtherSet(Voicing Voicing, Fingers Fingers, ImmutableDictionary<int, int> Strings);

/// <summary>Takes voicings to neighbouring sets of strings.</summary>
public static class StringSets
{
    /// <summary>
    /// The nearest set of strings on one side: exact pitches, no note goes the other way, the outer notes leave their strings, and the hand
    /// can hold it. All notes one string over comes first, then what is nearest to that. Null where there is none.
    /// </summary>
    /// <param name="neck">Where the pitches lie.</param>
    /// <param name="hand">Whose reach counts.</param>
    /// <param name="voicing">The voicing, with at least one note.</param>
    /// <param name="across">Which way.</param>
    /// <param name="beside">What else sounds at that time, with as many slots; its strings are left alone. Null for nothing.</param>
    public static OtherSet? Next(Neck neck, Hand hand, Voicing voicing, Across across, Voicing? beside = null)
    {
        var played = voicing.Played.Where(s => s <= neck.Tuning.Strings).ToArray();
        if (played.Length == 0 || voicing.Strings != neck.Tuning.Strings)
            return null;
        var search = new Search(neck, voicing, beside, across == Across.ToLowerStrings ? 1 : -1, played);
        search.Lay(0);
        foreach (var (_, at) in search.Found.OrderBy(f => f.Cost))
        {
            var (own, all) = (new int?[voicing.Strings], beside?.Slots.ToArray() ?? new int?[voicing.Strings]);
            for (var i = 0; i < at.Length; i++)
                own[^at[i]] = all[^at[i]] = neck.FretOf(at[i], neck.Midi(played[i], voicing[played[i]]!.Value));
            if (FingeringSearch.Best(neck, hand, new([.. all])).Best is { } fingers)
                return new(new([.. own]), fingers, played.Zip(at).ToImmutableDictionary(p => p.First, p => p.Second));
        }
        return null;
    }

    private sealed class Search(Neck neck, Voicing voicing, Voicing? beside, int way, int[] played)
    {
        private readonly int[] at = new int[played.Length];

        public List<(int Cost, int[] At)> Found { get; } = [];

        // Note by note from the lowest string; as deep as the voicing has notes, nine at most.
        public void Lay(int i)
        {
            if (i == played.Length)
            {
                // Ours: a note that stays, or goes two strings, is a step further from the same grip on the next strings.
                Found.Add((at.Zip(played).Sum(p => Math.Abs((p.First - p.Second) * way - 1)), [.. at]));
                return;
            }
            var outer = i == 0 || i == played.Length - 1;
            for (var s = outer ? played[i] + way : played[i]; s >= 1 && s <= voicing.Strings; s += way)
                if (beside?[s] is null && Array.IndexOf(at, s, 0, i) < 0 && neck.FretOf(s, neck.Midi(played[i], voicing[played[i]]!.Value)) is not null)
                {
                    at[i] = s;
                    Lay(i + 1);
                }
        }
    }
}
