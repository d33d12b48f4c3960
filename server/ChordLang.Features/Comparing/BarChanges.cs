// Says what became of one bar.
using ChordLang.Arrangement.Music;
using ChordLang.Features.Hovers;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Comparing;

/// <summary>Compares a bar with what it became.</summary>
/// <param name="old">The old bar.</param>
/// <param name="now">The new bar.</param>
/// <param name="keyMoved">Semitones that the key was moved by, or null.</param>
internal sealed class BarChanges(BarMusic old, BarMusic now, int? keyMoved)
{
    private const int MostNamed = 3;

    /// <summary>All changes, graver ones first.</summary>
    public IEnumerable<Change> All()
    {
        if (old.Own == now.Own)
            return old.Written == now.Written ? [] : [Of(ChangeKind.Format, "written otherwise, the same music")];
        if (old.Text == now.Text)
            return Leaning() is { } cause ? [Of(ChangeKind.Leaning, $"text unchanged, but {cause}, so it sounds different") with { Group = cause }] : [];
        var chords = Chords().ToList();
        if (Transposed(chords.Count > 0) is { } by)
            return [Of(ChangeKind.Transposed, $"transposed {Way(by)}")];
        return Played() is { } played ? [.. chords, played] : chords;
    }

    /// <summary>An interval as players say it, with its direction.</summary>
    public static string Way(int semitones) => $"{(semitones > 0 ? "up" : "down")} {Math.Abs(semitones) switch
    {
        1 => "a semitone", 2 => "a whole tone", 3 => "a minor third", 4 => "a major third", 5 => "a fourth", 6 => "a tritone", 7 => "a fifth",
        8 => "a minor sixth", 9 => "a major sixth", 10 => "a minor seventh", 11 => "a major seventh", 12 => "an octave", var n => $"{n} semitones",
    }}";

    private Change Of(ChangeKind kind, string text) => new(now.Bar.Number, now.Section?.Name, kind, text);

    private IEnumerable<Change> Chords()
    {
        if (old.Harmony == now.Harmony)
            yield break;
        var (was, left) = (old.Chords.ToDictionary(c => c.Offset, c => c.Chord), now.Chords.ToDictionary(c => c.Offset, c => c.Chord));
        var says = new List<string>();
        foreach (var at in was.Keys.Union(left.Keys).Order())
        {
            var (a, b) = (was.GetValueOrDefault(at), left.GetValueOrDefault(at));
            if (a?.Symbol?.Text == b?.Symbol?.Text && a is null == b is null)
                continue;
            says.Add(a is null ? $"{Name(b!)} put in on {CountSyntax.Write(at)}" : b is null ? $"{Name(a)} taken out on {CountSyntax.Write(at)}" : ChordChange.Say(a, b));
        }
        // A chord that only lasts on from the bar before is told there.
        if (says.Count == 0 || now.Chords.All(c => c.Chord.Carried) && old.Chords.All(c => c.Chord.Carried))
            yield break;
        yield return Of(ChangeKind.Chord, string.Join("; ", says)) with { Count = says.Count };
    }

    private static string Name(ChordSpan chord) => chord.Symbol?.Text ?? "N.C.";

    private int? Transposed(bool chordsChanged)
    {
        var shift = ChordShift();
        if (Likeness.Moved(old, now) is { } notes)
            return !chordsChanged || shift == Semitones.Up(notes) ? notes : null;
        return old.Events.Length == 0 && now.Events.Length == 0 && chordsChanged && keyMoved is { } key && shift == Semitones.Up(key) ? key : null;
    }

    // Semitones that every chord of the bar went up, octaves aside, where each stayed of its kind.
    private int? ChordShift()
    {
        if (old.Chords.Length == 0 || old.Chords.Length != now.Chords.Length)
            return null;
        int? shift = null;
        foreach (var (a, b) in old.Chords.Zip(now.Chords))
        {
            if (a.Chord.Chord is not { } was || b.Chord.Chord is not { } name || was.Kind != name.Kind || a.Offset != b.Offset
                || Semitones.Up(name.Root.PitchClass - was.Root.PitchClass) is var up && (shift ??= up) != up)
                return null;
        }
        return shift;
    }

    private Change? Played()
    {
        if (old.Sound == now.Sound)
            return old.Strings != now.Strings ? Of(ChangeKind.Strings, "same notes, other strings")
                : old.Fingers != now.Fingers ? Of(ChangeKind.Fingers, "same notes, other fingers")
                : old.Marks != now.Marks ? Of(ChangeKind.Marks, Marks()) : null;
        var (was, left) = (Struck(old), Struck(now));
        if (was.Count == left.Count && was.All(w => left.TryGetValue(w.Key, out var n) && n.Midis == w.Value.Midis))
            return Of(ChangeKind.Lengths, old.Strings == now.Strings ? "same notes, other lengths" : "same notes, other lengths and strings");
        if (old.Events.Length == 0 || now.Events.Length == 0)
            return Of(ChangeKind.Notes, old.Events.Length == 0 ? "notes put in" : "notes taken out");
        var differ = was.Keys.Union(left.Keys).Where(k => was.GetValueOrDefault(k).Midis != left.GetValueOrDefault(k).Midis).Order().ToList();
        if (differ.Count > MostNamed)
            return Of(ChangeKind.Notes, differ.Count >= was.Keys.Union(left.Keys).Count() ? "other notes" : $"other notes on {Say.List(differ.Select(Count))}");
        return Of(ChangeKind.Notes, string.Join("; ", differ.Select(at =>
        {
            string[] a = was.GetValueOrDefault(at).Names ?? [], b = left.GetValueOrDefault(at).Names ?? [];
            var (gone, came) = (string.Join(" with ", a.Except(b)), string.Join(" with ", b.Except(a)));
            return gone.Length + came.Length == 0 ? $"other notes on {Count(at)}" : gone.Length == 0 ? $"{came} put in on {Count(at)}" : came.Length == 0 ? $"{gone} taken out on {Count(at)}" : $"{gone} became {came} on {Count(at)}";
        })));
    }

    private string Count(Rational onset) => now.Bar.CountOf(now.Bar.Start + onset);

    // What is struck on each count, of all voices: pitches where they are written, else a grip, else frets on strings.
    private static Dictionary<Rational, (string Midis, string[]? Names)> Struck(BarMusic bar) => bar.Events.Where(e => e.Kind == EventKind.Struck && e.Notes.Length > 0)
        .GroupBy(e => e.Notes[0].Onset)
        .ToDictionary(g => g.Key, g => (string.Join('+', g.SelectMany(e => e.Notes).Select(n => n.Midi).Order()), (string[]?)[.. g.OrderBy(e => e.Notes[0].Midi).Select(Name)]));

    private static string Name(EventMusic e) => e.Grip ?? string.Join('+', e.Notes.Select(n => n.Spelled.Length > 0 ? n.Spelled : n.String is { } s ? $"{n.Fret}@{s}" : Pitch.Nearest(n.Midi).ToString()));

    private string Marks()
    {
        var voices = (old.Events.Select(e => e.Voice).ToHashSet(), now.Events.Select(e => e.Voice).ToHashSet());
        if (!voices.Item1.SetEquals(voices.Item2))
            return "same notes, other voices";
        return old.Events.Select(e => e.Marks).SequenceEqual(now.Events.Select(e => e.Marks)) ? "same notes, spelled otherwise" : "same notes, other marks";
    }

    // Why a bar whose text is the same sounds otherwise; null where it does not, but is only spelled by another key.
    private string? Leaning()
    {
        if (old.Sound == now.Sound && old.Strings == now.Strings && old.Harmony == now.Harmony && old.Fingers == now.Fingers)
            return null;
        var shapes = now.Events.Select(e => e.Shape).OfType<Shape>().Where(s => old.Events.Any(o => o.Shape is { } was && was.Name == s.Name && !was.Slots.SequenceEqual(s.Slots)))
            .Select(s => s.Name).Distinct().ToList();
        if (shapes.Count > 0)
            return $"shape {Say.List(shapes)} changed";
        if (old.Bar.Settings.Neck.Tuning != now.Bar.Settings.Neck.Tuning)
            return "the strings are tuned otherwise";
        if (old.Bar.Settings.Neck.Capo != now.Bar.Settings.Neck.Capo)
            return "the capo stands elsewhere";
        if (old.Bar.Settings.Meter != now.Bar.Settings.Meter)
            return "the meter changed";
        return now.Bar.Repeats is not null ? "the bar that it repeats changed" : "the bar that it goes on from changed";
    }
}
