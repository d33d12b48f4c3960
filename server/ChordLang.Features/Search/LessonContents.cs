// What a library search needs to know of one lesson, as plain data, so that the command line and an editor's session ask the same index.
using System.Collections.Immutable;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Text;
using ChordLang.Harmony.Functions;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;

namespace ChordLang.Features.Search;

/// <summary>A stretch of a lesson. Times are whole notes from the first bar's start, in the order written.</summary>
/// <param name="Bar">The bar's number as players count it; null before the first bar.</param>
/// <param name="Count">The count it begins on, as the notation writes it; null before the first bar.</param>
/// <param name="Start">When it begins.</param>
/// <param name="End">When it ends, not included.</param>
/// <param name="Span">Where it is written, in offsets of the text.</param>
public sealed record IndexedPlace(int? Bar, string? Count, double Start, double End, Span Span);

/// <summary>A chord of the chart and what it does.</summary>
/// <param name="Place">Where and for how long.</param>
/// <param name="Symbol">As written.</param>
/// <param name="Chord">What it means.</param>
/// <param name="Does">Key, numeral and roles.</param>
public sealed record IndexedChord(IndexedPlace Place, string Symbol, Chord Chord, ChordFunction Does);

/// <summary>A grip that is played, or a shape that is defined.</summary>
/// <param name="Place">Where and for how long; a definition has no bar and no length.</param>
/// <param name="Frets">As written with hyphens.</param>
/// <param name="Form">What all grips share that one hand shape gives along the neck, see <see cref="GripForm"/>.</param>
/// <param name="Shape">The name of its shape, or null.</param>
public sealed record IndexedGrip(IndexedPlace Place, string Frets, string Form, string? Shape);

/// <summary>A key and where it holds.</summary>
/// <param name="Place">Where and for how long.</param>
/// <param name="Key">The key.</param>
/// <param name="Given">True where the lesson writes it, false where it was found from the chords.</param>
public sealed record IndexedKey(IndexedPlace Place, Key Key, bool Given);

/// <summary>One lesson of a library.</summary>
/// <param name="Path">As matches name it.</param>
/// <param name="Tags">Its tags.</param>
/// <param name="Keys">Its keys, in order.</param>
/// <param name="Chords">Its chords, in order.</param>
/// <param name="Grips">Its shapes, then the grips it plays, in order.</param>
public sealed record LessonContents(
    string Path, ImmutableArray<string> Tags, ImmutableArray<IndexedKey> Keys, ImmutableArray<IndexedChord> Chords, ImmutableArray<IndexedGrip> Grips)
{
    /// <summary>Indexes a lesson.</summary>
    /// <param name="path">As matches shall name it.</param>
    /// <param name="lesson">The lesson.</param>
    public static LessonContents Of(string path, Lesson lesson)
    {
        var (piece, harmony) = (lesson.Piece, lesson.Harmony);
        var end = piece.Bars.IsEmpty ? 0 : piece.Bars[^1].End.Value;
        var places = harmony.Written.Places;
        var starts = places.Select((p, i) => piece.Bars[p.Bar] is var bar
            ? bar.Start.Value + (harmony.Written.Chart.Chords[i].Onset - bar.From.Value) * bar.Settings.Meter.Count.Value : 0).ToArray();
        double Stop(int i) => i + 1 < starts.Length ? starts[i + 1] : end;
        return new(path, piece.Tags, [.. KeysOf(lesson, end)],
            [.. places.Select((p, i) => new IndexedChord(new(piece.Bars[p.Bar].Number, p.Count, starts[i], Stop(i), p.Span), p.Symbol, harmony.Written.Chart.Chords[i].Chord, harmony.Functions[i]))],
            [.. ShapesOf(lesson), .. Played(lesson)]);
    }

    private static IEnumerable<IndexedKey> KeysOf(Lesson lesson, double end)
    {
        var (bars, spans) = (lesson.Piece.Bars, lesson.Harmony.Keys.Spans);
        for (var i = 0; i < spans.Length; i++)
            if (bars.FirstOrDefault(b => b.Number >= spans[i].FromBar) is { } bar)
            {
                var stop = i + 1 < spans.Length && bars.FirstOrDefault(b => b.Number >= spans[i + 1].FromBar) is { } next ? next.Start.Value : end;
                yield return new(new(bar.Number, bar.CountOf(bar.Start), bar.Start.Value, stop, bar.Span), spans[i].Key, spans[i].Given);
            }
    }

    private static IEnumerable<IndexedGrip> ShapesOf(Lesson lesson) =>
        lesson.Piece.Shapes.Values.Where(s => s.Path is null).OrderBy(s => s.Line)
            .Select(s => new IndexedGrip(new(null, null, 0, 0, s.Span), GripForm.Written(s.Slots), GripForm.Of(s.Slots), s.Name));

    private static IEnumerable<IndexedGrip> Played(Lesson lesson) =>
        lesson.Piece.Events.Where(e => e.Voicing is not null && e.Notes.Length > 1)
            .Select(e => new IndexedGrip(
                new(lesson.Piece.Bars[e.Bar].Number, lesson.Piece.Bars[e.Bar].CountOf(e.Onset), e.Onset.Value, e.End.Value, e.SoundSpan),
                GripForm.Written(e.Voicing!.Slots), GripForm.Of(e.Voicing.Slots), e.Shape?.Name));
}
