// All that the drawing and the words of a bar are made of, as one row of numbers: bars with equal rows look and read alike.
using System.Collections.Immutable;
using System.Globalization;
using System.Runtime.InteropServices;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.Sheet;

/// <summary>Writes the content of bars. Times count from the bar's start and places in the text from the bar's own, so that what stands before a bar does not change it.</summary>
internal sealed class BarContent(Piece piece, Drawing drawing, SheetOptions options)
{
    private readonly List<int> text = [];
    private readonly Dictionary<Settings, string> settings = new(ReferenceEqualityComparer.Instance);
    private readonly ILookup<int, Section> sections = piece.Sections.Where(s => !s.Again).ToLookup(s => s.FirstBar);
    private readonly Places places = drawing.Places;
    private Bar bar = null!;

    /// <summary>The content of a bar; good until the next is asked for.</summary>
    public ReadOnlySpan<int> Of(int index)
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
        Tag(index == 0 ? '0' : '>');
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
            Tag('r');
            Put(row.Number);
            Put(row.Borrowed ? 1 : 0);
            Word(row.Voice ?? "");
            Word(row.VoiceKey);
            foreach (var e in row.Events)
                Event(e);
        }
        return CollectionsMarshal.AsSpan(text);
    }

    private void Event(Event e)
    {
        Tag('e');
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
        Tag('g');
        foreach (var note in e.Grace)
            Note(e, note, places.Before(e, note));
        Tag('s');
        foreach (var note in e.SlideFrom)
            Note(e, note, places.Before(e, note));
        foreach (var mark in e.Marks)
            Mark(mark);
    }

    private void Note(Event e, Note note, Spot? spot)
    {
        Tag('n');
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
        Tag('m');
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
        Tag('c');
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
        Tag('f');
        Put(inside);
        Put(signs.Times);
        Put(signs.Ending);
        Put((signs.RepeatStart ? 1 : 0) + (signs.RepeatEnd ? 2 : 0) + (signs.EndingStops ? 4 : 0) + (signs.EndingCloses ? 8 : 0));
        foreach (var sign in signs.Start)
            Word(sign);
        Tag('|');
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
        Put((int)value.Numerator);
        Put((int)(value.Numerator >> 32));
        Put((int)value.Denominator);
        Put((int)(value.Denominator >> 32));
    }

    private void Put(int number) => text.Add(number);

    // Such a number stands for nothing else, so that what is there only sometimes cannot be taken for what follows it.
    private void Tag(char sign) => text.Add(int.MinValue + sign);

    // With its length before it: no word can be taken for what follows it.
    private void Word(string word)
    {
        Put(word.Length);
        foreach (var letter in word)
            Put(letter);
    }

    /// <summary>Finds what is known of a content without a copy of it.</summary>
    public sealed class Equality : IEqualityComparer<ImmutableArray<int>>, IAlternateEqualityComparer<ReadOnlySpan<int>, ImmutableArray<int>>
    {
        /// <inheritdoc/>
        public bool Equals(ImmutableArray<int> one, ImmutableArray<int> other) => one.AsSpan().SequenceEqual(other.AsSpan());

        /// <inheritdoc/>
        public int GetHashCode(ImmutableArray<int> content) => GetHashCode(content.AsSpan());

        /// <inheritdoc/>
        public bool Equals(ReadOnlySpan<int> one, ImmutableArray<int> other) => one.SequenceEqual(other.AsSpan());

        /// <inheritdoc/>
        public int GetHashCode(ReadOnlySpan<int> content)
        {
            var hash = new HashCode();
            hash.AddBytes(MemoryMarshal.AsBytes(content));
            return hash.ToHashCode();
        }

        /// <inheritdoc/>
        public ImmutableArray<int> Create(ReadOnlySpan<int> content) => [.. content];
    }
}
