// Puts a whole piece before the speller: its notes in time, with the keys that are written or found, and the chords in force.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Charts;
using ChordLang.Harmony.Keys;
using ChordLang.Harmony.Spelling;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Checks.Spelling;

/// <summary>A note whose pitch is written, with the spelling that is called for.</summary>
/// <param name="Event">Its event.</param>
/// <param name="Note">The note.</param>
/// <param name="Spelled">The answer of the speller.</param>
/// <param name="Key">The key in force: written, or found from the chords; null where neither is to be had.</param>
/// <param name="Chord">The chord it is heard in, under its usual root, or null.</param>
public sealed record WrittenNote(Event Event, Note Note, SpelledNote Spelled, Key? Key, Chord? Chord)
{
    /// <summary>The pitch as it is called for; it sounds the same.</summary>
    public Pitch Proposed => Pitch.Of(Note.Midi, Spelled.Name);

    /// <summary>Why, as the end of a sentence: <c>it is the root of Bb7</c>.</summary>
    public string Why => Spelled.Reason switch
    {
        SpellingReason.ChordTone => $"it is {(Chord!.Bass == Spelled.Name && Chord.Root != Spelled.Name ? "the bass" : $"the {Chord.DegreeOf(Note.Midi).Spoken()}")} of {Chord.Symbol}",
        SpellingReason.ChordAlteration => $"it is the {Chord!.DegreeOf(Note.Midi).Spoken()} over {Chord.Symbol}",
        SpellingReason.Key when Key is { } key => $"it belongs to {(key.Tonic is null ? "the signature of " : "")}{key}",
        SpellingReason.Key or SpellingReason.PassingKey => $"the notes around it have {Signs(Spelled.Signature)}",
        SpellingReason.LeadsOn => $"it leads by a semitone to {Spelled.Beside}",
        SpellingReason.ComesFrom => $"it comes by a semitone from {Spelled.Beside}",
        _ => "its intervals with the notes around it are the plainest then",
    };

    private static string Signs(int fifths) => fifths switch
    {
        0 => "neither sharps nor flats", 1 => "one sharp", -1 => "one flat", > 0 => $"{fifths} sharps", _ => $"{-fifths} flats",
    };
}

/// <summary>Spells the written pitches of a piece.</summary>
public static class SpelledPiece
{
    // Grace notes have no time of their own: each comes this much, in whole notes, before what follows it.
    private const double Grace = 1.0 / 4096;

    private const int LeastRoots = 3;

    // Two checks ask the same of a piece; how sure a key must be makes no difference where keys are written.
    private static readonly System.Runtime.CompilerServices.ConditionalWeakTable<Piece, List<WrittenNote>> Heeded = [];

    /// <summary>Every note that has a written pitch, in order of time.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="heedWritten">True to spell each note by the spellings written around it; false to trust none of them.</param>
    /// <param name="sure">How sure, 0 to 1, a key must be that is found and not written.</param>
    public static IEnumerable<WrittenNote> Of(Piece piece, bool heedWritten, double sure = 0) =>
        heedWritten && piece.Bars.Any(b => b.Settings.Key is not null) ? Heeded.GetValue(piece, p => [.. Spelled(p, true, sure)]) : Spelled(piece, heedWritten, sure);

