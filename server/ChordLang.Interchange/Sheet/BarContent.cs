// All that the drawing and the words of a bar are made of, as one text: bars with equal texts look and read alike.
using System.Globalization;
using System.Text;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.Sheet;

/// <summary>Writes the content of bars. Times count from the bar's start and places in the text from the bar's own, so that what stands before a bar does not change it.</summary>
internal sealed class BarContent(Piece piece, Drawing drawing, SheetOptions options)
{
    private readonly StringBuilder text = new();
    private readonly Dictionary<Settings, string> settings = new(ReferenceEqualityComparer.Instance);
    private readonly ILookup<int, Section> sections = piece.Sections.Where(s => !s.Again).ToLookup(s => s.FirstBar);
    private readonly Places places = drawing.Places;
    private Bar bar = null!;

    /// <summary>The content of a bar.</summary>
    public string Of(int index)
    {
        bar = piece.Bars[index];
        text.Clear();
        Put(bar.Number);
        Time(bar.Length);
        Time(bar.From);
        Put(bar.Repeats is null ? 0 : 1);
        Put(bar.Span.Length);
        Word(Settled(bar.Settings));
        if (index > 0 && piece.Bars[index - 1].Settings is var before && !ReferenceEquals(before, bar.Settings))
        {
            Word(Settled(before));
            Put(before.Neck == bar.Settings.Neck ? 1 : 0);
        }
        text.Append(index == 0 ? '0' : '>');
        foreach (var section in sections[index])
        {
            Word(section.Name);
            Put(section.BarCount);
        }
        Signs(drawing.Form[index], drawing.Form.Inside(index));
        foreach (var chord in bar.Chords)
            Chord(chord);
        foreach (var row in bar.Rows)
        {
            text.Append('r');
            Put(row.Number);
            Put(row.Borrowed ? 1 : 0);
            Word(row.Voice ?? "");
            Word(row.VoiceKey);
            foreach (var e in row.Events)
                Event(e);
        }
        return text.ToString();
    }

    private void Event(Event e)
    {
        text.Append('e');
        Put((int)e.Kind);
        Put(e.Row);
        Word(e.VoiceKey);
        Time(e.Offset);
        Time(e.Onset - bar.Start);
        Time(e.End - bar.Start);
        Place(e.SoundSpan);
        Put(e.Repeated ? 1 : 0);
        Put(e.Is is null ? 0 : 1);
        foreach (var note in e.Notes)
            Note(e, note, places.Of(e, note));
        text.Append('g');
        foreach (var note in e.Grace)
            Note(e, note, places.Before(e, note));
        text.Append('s');
        foreach (var note in e.SlideFrom)
            Note(e, note, places.Before(e, note));
        foreach (var mark in e.Marks)
            Mark(mark);
    }

    private void Note(Event e, Note note, Spot? spot)
    {
        text.Append('n');
        Pitch(note.Pitch);
        Put(note.String ?? -1);
        Put(note.Fret ?? -1);
        Put(spot?.String ?? -1);
        Put(spot?.Fret ?? -1);
        Put((int?)spot?.Finger ?? -1);
        Put((int?)note.Finger ?? -2);
        Put((note.WantedEnd > e.End ? 1 : 0) + (note.Dead ? 2 : 0) + (note.Harmonic ? 4 : 0) + (places.Has(note) ? 8 : 0) + (drawing.Courtesies.Has(note) ? 16 : 0));
        Place(note.Span);
        if (note.BendTo is { } to)
            Pitch(to);
    }

    private void Mark(MarkSyntax mark)
    {
        text.Append('m');
        Put((int)mark.Kind);
        Put(mark.String ?? -1);
        switch (mark.Operand)
        {
            case CountOperand count: Time(count.Count.Offset); break;
            case WordOperand word: Word(word.Word); break;
            case SymbolOperand symbol: Word(symbol.Symbol.Text); break;
            case { } other: Word(other.GetType().Name); break;      // fingers and notes are read from the event
        }
    }

    private void Chord(ChordSpan chord)
    {
        text.Append('c');
        Time(chord.Start - bar.Start);
        Put((chord.Carried ? 1 : 0) + (chord.Chord is null ? 2 : 0) + (options.Skeleton.Contains(chord.Span.Start) ? 4 : 0));
        Word(chord.Symbol?.Text ?? "");
        if (!chord.Carried)
            Place(chord.Span);
        if (options.UnderChords.TryGetValue(chord.Span.Start, out var under))
            Word(under);
    }

    private void Signs(BarSigns signs, int inside)
    {
        text.Append('f');
        Put(inside);
        Put(signs.Times);
        Put(signs.Ending);
        Put((signs.RepeatStart ? 1 : 0) + (signs.RepeatEnd ? 2 : 0) + (signs.EndingStops ? 4 : 0) + (signs.EndingCloses ? 8 : 0));
        foreach (var sign in signs.Start)
            Word(sign);
        text.Append('|');
        foreach (var word in signs.End)
            Word(word);
    }

    // All that facts and signatures are written from; what the hand can reach is in the places already.
    private string Settled(Settings s)
    {
        if (!settings.TryGetValue(s, out var known))
            settings[s] = known = string.Create(CultureInfo.InvariantCulture,
                $"{s.Meter} {s.Key?.ToString()} {s.Key?.Fifths} {string.Join(' ', s.Neck.Tuning.Open)} {s.Neck.Frets} {s.Neck.ScaleLength} {s.Neck.Capo} {s.Strict} {s.BeatsPerMinute} {s.Rubato} {s.Position} {s.Feel}");
        return known;
    }

    private void Pitch(Pitch pitch)
    {
        Put((int)pitch.Name.Letter);
        Put(pitch.Name.Alteration);
        Put(pitch.Octave);
    }

    private void Place(Span span)
    {
        Put(span.Start - bar.Span.Start);
        Put(span.Length);
    }

    private void Time(Rational value)
    {
        text.Append(value.Numerator).Append('/');
        Put(value.Denominator);
    }

    private void Put(long number) => text.Append(number).Append(' ');

    // With its length before it: no word can be taken for what follows it.
    private void Word(string word) => text.Append(word.Length).Append(':').Append(word);
}
