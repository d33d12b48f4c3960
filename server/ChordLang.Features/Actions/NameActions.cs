// Renames a chord to what the frets say.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Harmony.Naming;
using ChordLang.Theory.Chords;

namespace ChordLang.Features.Actions;

internal static class NameActions
{
    private const int LeastNotes = 3, MostNames = 2;
    private const double LeastScore = 0.05;

    public static IEnumerable<LessonAction> Of(Selection chosen)
    {
        if (chosen.ChartChord() is var (bar, chord) && Under(chosen.Piece, chord) is { } played)
            return Named(chosen, bar, played, chord);
        return chosen.Single is { } e && Voiced(e) ? Named(chosen, chosen.Piece.Bars[e.Bar], e, chosen.Piece.ChordAt(e.Onset)) : [];
    }

    private static bool Voiced(Event e) => e.Notes.Length >= LeastNotes && !e.Notes.Any(n => n.Dead);

    // The first chord that is played while the symbol is in force.
    private static Event? Under(Piece piece, ChordSpan chord) => piece.BarAt(chord.Start) is not { } bar ? null
        : bar.Rows.SelectMany(r => r.Events).Where(e => e.Kind == EventKind.Struck && e.Onset >= chord.Start && e.Onset < chord.End && Voiced(e)).MinBy(e => e.Onset);

    private static IEnumerable<LessonAction> Named(Selection chosen, Bar bar, Event e, ChordSpan? chart)
    {
        var now = e.Is ?? chart?.Chord;
        var names = SoundNamer.Name([.. e.Notes.Select(n => n.Pitch).OrderBy(p => p.Midi)], new(bar.Settings.Key, Spelled: e.Notes.All(n => n.PitchWritten)));
        foreach (var reading in names.Readings.Where(r => r.Score >= LeastScore && r.Chord is not null && r.Symbol != now?.Symbol && !Same(r.Chord, now)).Take(MostNames))
        {
            var is_ = e.Marks.FirstOrDefault(m => m is { Kind: MarkKind.Is, Operand: not null });
            if (is_ is { Operand: { } operand })
            {
                if (!e.Repeated)
                    yield return new($"name is {reading.Symbol}", $"Call this sound {reading.Symbol}", ActionKind.Rewrite, () => [new(chosen.Piece.Tree.Absolute(e.Line, operand.Span), reading.Symbol)]);
                continue;
            }
            if (chart is { Carried: false, Symbol: not null })
                yield return new($"name chart {reading.Symbol}", $"Write {reading.Symbol} on the chart: another name of these notes", ActionKind.Rewrite, () => [new(chart.Span, reading.Symbol)]);
            if (e is { Repeated: false, Syntax: { } played })
                yield return new($"name is {reading.Symbol}", $"Call this sound {reading.Symbol}", ActionKind.Rewrite,
                    () => [new(new(chosen.Piece.Tree.Absolute(e.Line, played.Sound.Span).End, 0), $" is {reading.Symbol}")]);
        }
    }

    // Two symbols for one chord (C-7, Cm7) are no news.
    private static bool Same(Chord one, Chord? other) => other is not null && one.Root == other.Root && one.Bass == other.Bass && one.Kind == other.Kind
        && one.Tones.Select(t => t.Name).SequenceEqual(other.Tones.Select(t => t.Name));
}
