// What a piece holds, one line a thing, for comparing it with what came back of it.
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Tests.Scores;

internal static class Carried
{
    /// <summary>Every struck note: onset, end as wanted, pitch, string and fret.</summary>
    public static List<string> Notes(Piece piece) => [.. Struck(piece).Select(x =>
        $"bar {piece.Bars[x.Event.Bar].Number} {x.Note.Onset} to {Rational.Min(x.Note.WantedEnd, piece.Bars[^1].End)} {x.Note.Pitch}@{x.String}:{x.Fret}{(x.Note.Dead ? " dead" : "")}{(x.Note.Harmonic ? " harmonic" : "")} {x.Note.BendTo}").Order(StringComparer.Ordinal)];

    /// <summary>Onset, pitch as a MIDI number, string and fret alone.</summary>
    public static List<string> Places(Piece piece) => [.. Struck(piece).Where(x => !x.Note.Dead).Select(x =>
        $"bar {piece.Bars[x.Event.Bar].Number} {x.Note.Onset} {x.Note.Midi} {x.String}:{x.Fret}").Order(StringComparer.Ordinal)];

    /// <summary>Chords where they begin.</summary>
    public static List<string> Chords(Piece piece) => [.. piece.Bars.SelectMany(b => b.Chords.Where(c => !c.Carried || b.Repeats is not null).Select(c => $"{c.Start} {c.Symbol?.Text}"))];

    /// <summary>What is in force in each bar, and what its words say.</summary>
    public static List<string> Settings(Piece piece) =>
    [
        $"{piece.Title} / {piece.By}",
        .. piece.Bars.Select(b => $"{b.Number} {b.Settings.Meter} {b.Settings.Key} {b.Settings.Neck.Tuning} {b.Settings.Neck.Capo} {b.Settings.BeatsPerMinute} {b.Settings.Rubato} {b.Settings.Feel} {b.Length} {b.From}"),
        .. piece.Sections.Where(s => !s.Again).Select(s => $"{s.Name} {s.FirstBar}"),
        .. piece.Bars.SelectMany(b => b.Prose.Select(p => $"{b.Number} {p}")),
    ];

    /// <summary>Everything, by what it is: each fact is one line.</summary>
    public static Dictionary<string, List<string>> Facts(Piece piece)
    {
        var struck = Struck(piece).ToList();
        List<string> Notes(Func<(Event Event, Note Note, int? String, int? Fret), string> fact, Func<(Event Event, Note Note, int? String, int? Fret), bool>? of = null) =>
            [.. struck.Where(x => of?.Invoke(x) ?? !x.Note.Dead).Select(x => $"{x.Note.Onset} {fact(x)}")];
        List<string> Marked(params MarkKind[] kinds) =>
            [.. piece.Events.Where(e => e.Kind == EventKind.Struck).SelectMany(e => e.Marks.Where(m => kinds.Contains(m.Kind)).Select(m => $"{e.Onset} {(m.Operand is WordOperand w ? w.Word : m.Kind.ToString())}"))];
        return new()
        {
            ["onset and sound of a note"] = Notes(x => $"{x.Note.Midi}"),
            ["its spelling"] = Notes(x => $"{x.Note.Pitch}"),
            ["its length, ringing included"] = Notes(x => $"{x.Note.Midi} {Rational.Min(x.Note.WantedEnd, piece.Bars[^1].End)}"),
            ["its string and fret"] = Notes(x => $"{x.String}:{x.Fret}"),
            ["its written finger"] = Notes(x => $"{x.Note.Midi} {x.Note.Finger}", x => x.Note.Finger is not null),
            ["dead notes"] = Notes(x => $"{x.String}", x => x.Note.Dead),
            ["harmonics"] = Notes(x => $"{x.String}:{x.Fret}", x => x.Note.Harmonic),
            ["bends"] = Notes(x => $"{x.Note.BendTo?.Midi}", x => x.Note.BendTo is not null),
            ["grace notes"] = [.. piece.Events.SelectMany(e => e.Grace.Select(g => $"{e.Onset} {g.Midi}"))],
            ["hammer, pull, slide, slur"] = Marked(MarkKind.Hammer, MarkKind.Pull, MarkKind.Slide, MarkKind.Slur),
            ["roll, fermata, accent, short, vibrato, palm-mute"] = Marked(MarkKind.Roll, MarkKind.Fermata, MarkKind.Accent, MarkKind.Short, MarkKind.Vibrato, MarkKind.PalmMute),
            ["loudness"] = Marked(MarkKind.Loudness),
            ["right hand"] = Marked(MarkKind.Pluck),
            ["remarks and names of voicings"] = Marked(MarkKind.Remark, MarkKind.Is),
            ["unsure"] = Marked(MarkKind.Unsure),
            ["chord symbols"] = Chords(piece),
            ["meter of a bar"] = [.. piece.Bars.Select(b => $"{b.Start} {b.Settings.Meter} {b.From}")],
            ["key of a bar"] = [.. piece.Bars.Where(b => b.Settings.Key is not null).Select(b => $"{b.Start} {b.Settings.Key}")],
            ["tempo of a bar"] = [.. piece.Bars.Where(b => b.Settings.BeatsPerMinute is not null).Select(b => $"{b.Start} {b.Settings.BeatsPerMinute}")],
            ["feel of a bar"] = [.. piece.Bars.Where(b => b.Settings.Feel is not null).Select(b => $"{b.Start} {b.Settings.Feel}")],
            ["tuning and capo of a bar"] = [.. piece.Bars.Select(b => $"{b.Start} {b.Settings.Neck.Tuning} {b.Settings.Neck.Capo}")],
            ["sections"] = [.. piece.Sections.Where(s => !s.Again).Select(s => $"{s.FirstBar} {s.Name}")],
            ["sections again"] = [.. piece.Sections.Where(s => s.Again).Select(s => $"{s.FirstBar} {s.Name}")],
            ["order in which bars are played"] = [string.Join(' ', piece.PlayOrder)],
            ["title and author"] = [$"{piece.Title} / {piece.By}"],
            ["teaching text"] = [.. piece.Prose, .. piece.Sections.SelectMany(s => s.Prose), .. piece.Bars.SelectMany(b => b.Prose)],
        };
    }

    /// <summary>Marks of every struck event but those that <see cref="Notes"/> tells.</summary>
    public static List<string> Marks(Piece piece) => [.. piece.Events.Where(e => e.Kind == EventKind.Struck).SelectMany(e => e.Marks.Select(m => $"{e.Onset} {m.Kind}")).Order(StringComparer.Ordinal)];

    private static IEnumerable<(Event Event, Note Note, int? String, int? Fret)> Struck(Piece piece)
    {
        var places = PlacedPiece.Of(piece, Hand.Medium).Events.SelectMany(e => e.Notes.Select(n => (e.Event, n))).ToDictionary(x => (x.Event, x.n.Note), x => x.n, Pairs.Instance);
        foreach (var e in piece.Events.Where(e => e.Kind == EventKind.Struck))
            foreach (var n in e.Notes)
                yield return places.TryGetValue((e, n), out var at) ? (e, n, at.String, at.Fret) : (e, n, n.String, n.Fret);
    }

    private sealed class Pairs : IEqualityComparer<(Event, Note)>
    {
        public static readonly Pairs Instance = new();

        public bool Equals((Event, Note) a, (Event, Note) b) => ReferenceEquals(a.Item1, b.Item1) && ReferenceEquals(a.Item2, b.Item2);

        public int GetHashCode((Event, Note) x) => System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(x.Item2);
    }
}
