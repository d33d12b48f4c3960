// Writes a score in our notation, for every importer.
using System.Collections.Immutable;
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Necks;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Interchange.Scores;

/// <summary>Writes scores as arrangements, in canonical form. Total: every score has a text.</summary>
public sealed class LessonWriter
{
    private readonly Score score;
    private readonly HashSet<(int Bar, int Row, int Event)> spelled;
    private readonly StringBuilder text = new();

    private LessonWriter(Score score, HashSet<(int, int, int)> spelled) => (this.score, this.spelled) = (score, spelled);

    /// <summary>The text of a score.</summary>
    public static string Write(Score score)
    {
        var first = Formatted(score, []);
        // Frets say no spelling: where the piece would spell a voicing in another way than the score, its pitches are written.
        var differ = Respelled(score, Binder.Bind(SyntaxTree.Parse(first)));
        return differ.Count == 0 ? first : Formatted(score, differ);
    }

    private static string Formatted(Score score, HashSet<(int, int, int)> spelled) =>
        Formatter.Formatted(SourceText.From(new LessonWriter(score, spelled).Whole())).Text;

    private static HashSet<(int, int, int)> Respelled(Score score, Piece piece)
    {
        var differ = new HashSet<(int, int, int)>();
        foreach (var (bar, bound) in score.Bars.Zip(piece.Bars))
            for (var r = 0; r < bar.Voices.Length && r < bound.Rows.Length; r++)
                for (var e = 0; e < bar.Voices[r].Events.Length; e++)
                {
                    var wanted = bar.Voices[r].Events[e];
                    if (wanted.Notes.Length > 1 && bound.Rows[r].Events.FirstOrDefault(x => x.Offset == wanted.Offset) is { Kind: EventKind.Struck } is_
                        && !wanted.Notes.Select(n => n.Pitch.ToString()).Order(StringComparer.Ordinal).SequenceEqual(is_.Notes.Select(n => n.Pitch.ToString()).Order(StringComparer.Ordinal)))
                        differ.Add((bound.Index, r, e));
                }
        return differ;
    }

    private string Whole()
    {
        Setting("title", score.Title);
        Setting("by", score.By);
        var before = (Meter: new Meter(4, 4), Key: (Theory.Keys.Key?)null, Tempo: (string?)null, Feel: (string?)null);
        var first = score.Bars.FirstOrDefault();
        if (first is not null)
            Settings(first, ref before, true);
        if (score.Tuning != Tuning.Standard)
            Setting("strings", score.Tuning.ToString());
        if (score.Capo > 0)
            Setting("capo", $"{score.Capo}");
        if (score.Frets is { } frets)
            Setting("frets", $"{frets}");
        Prose(score.Prose);
        for (var i = 0; i < score.Bars.Length; i++)
        {
            var bar = score.Bars[i];
            text.Append('\n');
            if (i > 0)
                Settings(bar, ref before, false);
            if (bar.Section is { } section && Line(section) is { Length: > 0 } name)
                text.Append("section ").Append(name).Append("\n\n");
            if (bar.From > Rational.Zero)
                text.Append("pickup from ").Append(CountSyntax.Write(bar.From)).Append('\n');
            foreach (var form in bar.Before)
                text.Append(form).Append('\n');
            Chart(bar);
            for (var r = 0; r < bar.Voices.Length; r++)
                Row(i, r, bar);
            Prose(bar.Prose);
            foreach (var form in bar.After)
                text.Append(form).Append('\n');
        }
        return text.ToString();
    }

    private void Settings(ScoreBar bar, ref (Meter Meter, Theory.Keys.Key? Key, string? Tempo, string? Feel) before, bool first)
    {
        if (bar.Key is { } key && key != before.Key)
            Setting("key", key.ToString());
        if (first || bar.Meter != before.Meter)
            Setting("meter", bar.Meter.ToString());
        if (bar.Tempo is { } tempo && tempo != before.Tempo)
            Setting("tempo", tempo);
        if (bar.Feel is { } feel && feel != before.Feel)
            Setting("feel", feel);
        before = (bar.Meter, bar.Key ?? before.Key, bar.Tempo ?? before.Tempo, bar.Feel ?? before.Feel);
    }

