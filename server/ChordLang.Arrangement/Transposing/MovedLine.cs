// Writes what moves on one line, and nothing else: all other characters of the line stay.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Transposing;

/// <summary>Edits for what stands on lines of a piece; offsets are those of the text.</summary>
internal sealed class MovedLine(Piece piece, Interval interval, Names names, GripPlan plan)
{
    private readonly List<TextEdit> edits = [];
    private int start;
    private LineSyntax line = new BlankLine("");
    private OctaveReading? octaves;
    private bool allOctaves;

    /// <summary>The edits of a line.</summary>
    public IEnumerable<TextEdit> Of(int number)
    {
        edits.Clear();
        // By nothing nothing changes, not even a spelling that nobody would choose.
        if (interval is { Semitones: 0, Fifths: 0 })
            return [];
        (line, start) = (piece.Tree.Lines[number], piece.Tree.Source.Lines[number].Start);
        switch (line)
        {
            case SettingLine { Value: KeyValue key } setting:
                Key(setting, key);
                break;
            case SettingLine { Kind: SettingKind.Position, Value: NumberValue position } setting when plan.Position(number) is { } moved && moved != position.Number:
                Put(setting.ValueSpan, $"{moved}");
                break;
            case ChartLine chart:
                foreach (var symbol in chart.Bars.SelectMany(b => b.Items).Select(i => i.Symbol).OfType<SymbolSyntax>())
                    Symbol(symbol);
                break;
            case ShapeLine shape when plan.Shape(shape[shape.Name], number) is var (slots, fingers):
                InPlace(shape.Slots!, i => slots[i]);
                if (shape.Fingers is { } written && fingers is not null)
                    Put(written.Span, fingers);
                break;
            case RowLine row:
                Row(row);
                break;
        }
        return edits.Where(e => piece.Tree.Source[e.Span] != e.NewText);
    }

    private void Put(Span span, string text) => edits.Add(new(span.Shift(start), text));

    private void Key(SettingLine setting, KeyValue key)
    {
        if (key.Tonic is { } tonic)
        {
            Put(tonic.Span, names.Tonic(Spelling.Name(tonic), SettingReader.KeyOf(key).Fifths).ToString());
            return;
        }
        var moved = names.Signature(key.Fifths);
        if (moved != key.Fifths)
            Put(setting.ValueSpan, $"{Math.Abs(moved)} {(moved < 0 ? "flat" : "sharp")}{(moved is 1 or -1 ? "" : "s")}");
    }

    private void Symbol(SymbolSyntax symbol)
    {
        var (root, bass) = names.Symbol(symbol);
        // An accidental that opens the suffix would be read as the new root's.
        var suffix = symbol.Suffix is ['b' or '#' or '♭' or '♯', ..] && symbol.Root != root ? $"({symbol.Suffix})" : symbol.Suffix;
        if (symbol.Text.Length != symbol.Span.Length || suffix != symbol.Suffix)
        {
            Put(symbol.Span, root + suffix + (bass is null ? "" : "/" + bass));
            return;
        }
        Put(new(symbol.Span.Start, symbol.Root.Length), root);
        if (symbol.Bass is { } written && bass is not null)
            Put(new(symbol.Span.End - written.Length, written.Length), bass);
    }

    private void Row(RowLine row)
    {
        octaves = OctaveReading.Of(row);
        var all = row.Events.SelectMany(e => e.Sounds).ToList();
        // One interval for all keeps the octaves that are left out; where something goes another way, all are written.
        allOctaves = all.Any(p => plan.Of(start + p.Sound.Span.Start) is { } m && m.Notes.Any(n => n.LeftOut || n.Pitch.Midi - n.Note.Midi != interval.Semitones))
            || Pitches(all).Any(p => names.Pitch(Spelling.Name(p)) != interval.From(Spelling.Name(p)));
        foreach (var played in all)
        {
            var move = plan.Of(start + played.Sound.Span.Start);
            Sound(played.Sound, move);
            foreach (var mark in played.Marks)
                Mark(mark, move, start + played.Sound.Span.Start);
        }
    }

