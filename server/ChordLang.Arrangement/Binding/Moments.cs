// Finds the moments of a piece in one sweep over its events.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;

namespace ChordLang.Arrangement.Binding;

/// <summary>Finds moments. The sweep keeps only what still sounds, so the work grows with events times voices, not with their square.</summary>
public static class Moments
{
    /// <summary>The moments of a piece, in order of time. <see cref="Piece.Moments"/> keeps them.</summary>
    public static ImmutableArray<Moment> Of(ImmutableArray<Bar> bars, ImmutableArray<Event> events)
    {
        var stretches = Stretches(bars);
        var moments = ImmutableArray.CreateBuilder<Moment>();
        List<Heard> sounding = [];
        var chord = -1;
        for (var i = 0; i < events.Length;)
        {
            var time = events[i].Onset;
            var struck = ImmutableArray.CreateBuilder<Event>();
            sounding.RemoveAll(h => h.Note.End <= time);
            for (; i < events.Length && events[i].Onset == time; i++)
            {
                if (events[i].Kind != EventKind.Struck)
                    continue;
                struck.Add(events[i]);
                foreach (var note in events[i].Notes)
                    if (!note.Dead && note.End > time)
                        sounding.Add(new(note, events[i]));
            }
            if (struck.Count == 0)
                continue;
            while (chord + 1 < stretches.Length && stretches[chord + 1].Start <= time)
                chord++;
            moments.Add(new()
            {
                Time = time, Bar = struck[0].Bar, Events = struck.ToImmutable(),
                Sounding = [.. sounding.OrderBy(h => h.Note.Midi).ThenByDescending(h => h.Note.String ?? 0)],
                Chord = chord >= 0 ? stretches[chord] : null,
                Next = chord + 1 < stretches.Length ? stretches[chord + 1] : null,
            });
        }
        return moments.ToImmutable();
    }

    /// <summary>The chords of the bars, those that last on over a bar line or are written again joined to one.</summary>
    public static ImmutableArray<ChordStretch> Stretches(ImmutableArray<Bar> bars)
    {
        var stretches = ImmutableArray.CreateBuilder<ChordStretch>();
        foreach (var bar in bars)
            foreach (var span in bar.Chords)
                if (stretches is [.., var last] && last.First.Symbol?.Text == span.Symbol?.Text && last.End == span.Start)
                    stretches[^1] = last with { End = span.End };
                else
                    stretches.Add(new(span, span.Start, span.End));
        return stretches.ToImmutable();
    }
}