    private void Setting(string word, string? value)
    {
        if (value is not null && Line(value) is { Length: > 0 } line)
            text.Append(word).Append(' ').Append(line).Append('\n');
    }

    private void Chart(ScoreBar bar)
    {
        text.Append('|');
        foreach (var (offset, symbol) in bar.Chords)
            text.Append(' ').Append(CountSyntax.Write(offset)).Append(' ').Append(symbol ?? "N.C.");
        text.Append('\n');
    }

    private void Row(int index, int number, ScoreBar bar)
    {
        var voice = bar.Voices[number];
        text.Append("    ").Append(voice.Label is { } label ? label + ":" : "");
        var at = bar.From;
        // Silence at the start is written where no other voice begins the bar.
        if (voice.Events.IsEmpty || number == 0 && voice.Events[0].Offset > at && bar.Voices.All(v => v.Events.IsEmpty || v.Events[0].Offset > bar.From))
            text.Append(' ').Append(CountSyntax.Write(at)).Append(" rest");
        for (var e = 0; e < voice.Events.Length; e++)
        {
            var now = voice.Events[e];
            if (e > 0 && now.Offset > at)
                text.Append("  ").Append(CountSyntax.Write(at)).Append(" rest");
            text.Append("  ").Append(CountSyntax.Write(now.Offset)).Append(' ').Append(now.Tied || now.Notes.IsEmpty ? "tied" : Sound(now, spelled.Contains((index, number, e))));
            Fingers(now);
            foreach (var mark in now.Marks)
                text.Append(' ').Append(mark);
            at = now.End;
        }
        if (!voice.Events.IsEmpty && at < Rational.Of(bar.Meter.Counts))
            text.Append("  ").Append(CountSyntax.Write(at)).Append(" rest");
        text.Append('\n');
    }

    private string Sound(ScoreEvent e, bool spell)
    {
        var notes = e.Notes;
        if (notes.Length > 1 && (!spell || notes.Any(n => n.FretOnly)) && notes.All(n => n is { String: not null, Fret: not null }) && notes.Select(n => n.String).Distinct().Count() == notes.Length
            && notes.All(n => n.String <= score.Tuning.Strings))
        {
            var slots = new string[score.Tuning.Strings];
            Array.Fill(slots, "x");
            foreach (var n in notes)
                slots[^n.String!.Value] = $"{n.Fret}";
            return string.Join('-', slots);
        }
        return string.Join('+', notes.Select(n => n is { FretOnly: true, String: { } on, Fret: { } fret } ? $"{fret}@{on}" : n.Pitch + (n.String is { } s ? $"@{s}" : "")));
    }

    private void Fingers(ScoreEvent e)
    {
        if (e.Notes.All(n => n.Finger is null))
            return;
        if (e.Notes is [{ Finger: { } one }])
        {
            if (one != "0")
                text.Append(" finger ").Append(one);
            return;
        }
        if (!e.Notes.All(n => n.String is { } s && s <= score.Tuning.Strings))
            return;
        var fingers = new string[score.Tuning.Strings];
        Array.Fill(fingers, "x");
        foreach (var n in e.Notes)
            fingers[^n.String!.Value] = n.Finger ?? (n.Fret == 0 ? "0" : "x");
        text.Append(" fingers ").Append(string.Join('-', fingers));
    }

    private void Prose(ImmutableArray<string> lines)
    {
        foreach (var line in lines)
            if (Line(line) is { Length: > 0 } words)
                text.Append("> ").Append(words).Append('\n');
    }

    /// <summary>A text as one line of the notation: no line ends, no controls, no blanks around it.</summary>
    internal static string Line(string words)
    {
        var line = new StringBuilder(words.Length);
        foreach (var c in words)
            line.Append(char.IsControl(c) || c is '\u2028' or '\u2029' or '\uFEFF' ? ' ' : c);
        return line.ToString().Trim();
    }

    /// <summary>A text as a remark in its quotes, or null where nothing is left of it.</summary>
    internal static string? Remark(string words) => Line(words.Replace('"', '\'').Replace('“', '\'').Replace('”', '\'')) is { Length: > 0 } line ? $"\"{line}\"" : null;
}
