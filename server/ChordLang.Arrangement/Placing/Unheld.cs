// Notes struck together that no hand holds: what stands in the way, and which of them would have to go.
using System.Collections.Immutable;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Placement;
using ChordLang.Fretboard.Voicings;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Placing;

/// <summary>What no hand holds.</summary>
/// <param name="Neck">Where the pitches lie.</param>
/// <param name="Hand">Whose reach counts.</param>
/// <param name="Pitches">The notes struck together, as they are spelled.</param>
/// <param name="Asked">The same, with the strings that are given.</param>
/// <param name="Nearest">The same, in the places that come nearest.</param>
public sealed record Unheld(Neck Neck, Hand Hand, ImmutableArray<Pitch> Pitches, ImmutableArray<NoteToPlace> Asked, ImmutableArray<PlacedNote> Nearest)
{
    /// <summary>Why, in plain sentences, with what would help. Every place is tried for it anew, so it is asked only where it is told.</summary>
    public string Why()
    {
        var slots = new int?[Neck.Tuning.Strings];
        foreach (var note in Nearest)
            if (note is { String: { } s, Fret: { } fret })
                slots[^s] = fret;
        var none = FingeringSearch.Best(Neck, Hand, new([.. slots])).None?.Message;
        var without = Together.NoPlace(Neck, Hand, Asked) is { Without: { IsEmpty: false } some } ? string.Join(" or ", some.Select(i => $"{Pitches[i]}").Distinct().Take(3)) : null;
        return $"No hand holds these notes together{(Asked.All(n => n.String is null) ? ", wherever they are put" : " on the strings that are given")}; {new Voicing([.. slots])} comes nearest."
            + (none is null ? "" : $" {none}") + (without is null ? "" : $" Without {without} it can be played.");
    }
}
