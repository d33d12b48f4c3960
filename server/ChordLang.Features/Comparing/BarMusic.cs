// A bar as music, apart from where it stands and how it is written: what two bars are compared by.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Features.Comparing;

/// <summary>A note as it is compared. Times are whole notes from the bar line.</summary>
/// <param name="Onset">When it is struck; negative for a note that goes on from an earlier bar.</param>
/// <param name="End">When the writer wants it to stop.</param>
/// <param name="Midi">What sounds.</param>
/// <param name="Spelled">How it is spelled; empty where only a fret is written, whose spelling is the chord's.</param>
/// <param name="String">Its string, or null.</param>
/// <param name="Fret">Its fret, or null.</param>
/// <param name="Finger">Its left-hand finger, where one is given.</param>
internal sealed record NoteMusic(Rational Onset, Rational End, int Midi, string Spelled, int? String, int? Fret, Finger? Finger);

/// <summary>An event as it is compared.</summary>
/// <param name="Voice">Its voice.</param>
/// <param name="Offset">Its count.</param>
/// <param name="Kind">What it does.</param>
/// <param name="Notes">Its notes, lowest first.</param>
/// <param name="Marks">Its marks but fingers, in words.</param>
/// <param name="Shape">The shape it is made of, or null.</param>
/// <param name="Grip">Its frets, one slot a string, where only frets are written; or null.</param>
internal sealed record EventMusic(string Voice, Rational Offset, EventKind Kind, ImmutableArray<NoteMusic> Notes, string Marks, Shape? Shape, string? Grip);