    private static IEnumerable<PitchSyntax> Pitches(IEnumerable<PlayedSyntax> all) => all
        .SelectMany(p => p.Marks.Select(m => (m.Operand as NotesOperand)?.Notes).OfType<SoundSyntax>().Prepend(p.Sound))
        .SelectMany(s => s is EqualSound equal ? [equal.Left, equal.Right] : new[] { s })
        .OfType<NotesSound>().SelectMany(n => n.Notes).Select(n => n.Pitch).OfType<PitchSyntax>();

    private void Sound(SoundSyntax sound, EventMove? move)
    {
        switch (sound)
        {
            case EqualSound equal:
                Sound(equal.Left, move);
                Sound(equal.Right, move);
                break;
            case NotesSound notes when move is null or { SameStrings: true }:
                foreach (var note in notes.Notes)
                    Put(note.Span, Note(note, Match(note, move)));
                break;
            case NotesSound notes:
                Put(notes.Span, string.Join('+', notes.Notes.Select(n => (Note: n, Move: Match(n, move))).Where(n => n.Move is not { LeftOut: true }).Select(n => Note(n.Note, n.Move))));
                break;
            case ShapeSound unknown when move is { Event.Shape: null }:
                if (interval.Semitones != 0)
                    Shape(unknown, move, interval.Semitones);
                break;
            case ShapeSound shape when move is { ShapeMoves: false, WriteFrets: false, Shift: { } by }:
                Shape(shape, move, by);
                break;
            case SlotsSound slots when move is null or { SameStrings: true }:
                if (move is not null || slots.Slots.All(s => s.Fret is null || s.Fret + interval.Semitones is >= 0 and <= 99))
                    InPlace(slots, i => slots.Slots[i].Fret + (move?.On(slots.Slots.Length - i) is { Note.Fret: { } was, Fret: { } now } ? now - was : interval.Semitones));
                break;
            case SlotsSound or ShapeSound when move is { ShapeMoves: false }:
                Put(sound.Span, Whole(move));
                break;
        }
    }

    private void InPlace(SlotsSound slots, Func<int, int?> fret)
    {
        var moved = slots.Slots.Select((s, i) => s.Fret is null ? null : fret(i)).ToList();
        if (slots.Compact && moved.Any(f => f > 9))
            Put(slots.Span, Slots(moved));
        else
            for (var i = 0; i < moved.Count; i++)
                if (moved[i] is { } f)
                    Put(slots.Slots[i].Span, $"{f}");
    }

    private static string Slots(IEnumerable<int?> slots) => string.Join('-', slots.Select(f => f?.ToString() ?? "x"));

    private string Whole(EventMove move)
    {
        var kept = move.Notes.Where(n => !n.LeftOut).ToList();
        if (kept.Any(n => n.String is null || n.Fret is null))
            return string.Join('+', kept.Select(n => Pitch(n.Pitch)));
        var slots = new int?[piece.Bars[move.Event.Bar].Settings.Neck.Tuning.Strings];
        foreach (var n in kept)
            slots[^n.String!.Value] = n.Fret;
        return Slots(slots);
    }

    private void Shape(ShapeSound sound, EventMove move, int by)
    {
        if (sound.At is { } at)
        {
            Put(new(sound.Span.End - $"{at}".Length, $"{at}".Length), $"{at + by}");
            return;
        }
        // The first played string tells how far the shape is moved already; of a shape that nobody knows, its own words do.
        var shape = move.Event.Shape;
        var first = shape?.Slots.FirstOrDefault(f => f is not null) is { } fret ? shape.Slots.IndexOf(fret) : -1;
        var shift = by + (first >= 0 && move.On(shape!.Slots.Length - first) is { Note.Fret: { } now } ? now - shape.Slots[first]!.Value : sound.Shift);
        var name = shape?.Name ?? sound.Name;
        var text = shift == 0 ? name : shift > 0 ? $"{name}+{shift}" : $"{name}{shift}";
        Put(sound.Span, shift < 0 && shape is not null && piece.Shapes.ContainsKey(text) ? $"{name} at {shape.Slots.Where(f => f > 0).Min() + shift}" : text);
    }

    private NoteMove? Match(NoteSyntax note, EventMove? move)
    {
        var at = note.Span.Shift(start);
        return move?.Notes.FirstOrDefault(m => Within(at, m.Note.Span) || m.Note.PitchSpan is { } p && Within(at, p));
    }

    private static bool Within(Span outer, Span inner) => inner.Start >= outer.Start && inner.End <= outer.End;

