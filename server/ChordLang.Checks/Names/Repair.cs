// Looks for the one small movement of the hand that would make a sound fit its name, and weighs how likely a player meant the result.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
using ChordLang.Theory.Chords;

namespace ChordLang.Checks.Names;

/// <summary>What kind of movement.</summary>
internal enum Movement
{
    /// <summary>One note, one or two frets along its string.</summary>
    OneNote,
    /// <summary>The whole voicing, to the next string set.</summary>
    StringSet,
    /// <summary>The whole voicing, along the neck.</summary>
    Position,
}

/// <summary>A movement that makes a sound fit.</summary>
/// <param name="Movement">Its kind.</param>
/// <param name="By">Frets up for a note or a position; strings up in number (towards the bass) for a string set.</param>
/// <param name="Event">The event that is changed.</param>
/// <param name="Changes">Each changed note with its new string, fret and pitch.</param>
/// <param name="Cost">The lower, the likelier that the result is what was meant.</param>
/// <param name="Missing">Essential tones that are still heard nowhere under the name.</param>
/// <param name="Lacking">Essential tones that do not sound together with the rest.</param>
/// <param name="Colours">How many tones agree without being named.</param>
internal sealed record Repair(Movement Movement, int By, Event Event, ImmutableArray<Change> Changes, double Cost, int Missing, int Lacking, int Colours);

/// <summary>A note in another place.</summary>
internal sealed record Change(Tone Tone, int? String, int? Fret, int Midi);

/// <summary>Finds repairs.</summary>
internal static class Repairs
{
    /// <summary>The farthest a single finger slips, in frets.</summary>
    public const int Farthest = 2;

    // Weights set by hand: what a repaired voicing lacks or has too much of, against the size of the movement.
    private const double PerMissing = 4, PerColour = 0.6, PerUnison = 1.5, PerDoubledGuide = 0.5, PerWideFret = 2, NoRoot = 0.4, NoFifth = 0.2,
        ManyFingers = 3, PerFret = 0.15, SetMoved = 0.9, AllMoved = 2.2;

    /// <summary>All movements after which no tone is foreign and the slash bass is lowest, likeliest first.</summary>
    public static ImmutableArray<Repair> Of(Sonority sonority, Neck neck, bool foreign)
    {
        var found = new List<Repair>();
        var fit = Fit.Of(sonority.Chord, sonority.Strict, sonority.Tones.Where(t => t.Blamable).Select(t => t.Note.Midi), 0);
        foreach (var tone in sonority.Tones)
            if (tone.Blamable && !tone.Note.Harmonic && (!foreign || fit.Foreign.All(m => m == tone.Note.Midi)))
                for (var by = -Farthest; by <= Farthest; by++)
                    if (by != 0 && Moved(tone, by, neck) is { } change)
                        Try(sonority, Movement.OneNote, by, tone.Event, [change], found);
        foreach (var e in sonority.Tones.Where(t => t.Blamable && t.Event.Voicing is not null).Select(t => t.Event)
            .Distinct(ReferenceEqualityComparer.Instance).Cast<Event>().Where(e => e.Notes.Length >= 3))
        {
            var tones = sonority.Tones.Where(t => ReferenceEquals(t.Event, e)).ToImmutableArray();
            if (tones.Length != e.Notes.Length || tones.Any(t => t.Note.Fret is null || t.Note.String is null || t.Note.Harmonic))
                continue;
            foreach (var by in (int[])[-1, 1])
                if (tones.All(t => t.Note.String + by >= 1 && t.Note.String + by <= neck.Tuning.Strings))
                    Try(sonority, Movement.StringSet, by, e,
                        [.. tones.Select(t => new Change(t, t.Note.String + by, t.Note.Fret, neck.Midi(t.Note.String!.Value + by, t.Note.Fret!.Value)))], found);
            for (var by = -Farthest; by <= Farthest; by++)
                if (by != 0 && tones.Select(t => Moved(t, by, neck)).ToArray() is var moved && moved.All(m => m is not null))
                    Try(sonority, Movement.Position, by, e, [.. moved!], found);
        }
        return [.. found.OrderBy(r => r.Cost)];
    }

