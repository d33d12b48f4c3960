// Hints between the words: bar numbers, numerals, names of voicings, resolved places and pitches.
using ChordLang.Arrangement.Music;
using ChordLang.Features.Choices;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Text;
using ChordLang.Harmony.Naming;

namespace ChordLang.Features.Hints;

/// <summary>What a hint tells.</summary>
public enum HintKind { BarNumber, Numeral, Name, Place, Pitch }

/// <summary>A hint.</summary>
/// <param name="Offset">Where it is shown.</param>
/// <param name="Kind">What it tells.</param>
/// <param name="Text">A few signs.</param>
/// <param name="Before">True where it stands before a word, false behind one.</param>
/// <param name="Says">The same as a sentence.</param>
public sealed record Hint(int Offset, HintKind Kind, string Text, bool Before, string Says);

/// <summary>Finds hints.</summary>
public static class HintsIn
{
    private const int Voicing = 3;

    /// <summary>The hints of a stretch, in order.</summary>
    public static IReadOnlyList<Hint> Of(Lesson lesson, Span span, HintChoices choices)
    {
        var hints = new List<Hint>();
        var bars = lesson.Piece.Bars.Where(b => Meets(b)).ToList();
        if (choices.BarNumbers)
            foreach (var bar in bars)
                hints.Add(new(lesson.Tree.Absolute(bar.Line, bar.Syntax.BarLine).Start, HintKind.BarNumber, $"{bar.Number}", true, bar.Number == 0 ? "The pickup." : $"Bar {bar.Number}."));
        if (choices.Numerals && bars.Count > 0)
            Numerals(lesson, span, hints);
        if (choices.Names || choices.Pitches)
            foreach (var e in bars.SelectMany(b => b.Rows).Where(r => !r.Borrowed).SelectMany(r => r.Events))
                Sound(lesson, e, choices, hints);
        if (choices.Places && bars.Count > 0)
            Places(lesson, span, hints);
        return [.. hints.Where(h => h.Offset >= span.Start && h.Offset <= span.End).OrderBy(h => h.Offset)];

        bool Meets(Bar bar) => bar.Span.Start <= span.End && bar.Rows.Where(r => !r.Borrowed).Select(r => lesson.Text.Lines[r.Line].End).DefaultIfEmpty(bar.Span.End).Max() >= span.Start;
    }

    private static void Numerals(Lesson lesson, Span span, List<Hint> hints)
    {
        var (written, functions) = (lesson.Harmony.Written, lesson.Harmony.Functions);
        var told = new HashSet<int>();
        for (var i = 0; i < written.Places.Length; i++)
            if (written.Places[i] is var place && place.Span.End >= span.Start && place.Span.Start <= span.End && told.Add(place.Span.Start))
                hints.Add(new(place.Span.End, HintKind.Numeral, functions[i].Numeral, false, $"{place.Symbol} is {functions[i].Numeral} in {functions[i].Key}. {functions[i].Reason}"));
    }

    private static void Sound(Lesson lesson, Event e, HintChoices choices, List<Hint> hints)
    {
        if (e.Kind != EventKind.Struck || e.Repeated || e.Notes.IsEmpty || e.Notes.Any(n => n.Dead))
            return;
        var notes = e.Notes.OrderBy(n => n.Midi).ToList();
        if (choices.Pitches && notes.All(n => !n.PitchWritten))
            hints.Add(new(e.SoundSpan.End, HintKind.Pitch, string.Join(' ', notes.Select(n => n.Pitch)), false, $"It sounds {Hovers.Say.List(notes.Select(n => $"{n.Pitch}"))}."));
        if (choices.Names && e.Is is null && notes.Count >= Voicing && lesson.Piece.ChordAt(e.Onset)?.Symbol is null
            && SoundNamer.Name([.. notes.Select(n => n.Pitch)], NamingContext.None).Readings.FirstOrDefault() is { } best)
            hints.Add(new(e.SoundSpan.End, HintKind.Name, best.Symbol, false, $"No chord symbol stands for it; it may be called {best.Symbol} ({best.Why})."));
    }

    private static void Places(Lesson lesson, Span span, List<Hint> hints)
    {
        foreach (var placed in lesson.Placed.Events)
            if (placed is { Given: false, Event: { Repeated: false } e } && e.SoundSpan.End >= span.Start && e.SoundSpan.Start <= span.End)
                foreach (var note in placed.Notes)
                    if (note is { Note: { String: null } open, String: { } s, Fret: { } fret })
                        hints.Add(new(open.Span.End, HintKind.Place, $"{fret}@{s}", false, $"{open.Pitch} would be played on string {s}, fret {fret}."));
    }
}
