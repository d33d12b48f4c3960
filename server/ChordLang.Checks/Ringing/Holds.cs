// Collects the notes that are to sound on while others are struck, and what is struck on each string when.
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Voicings;
using ChordLang.Arrangement.Placing;
using ChordLang.Grammar.Syntax;
using Digit = ChordLang.Fretboard.Hands.Finger;

namespace ChordLang.Checks.Ringing;

/// <summary>Why a note sounds on.</summary>
internal enum HoldKind
{
    /// <summary>It is told to ring.</summary>
    Ring,
    /// <summary>It is tied over.</summary>
    Tied,
    /// <summary>Nothing follows it in its row; the writer has not said that it must last.</summary>
    Lasts,
}

/// <summary>A placed note with the time that it is to sound.</summary>
/// <param name="Note">The note.</param>
/// <param name="Source">The event that strikes it.</param>
/// <param name="Kind">Why it sounds on.</param>
internal sealed record Hold(Note Note, Event Source, HoldKind Kind)
{
    /// <summary>Its string.</summary>
    public int String => Note.String!.Value;

    /// <summary>True for a bare <c>ring</c>, without <c>until</c> or <c>over</c>.</summary>
    public bool RingsFreely => !Source.Marks.Any(m => m.Kind is MarkKind.RingUntil or MarkKind.RingOver && (m.String is null || m.String == String));

    /// <summary>True where the writer asks for its length.</summary>
    public bool Asked => Kind != HoldKind.Lasts;

    /// <summary>True for a grace note: it strikes its string, and has no time of its own to hold.</summary>
    public bool Grace { get; init; }
}

/// <summary>All holds of a piece.</summary>
internal sealed class Holds
{
    private static readonly ConditionalWeakTable<Piece, Holds> Kept = [];

    private readonly Dictionary<int, List<Hold>> byString = [];
    private readonly ILookup<int, Hold> graces;
    private readonly Dictionary<Note, Hold> byNote = new(ReferenceEqualityComparer.Instance);

    private Holds(Piece piece)
    {
        var tied = new HashSet<(string, int?, Rational)>();
        foreach (var e in piece.Events)
            if (e.Kind == EventKind.Tied)
                foreach (var note in e.Notes)
                    tied.Add((e.VoiceKey, note.String, note.Onset));
        var all = ImmutableArray.CreateBuilder<Hold>();
        foreach (var e in piece.Events)
            if (e.Kind == EventKind.Struck)
                foreach (var note in e.Notes)
                    if (note is { String: { } s, Fret: not null })
                    {
                        var hold = new Hold(note, e, Rings(e, s) ? HoldKind.Ring : tied.Contains((e.VoiceKey, s, note.Onset)) ? HoldKind.Tied : HoldKind.Lasts);
                        all.Add(hold);
                        byNote.TryAdd(note, hold);
                        if (!byString.TryGetValue(s, out var strikes))
                            byString[s] = strikes = [];
                        strikes.Add(hold);
                    }
        graces = piece.Events.Where(e => e.Kind == EventKind.Struck).SelectMany(e => e.Grace.Where(n => n is { String: not null, Fret: not null })
            .Select(n => new Hold(n, e, HoldKind.Lasts) { Grace = true })).ToLookup(h => h.String);
        All = all.ToImmutable();
    }

    /// <summary>Every placed note, by the time at which it is struck.</summary>
    public ImmutableArray<Hold> All { get; }

    /// <summary>Those of a piece.</summary>
    public static Holds Of(Piece piece) => Kept.GetValue(piece, p => new(p));

    /// <summary>The first note struck on the string of a hold before the hold is over, or null; a grace note strikes too.</summary>
    public Hold? CutterOf(Hold hold)
    {
        var end = hold.Note.End;
        var grace = graces[hold.String].Where(h => h.Note.Onset > hold.Note.Onset && h.Note.Onset < end).MinBy(h => h.Note.Onset);
        return grace ?? (end < hold.Note.WantedEnd ? Struck(hold.String, end) : null);
    }

    /// <summary>Whether a string is silent and stays unstruck over a time, a certain note aside.</summary>
    public bool Free(int s, Rational from, Rational to, Note aside) => !On(s).Concat(graces[s]).Any(h => !ReferenceEquals(h.Note, aside)
        && (h.Note.Onset >= from && h.Note.Onset < to || h.Note.Onset < from && h.Note.End > from));

    /// <summary>The asked holds that were struck before a moment and still sound then.</summary>
    public IEnumerable<Hold> SoundingOn(Moment moment)
    {
        foreach (var (note, _) in moment.Sounding)
            if (note.Onset < moment.Time && byNote.TryGetValue(note, out var hold) && hold.Asked)
                yield return hold;
    }

    /// <summary>What the hand has to hold at a moment: what is struck, and what was struck before and is asked to sound on.</summary>
    /// <param name="moment">The moment.</param>
    /// <param name="strings">How many strings the neck has.</param>
    /// <param name="sounding">The asked holds to take along.</param>
    /// <param name="moved">A note that is to be thought of on another string, or null.</param>
    public static (Voicing Voicing, Fingers Fingers) Grip(Moment moment, int strings, IEnumerable<Hold> sounding, (Note Note, int String, int Fret)? moved = null)
    {
        var (frets, fingers) = (new int?[strings], new Digit?[strings]);
        foreach (var note in sounding.Select(h => h.Note).Concat(moment.Struck.Select(h => h.Note)))
        {
            var (s, fret) = moved is { } m && ReferenceEquals(m.Note, note) ? (m.String, m.Fret) : (note.String ?? 0, note.Fret ?? 0);
            if (s < 1 || s > strings || note.Harmonic)
                continue;
            (frets[^s], fingers[^s]) = (fret, fret > 0 ? note.Finger?.Digit() : null);
        }
        return (new([.. frets]), new([.. fingers]));
    }

    // Strikes lie in the order of time; a long piece has thousands on each string.
    private Hold? Struck(int s, Rational time)
    {
        var strikes = On(s);
        int low = 0, high = strikes.Count;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (strikes[middle].Note.Onset < time) low = middle + 1; else high = middle;
        }
        return low < strikes.Count && strikes[low].Note.Onset == time ? strikes[low] : null;
    }

    private List<Hold> On(int s) => byString.TryGetValue(s, out var strikes) ? strikes : [];

    private static bool Rings(Event e, int s) =>
        e.Marks.Any(m => m.Kind is MarkKind.Ring or MarkKind.RingUntil or MarkKind.RingOver && (m.String is null || m.String == s));
}
