// Puts a search to the index of a lesson.
using ChordLang.Grammar.Text;
using ChordLang.Harmony.Charts;
using ChordLang.Theory.Chords;

namespace ChordLang.Features.Search;

/// <summary>A place that holds what is looked for.</summary>
/// <param name="Path">The lesson.</param>
/// <param name="Bar">The bar, or null before the first.</param>
/// <param name="Count">The count, or null before the first bar.</param>
/// <param name="Span">Where it is written, in offsets of the text.</param>
/// <param name="Text">What stands there, in words.</param>
public sealed record SearchMatch(string Path, int? Bar, string? Count, Span Span, string Text);

/// <summary>Searches lessons.</summary>
public static class LibrarySearch
{
    /// <summary>The places where all that is asked for holds at once, in order of time.</summary>
    public static IEnumerable<SearchMatch> In(LessonContents lesson, Wanted wanted)
    {
        if (wanted.Tag is { } tag && !lesson.Tags.Contains(tag, StringComparer.OrdinalIgnoreCase))
            return [];
        // The narrowest place leads; the others must sound together with it.
        var parts = new List<List<(IndexedPlace Place, string Text)>>();
        if (wanted.Form is not null || wanted.ShapeName is not null)
            parts.Add([.. Grips(lesson, wanted)]);
        if (wanted.Chord is not null || wanted.Role is not null)
            parts.Add([.. Chords(lesson, wanted)]);
        if (wanted.Progression is { } progression)
            parts.Add([.. progression.In(lesson.Chords).Select(p => Found(lesson, wanted, p.First, p.Last, p.Tonic))]);
        if (wanted.Key is not null)
            parts.Add([.. lesson.Keys.Where(k => k.Key == wanted.Key).Select(k => (k.Place, $"{k.Key}, {(k.Given ? "as written" : "found from the chords")}"))]);
        if (parts.Count == 0)
            return wanted.Tag is { } t ? [new(lesson.Path, null, null, default, $"tagged {t}")] : [];
        return parts[0].Select(h => (h.Place, Texts: parts.Skip(1).Select(p => p.FirstOrDefault(o => Together(h.Place, o.Place)).Text).Prepend(h.Text).ToList()))
            .Where(h => h.Texts.All(t => t is not null))
            .Select(h => new SearchMatch(lesson.Path, h.Place.Bar, h.Place.Count, h.Place.Span, string.Join("; ", h.Texts)));
    }

    private static bool Together(IndexedPlace a, IndexedPlace b) => a.Start < b.End && b.Start < a.End;

    private static IEnumerable<(IndexedPlace, string)> Grips(LessonContents lesson, Wanted wanted) =>
        lesson.Grips.Where(g => wanted.Form is null ? g.Shape == wanted.ShapeName : g.Form == wanted.Form)
            .Select(g => (g.Place, g.Shape is null ? g.Frets : g.Place.Bar is null ? $"shape {g.Shape} = {g.Frets}" : $"{g.Frets}, the shape {g.Shape}"));

    private static IEnumerable<(IndexedPlace, string)> Chords(LessonContents lesson, Wanted wanted)
    {
        foreach (var chord in lesson.Chords)
        {
            if (wanted.Chord is { } sought && !Means(chord.Chord, sought, wanted.AnyRoot))
                continue;
            var reason = wanted.Role is { } role ? chord.Does.Reasons.FirstOrDefault(r => r.Name == role)?.Sentence : "";
            if (reason is not null)
                yield return (chord.Place, $"{chord.Symbol}, {chord.Does.Numeral} in {chord.Does.Key}{(reason.Length > 0 ? $": {reason}" : "")}");
        }
    }

    // Two symbols mean the same chord where they ask for the same tones: Cm7, C-7 and Cmin7. The root's name counts, so that C#7 is not Db7.
    private static bool Means(Chord chord, Chord sought, bool anyRoot) =>
        (anyRoot || chord.Root == sought.Root && chord.Bass == sought.Bass)
        && chord.Tones.Select(t => t.Degree).SequenceEqual(sought.Tones.Select(t => t.Degree));

    private static (IndexedPlace, string) Found(LessonContents lesson, Wanted wanted, int first, int last, int tonic)
    {
        var chords = lesson.Chords[first..(last + 1)];
        var (begin, stop) = (chords[0].Place, chords[^1].Place.End);
        var end = wanted.Progression!.Steps[^1];
        // A tonic that sounds at the end is named as it is written there.
        var name = end.Interval == 0 ? chords[^1].Chord.Root : chords[^1].Does.Key.Spell(tonic);
        var local = (chords[^1].Chord.Root.PitchClass - chords[^1].Does.Degree + 12) % 12 == tonic;
        var key = local ? $"{chords[^1].Does.Key}" : $"{name} {(end.Interval == 0 && chords[^1].Chord.Family() == ChordFamily.Minor ? "minor" : "major")}, in passing";
        return (begin with { End = stop }, $"{string.Join(' ', chords.Select(c => c.Symbol))}, {wanted.ProgressionText} of {key}");
    }
}
