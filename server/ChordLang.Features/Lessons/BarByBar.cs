// Walks through a lesson bar by bar, as a teacher would: what each chord does, how it is voiced, and what the hand keeps on the way.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Features.Hovers;
using ChordLang.Harmony.Functions;
using ChordLang.Harmony.Voicings;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Lessons;

/// <summary>What is said of one bar.</summary>
/// <param name="Bar">Index of the bar.</param>
/// <param name="Section">The section that begins here, or null.</param>
/// <param name="Sentences">Whole sentences, in order.</param>
public sealed record BarTalk(int Bar, string? Section, ImmutableArray<string> Sentences);

/// <summary>The walk.</summary>
public static class BarByBar
{
    private static readonly string[] Figures = ["two-five-one", "turnaround", "dominant-chain", "line-cliche", "planing", "pedal"];

    /// <summary>All bars in the order written; none for a piece without bars.</summary>
    public static IEnumerable<BarTalk> Of(Lesson lesson)
    {
        var chords = lesson.Harmony.Written.Places.Select((p, i) => (p.Bar, Index: i)).ToLookup(p => p.Bar, p => p.Index);
        var grips = Grips(lesson);
        foreach (var bar in lesson.Piece.Bars)
        {
            var section = lesson.Piece.Sections.FirstOrDefault(s => !s.Again && s.FirstBar == bar.Index)?.Name;
            yield return new(bar.Index, section, [.. Key(lesson, bar), .. Chords(lesson, bar, [.. chords[bar.Index]]), .. Hands(lesson, bar, grips)]);
        }
    }

    private static IEnumerable<string> Key(Lesson lesson, Bar bar)
    {
        if (lesson.Harmony.Keys.Spans.FirstOrDefault(s => s.FromBar == bar.Number) is not { } span)
            yield break;
        var place = bar.Index == 0 ? "The key is" : "From here on the key is";
        yield return span.Given ? $"{place} {span.Key}." : $"{place} {span.Key}, found from the chords, {Math.Round(span.Confidence * 100)} percent sure.";
    }

    private static IEnumerable<string> Chords(Lesson lesson, Bar bar, ImmutableArray<int> here)
    {
        if (here.IsEmpty)
        {
            yield return bar.Chords.Any(c => c.Chord is not null) ? $"{Say.List(bar.Chords.Where(c => c.Chord is not null).Select(c => c.Chord!.Symbol).Distinct())} lasts on." : "No chord is written.";
            yield break;
        }
        var (places, functions) = (lesson.Harmony.Written.Places, lesson.Harmony.Functions);
        foreach (var i in here)
        {
            var does = functions[i];
            var on = here.Length > 1 ? $"On {places[i].Count}, " : "";
            yield return $"{on}{places[i].Symbol} is {does.Numeral}, {Word(does.Function)}.";
            if (does.Reasons.IsEmpty && does.Function is not (HarmonicFunction.Tonic or HarmonicFunction.Dominant))
                yield return does.Reason;
            // A figure of several chords is told once, where it begins.
            foreach (var reason in does.Reasons)
                if (!Figures.Contains(reason.Name) || i == 0 || functions[i - 1].Reasons.All(r => r.Name != reason.Name))
                    yield return reason.Sentence;
        }
    }

    private static string Word(HarmonicFunction function) => function switch
    {
        HarmonicFunction.DominantSubstitute => "in the place of a dominant",
        HarmonicFunction.Backdoor => "on the way home by the back door",
        HarmonicFunction.Passing => "in passing",
        HarmonicFunction.Colour => "a colour of its neighbours",
        HarmonicFunction.Tonic => "at rest",
        HarmonicFunction.Subdominant => "away from the tonic",
        _ => "pulling onward",
    };

    // Grips in the order they are struck; the same one struck again is one grip.
    private static ImmutableArray<Event> Grips(Lesson lesson)
    {
        var grips = ImmutableArray.CreateBuilder<Event>();
        foreach (var e in lesson.Piece.Events)
            if (e.Voicing is { } voicing && e.Notes.Length > 1 && !e.Notes.Any(n => n.Dead) && (grips.Count == 0 || !voicing.Equals(grips[^1].Voicing) || grips[^1].Bar != e.Bar))
                grips.Add(e);
        return grips.ToImmutable();
    }

    private static IEnumerable<string> Hands(Lesson lesson, Bar bar, ImmutableArray<Event> grips)
    {
        for (var i = 0; i < grips.Length; i++)
            if (grips[i].Bar == bar.Index && (i == 0 || !grips[i].Voicing!.Equals(grips[i - 1].Voicing)))
            {
                var e = grips[i];
                var chord = e.Is ?? lesson.Piece.ChordAt(e.Onset)?.Chord;
                if (chord is not null)
                    yield return Voiced(e, chord);
                if (i + 1 < grips.Length && !grips[i + 1].Voicing!.Equals(e.Voicing))
                    yield return Onward(e, grips[i + 1]);
            }
    }

    private static string Voiced(Event e, Chord chord)
    {
        var rising = e.Notes.OrderBy(n => n.Midi).ToList();
        var shape = VoicingKind.Of([.. rising.Select(n => n.Midi)], chord);
        var kind = VoicingWords.Kind(shape.Kind, shape.Inversion, shape.Rootless).TrimEnd('.');
        return $"The hand plays {e.Voicing}, {char.ToLowerInvariant(kind[0])}{kind[1..]}, with {rising[^1].Pitch}, the {shape.Degrees[^1].Spoken()}, on top.";
    }

    private static string Onward(Event e, Event next)
    {
        var (here, there) = (e.Notes.OrderBy(n => n.Midi).Select(n => n.Midi).ToImmutableArray(), next.Notes.OrderBy(n => n.Midi).Select(n => n.Midi).ToImmutableArray());
        var motion = VoicingKind.Between(here, there);
        return VoicingWords.Motion([.. motion.Common.Select(m => e.Notes.First(n => n.Midi == m).Pitch.ToString())], [], motion.Motion);
    }
}