    private string Note(NoteSyntax note, NoteMove? move)
    {
        if (note.Pitch is { } written)
        {
            var other = move is not null && move.Pitch.Midi - move.Note.Midi != interval.Semitones;
            return (other ? Pitch(move!.Pitch) : Pitch(written)) + (note.String is null || move is { String: null } ? "" : $"@{move?.String ?? note.String}");
        }
        if (move is { String: { } s, Fret: { } fret })
            return $"{fret}@{s}";
        return move is not null ? Pitch(move.Pitch) : note.Fret + interval.Semitones is >= 0 and <= 99 and var plain ? $"{plain}@{note.String}" : line[note.Span];
    }

    // A pitch as written here, moved. Its octave stays left out where all go one way.
    private string Pitch(PitchSyntax written)
    {
        var name = names.Pitch(Spelling.Name(written));
        var midi = octaves!.Midi(written) + interval.Semitones;
        return written.Octave is null && !allOctaves ? $"{name}" : $"{name}{Octave(midi, name)}";
    }

    private static string Pitch(Pitch pitch) => pitch.Name.Alteration is >= -2 and <= 2 ? $"{pitch.Name}{Octave(pitch.Midi, pitch.Name)}" : Theory.Pitches.Pitch.Nearest(pitch.Midi).ToString();

    // An octave is one digit or -1; what lies beyond is on no neck and told as such.
    private static int Octave(int midi, PitchName name) => Math.Clamp(Theory.Pitches.Pitch.Of(midi, name).Octave, -1, 9);

    private void Mark(MarkSyntax mark, EventMove? move, int sound)
    {
        if (mark.String is { } s && move?.On(s) is { } on && on.String != s)
        {
            if (on.LeftOut || on.String is null)
            {
                Remove(mark);
                return;
            }
            Put(new(mark.Name.End + 1, 1), $"{on.String}");
        }
        switch (mark.Operand)
        {
            case SymbolOperand symbol:
                Symbol(symbol.Symbol);
                break;
            case NotesOperand notes:
                Operand(mark, notes.Notes, move, sound);
                break;
            case FingersOperand fingers when move is not null && FingerMoves.All(fingers, move, plan.Grips, piece.Bars[move.Event.Bar].Settings) is { } text:
                if (text.Length == 0)
                    Remove(mark);
                else
                    Put(fingers.Span, text);
                break;
            case FingerOperand finger when move is not null && FingerMoves.One(mark.String, move) is { } digit:
                if (digit.Length == 0)
                    Remove(mark);
                else
                    Put(finger.Span, digit);
                break;
        }
    }

    // Grace notes, bends and slides go with the note they lead to, on its string.
    private void Operand(MarkSyntax mark, NotesSound notes, EventMove? move, int sound)
    {
        foreach (var note in notes.Notes)
            if (note.Pitch is { } pitch)
                Put(note.Span, Pitch(pitch) + (note.String is { } s ? $"@{move?.On(s)?.String ?? s}" : ""));
            else if (note is { Fret: { } fret, String: { } old } && plan.EventAt(sound) is { } e && piece.Bars[e.Bar].Settings.Neck is var neck && old <= neck.Tuning.Strings)
            {
                var (midi, there) = (neck.Midi(old, fret) + interval.Semitones, move?.On(old)?.String ?? old);
                if (neck.FretOf(there, midi) is { } place)
                {
                    Put(note.Span, $"{place}@{there}");
                    continue;
                }
                var slide = mark.Kind == MarkKind.SlideFrom && e.Notes.FirstOrDefault(n => n.String == old) is { } to
                    ? neck.Midi(old, fret) < to.Midi ? "below" : "above" : null;
                Put(slide is null ? note.Span : notes.Span, slide ?? Pitch(Theory.Pitches.Pitch.Nearest(midi)));
                plan.Lost(e, fret == 0 ? Obstacle.OpenString : Obstacle.NeckEnd, LossWords.Operand(line[mark.Name], fret, old, slide), slide is null, [old]);
            }
    }

    private void Remove(MarkSyntax mark)
    {
        var from = mark.Span.Start;
        while (from > 0 && line.Text[from - 1] is ' ' or '\t')
            from--;
        Put(Span.Between(from, mark.Span.End), "");
    }
}