    private static IEnumerable<WrittenNote> Spelled(Piece piece, bool heedWritten, double sure)
    {
        if (!piece.Events.Any(e => e is { Repeated: false, Syntax: not null } && (e.Notes.Any(n => n.PitchWritten) || e.Grace.Any(n => n.PitchWritten))))
            yield break;
        var keys = Keys(piece, sure);
        var voices = new Dictionary<string, int>(StringComparer.Ordinal);
        var notes = new List<(Event Event, Note Note, bool Own, NoteToSpell Asked)>();
        foreach (var e in piece.Events)
        {
            if (e.Kind != EventKind.Struck)
                continue;
            if (!voices.TryGetValue(e.VoiceKey, out var voice))
                voices[e.VoiceKey] = voice = voices.Count;
            var key = keys[e.Bar];
            void Add(Note note, double onset)
            {
                var own = note is { PitchWritten: true, Dead: false } && e is { Repeated: false, Syntax: not null };
                var chord = Chord(piece, e, note);
                notes.Add((e, note, own, new(onset, note.Midi, voice, key, chord is null || key is null ? chord : RootInKey.Rewritten(chord, key),
                    heedWritten && own ? note.Pitch.Name : null)));
            }
            for (var i = 0; i < e.Grace.Length; i++)
                Add(e.Grace[i], e.Onset.Value - Grace * (e.Grace.Length - i));
            foreach (var note in e.Notes)
                if (!note.Dead)
                    Add(note, e.Onset.Value);
        }
        var ordered = notes.OrderBy(n => n.Asked.Onset).ThenBy(n => n.Asked.Voice).ThenBy(n => n.Asked.Midi).ToList();
        var spelled = Speller.Spell(ordered.ConvertAll(n => n.Asked));
        for (var i = 0; i < spelled.Count; i++)
            if (ordered[i].Own)
                yield return new(ordered[i].Event, ordered[i].Note, spelled[i], ordered[i].Asked.Key, ordered[i].Asked.Chord);
    }

    /// <summary>A key for each bar: as written; where none is written anywhere, as the chords tell it; null where they are not that sure.</summary>
    public static ImmutableArray<Key?> Keys(Piece piece, double sure)
    {
        if (piece.Bars.Any(b => b.Settings.Key is not null))
            return [.. piece.Bars.Select(b => b.Settings.Key)];
        var chart = WrittenChart.Of(piece);
        // A chord or two belong to many keys, however plainly one of them comes first.
        if (sure > 0 && chart.Chart.Chords.Select(c => c.Chord.Root.PitchClass).Distinct().Count() < LeastRoots)
            return [.. piece.Bars.Select(_ => (Key?)null)];
        var plan = KeyFinder.Find(chart.Chart, []);
        var written = chart.Chart.Chords.IsEmpty ? 0 : chart.Chart.Chords.Average(c => c.Chord.Root.Fifths);
        var (keys, span) = (ImmutableArray.CreateBuilder<Key?>(piece.Bars.Length), -1);
        foreach (var bar in piece.Bars)
        {
            while (span + 1 < plan.Spans.Length && plan.Spans[span + 1].FromBar <= bar.Number)
                span++;
            keys.Add(span >= 0 && plan.Spans[span].Confidence >= sure ? Named(plan.Spans[span].Key, written) : null);
        }
        return keys.ToImmutable();
    }

    // Of Gb and F# the one that the written roots lie nearer to.
    private static Key Named(Key key, double roots) =>
        key.Tonic is { } tonic && Math.Abs(key.Fifths) >= 5 && Math.Abs(key.Fifths - 12 * Math.Sign(key.Fifths) - roots) < Math.Abs(key.Fifths - roots)
        && Math.Abs(key.Fifths - 12 * Math.Sign(key.Fifths)) <= 7
            ? Key.Of(PitchName.FromFifths(tonic.Fifths - 12 * Math.Sign(key.Fifths)), key.Mode) : key;

    // A note in the last count of a chord that only the next chord asks for is heard in that one: an anticipation. Common practice.
    private static Chord? Chord(Piece piece, Event e, Note note)
    {
        if (e.Is is { } named)
            return named;
        if (piece.ChordAt(note.Onset) is not { Chord: { } chord } span)
            return null;
        return !chord.Names(note.Midi) && span.End - note.Onset <= piece.Bars[e.Bar].Settings.Meter.Count
            && piece.ChordAt(span.End) is { Chord: { } next } && next.Names(note.Midi) ? next : chord;
    }
}