/// <summary>A bar as music.</summary>
internal sealed class BarMusic
{
    private BarMusic(Bar bar, Section? section, string written, ImmutableArray<(Rational Offset, ChordSpan Chord)> chords, ImmutableArray<EventMusic> events, string ringing)
    {
        (Bar, Section, Written, Chords, Events) = (bar, section, written, chords, events);
        Text = string.Join(' ', written.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        var s = bar.Settings;
        Setting = $"{s.Meter} {s.Key} {s.Neck.Tuning} {s.Neck.Capo} {bar.From} {bar.Length}";
        Harmony = string.Join(' ', chords.Select(c => $"{c.Offset}:{c.Chord.Symbol?.Text ?? "N.C."}"));
        Sound = string.Join(' ', events.SelectMany(e => e.Notes.Select(n => $"{n.Onset}-{n.End}:{n.Midi}")).Order(StringComparer.Ordinal));
        Strings = string.Join(' ', events.SelectMany(e => e.Notes.Select(n => $"{n.Onset}:{n.Midi}@{n.String}/{n.Fret}")).Order(StringComparer.Ordinal));
        Fingers = string.Join(' ', events.SelectMany(e => e.Notes.Select(n => $"{n.Onset}:{n.Midi}@{n.String}={n.Finger}")).Order(StringComparer.Ordinal));
        Marks = string.Join(' ', events.Select(e => $"{e.Voice}:{e.Offset}:{e.Kind}:{e.Marks}:{string.Join('+', e.Notes.Select(n => n.Spelled))}"));
        ChordWords = [.. chords.Select(c => $"{c.Offset}{c.Chord.Symbol?.Text}").Order(StringComparer.Ordinal)];
        NoteWords = [.. events.SelectMany(e => e.Notes.IsEmpty ? [$"{e.Offset}{e.Kind}"] : e.Notes.Select(n => $"{n.Onset}:{n.Midi}")).Order(StringComparer.Ordinal)];
        Struck = [.. events.SelectMany(e => e.Notes.Select(n => (n.Onset, n.End, n.Midi))).Order()];
        Own = $"{Harmony}|{Sound}|{Strings}|{Fingers}|{Marks}";
        Whole = $"{Setting}|{Own}|{ringing}";
    }

    /// <summary>The bar.</summary>
    public Bar Bar { get; }

    /// <summary>Its section, or null.</summary>
    public Section? Section { get; }

    /// <summary>Its own lines, as they stand.</summary>
    public string Written { get; }

    /// <summary>The same, blanks aside.</summary>
    public string Text { get; }

    /// <summary>Its chords with their counts; one that lasts on from before stands on the bar's first count.</summary>
    public ImmutableArray<(Rational Offset, ChordSpan Chord)> Chords { get; }

    /// <summary>Its events, by count.</summary>
    public ImmutableArray<EventMusic> Events { get; }

    /// <summary>Meter, key and strings in force.</summary>
    public string Setting { get; }

    /// <summary>Its chords on their counts, sorted.</summary>
    public ImmutableArray<string> ChordWords { get; }

    /// <summary>Its notes on their counts, sorted.</summary>
    public ImmutableArray<string> NoteWords { get; }

    /// <summary>Its notes in order of time, then of pitch.</summary>
    public ImmutableArray<(Rational Onset, Rational End, int Midi)> Struck { get; }

    /// <summary>Its chords.</summary>
    public string Harmony { get; }

    /// <summary>What sounds when, whoever plays it and wherever.</summary>
    public string Sound { get; }

    /// <summary>What sounds where.</summary>
    public string Strings { get; }

    /// <summary>With which fingers.</summary>
    public string Fingers { get; }

    /// <summary>Voices, marks and spelling.</summary>
    public string Marks { get; }

    /// <summary>All that it says itself: bars of one content are the same bar, wherever they stand.</summary>
    public string Own { get; }

    /// <summary>The same with what is in force and what rings into it.</summary>
    public string Whole { get; }

    /// <summary>The bars of a piece.</summary>
    public static ImmutableArray<BarMusic> Of(Piece piece)
    {
        var sections = piece.Sections.Where(s => !s.Again).ToList();
        var bars = ImmutableArray.CreateBuilder<BarMusic>(piece.Bars.Length);
        List<(Note Note, Event Source)> ringing = [];
        foreach (var bar in piece.Bars)
        {
            ringing.RemoveAll(r => r.Note.End <= bar.Start);
            var held = string.Join(' ', ringing.Select(r => $"{r.Note.Midi}@{r.Note.String}-{r.Note.End - bar.Start}").Order(StringComparer.Ordinal));
            var events = bar.Rows.SelectMany(r => r.Events.Select(e => Event(e, bar))).OrderBy(e => e.Offset).ThenBy(e => e.Voice, StringComparer.Ordinal).ToImmutableArray();
            bars.Add(new(bar, sections.LastOrDefault(s => bar.Index >= s.FirstBar && bar.Index < s.FirstBar + s.BarCount), TextOf(piece, bar),
                [.. bar.Chords.Select(c => (bar.OffsetOf(c.Start), c))], events, held));
            foreach (var row in bar.Rows)
                foreach (var e in row.Events)
                    if (e.Kind == EventKind.Struck)
                        ringing.AddRange(e.Notes.Where(n => n.End > bar.End).Select(n => (n, e)));
        }
        return bars.MoveToImmutable();
    }

    private static EventMusic Event(Event e, Bar bar) => new(e.VoiceKey, e.Offset, e.Kind,
        [
            .. e.Notes.OrderBy(n => n.Midi).ThenByDescending(n => n.String ?? 0)
                .Select(n => new NoteMusic(n.Onset - bar.Start, n.WantedEnd - bar.Start, n.Midi, n.PitchWritten ? n.Pitch.ToString() : "", n.String, n.Fret, n.Finger)),
        ],
        string.Join(' ', e.Marks.Where(m => m.Kind is not (MarkKind.Finger or MarkKind.Fingers or MarkKind.Unsure)).Select(m => $"{m.Kind}{m.String}({Operand(m.Operand)})"))
            + string.Join('+', e.Grace.Concat(e.SlideFrom).Select(n => $"{n.Midi}@{n.String}").Concat(e.Notes.Select(n => n.BendTo?.ToString() ?? ""))), e.Shape,
        e.Notes.Length > 1 && e.Notes.All(n => !n.PitchWritten) ? e.Voicing?.ToString() : null);

    private static string Operand(OperandSyntax? operand) => operand switch
    {
        CountOperand count => $"{count.Count.Offset}",
        WordOperand word => word.Word,
        SymbolOperand symbol => symbol.Symbol.Text,
        _ => "",
    };

    private static string TextOf(Piece piece, Bar bar) =>
        string.Join('\n', bar.Rows.Where(r => !r.Borrowed).Select(r => piece.Tree.Source.LineText(r.Line)).Prepend(piece.Tree.Source[bar.Span]));
}