    /// <summary>A note some frets along its string; null where the neck ends. A note that is not placed moves by pitch alone.</summary>
    public static Change? Moved(Tone tone, int by, Neck neck) => tone.Note switch
    {
        { String: { } s, Fret: { } fret } => fret + by >= 0 && fret + by <= neck.HighestFret ? new(tone, s, fret + by, tone.Note.Midi + by) : null,
        _ => new(tone, tone.Note.String, null, tone.Note.Midi + by),
    };

    private static void Try(Sonority sonority, Movement movement, int by, Event e, ImmutableArray<Change> changes, List<Repair> found)
    {
        var chord = sonority.Chord;
        var after = sonority.Tones.Select(t => changes.FirstOrDefault(c => ReferenceEquals(c.Tone, t)) ?? new(t, t.Note.String, t.Note.Fret, t.Note.Midi))
            .OrderBy(c => c.Midi).ToArray();
        var fit = Fit.Of(chord, sonority.Strict, after.Where(c => c.Tone.Blamable).Select(c => c.Midi), sonority.Heard | Bits(after.Select(c => c.Midi)));
        if (!fit.Foreign.IsEmpty || changes.Any(c => !c.Tone.Blamable))
            return;
        if (chord.Bass is { } bass && Class(Math.Min(after[0].Midi, sonority.Lowest)) != bass.PitchClass)
            return;
        // Other voicings under the symbol may supply a tone, yet a grip is likelier the more of the chord it holds itself.
        var lacking = Fit.Of(chord, false, after.Select(c => c.Midi), 0).Missing.Length;
        var cost = PerMissing * lacking + PerColour * fit.Colours.Length + Doublings(chord, after) + Grip(e, changes)
            + (Has(after, chord, 0) ? 0 : NoRoot) + (chord.Tones.All(t => t.Degree != new Theory.Pitches.Degree(5, 0)) || Has(after, chord, 7) ? 0 : NoFifth)
            + (movement switch { Movement.OneNote => PerFret * Math.Abs(by), Movement.StringSet => SetMoved, _ => AllMoved + PerFret * Math.Abs(by) });
        found.Add(new(movement, by, e, changes, cost, fit.Missing.Length, lacking, fit.Colours.Length));
    }

    private static double Doublings(Chord chord, Change[] after)
    {
        var cost = PerUnison * (after.Length - after.Select(c => c.Midi).Distinct().Count());
        foreach (var group in after.GroupBy(c => Class(c.Midi)))
            if (chord.DegreeOf(group.Key).Number is not (1 or 5))
                cost += PerDoubledGuide * (group.Count() - 1);
        return cost;
    }

    private static double Grip(Event e, ImmutableArray<Change> changes)
    {
        if (e.Voicing is not { } voicing)
            return 0;
        var slots = new int?[voicing.Strings];
        foreach (var note in e.Notes)
            if (!changes.Any(c => ReferenceEquals(c.Tone.Note, note)) && note.String is { } s && s <= slots.Length)
                slots[^s] = note.Fret;
        foreach (var change in changes)
            if (change.String is { } s && s <= slots.Length)
                slots[^s] = change.Fret;
        var after = new Voicing([.. slots]);
        var wide = after.OuterFrets() is (var low, var high) ? Math.Max(0, high - low - 3) : 0;
        return PerWideFret * wide + (after.FingersNeeded() > Fretboard.Hands.Grip.Fingers ? ManyFingers : 0);
    }

    private static bool Has(Change[] after, Chord chord, int interval) => after.Any(c => chord.IntervalOf(c.Midi) == interval);

    private static int Bits(IEnumerable<int> midi) => midi.Aggregate(0, (set, m) => set | 1 << Class(m));

    private static int Class(int midi) => (midi % 12 + 12) % 12;
}
