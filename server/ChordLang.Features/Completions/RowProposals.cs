// Proposals in a row: what may follow the words before the cursor.
using ChordLang.Arrangement.Music;
using ChordLang.Features.Choices;
using ChordLang.Features.Hovers;
using ChordLang.Fretboard.Fingering;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Harmony.Naming;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Completions;

internal static class RowProposals
{
    private static readonly string[] Plucks = ["p", "i", "m", "a", "p-i-m", "p-i-m-a"];

    public static IEnumerable<Proposal> Of(Place place, EditorChoices choices)
    {
        if (place.Typed.LastIndexOf('@') is var sign && sign > 0)
            return Strings(place, sign);
        var row = LineParser.Parse(place.Before);
        var last = row.Tokens.Length > 0 ? row.Tokens[^1] : (Token?)null;
        var word = place.Words.LastOrDefault();
        switch (word)
        {
            case "until" or "to" when last?.Kind is not TokenKind.Label && place.Words.Length > 1:
                return word == "to" && place.Words[^2] == "bend" ? [] : Counts(place, (row as RowLine)?.Events.LastOrDefault());
            case "is":
                return Names(place, row).Concat(place.Typed.Length > 0 ? ChartProposals.Symbol(place, place.Typed) : []);
            case "finger":
                return "1 2 3 4 T".Split(' ').Select(f => place.Whole(ProposalKind.Value, f, f == "T" ? "the thumb" : null));
            case "fingers":
                return Fingers(place, row);
            case "pluck":
                return Plucks.Select(p => place.Whole(ProposalKind.Value, p));
            case "bend":
                return [place.Whole(ProposalKind.Value, "half", "up a semitone"), place.Whole(ProposalKind.Value, "full", "up a whole tone"), place.Whole(ProposalKind.Value, "to", "to a pitch")];
            case "from" when place.Words.Length > 1 && place.Words[^2] == "slide":
                return [place.Whole(ProposalKind.Value, "below"), place.Whole(ProposalKind.Value, "above")];
        }
        if (place.Typed.Length > 0 && char.IsAsciiDigit(place.Typed[0]) && last?.Kind is null or TokenKind.Label || last is null)
            return Counts(place, null).Concat(Labels(place, last is null));
        return last.Value.Kind switch
        {
            TokenKind.Label => Counts(place, null),
            TokenKind.Count when place.Words.Length < 2 || place.Words[^2] != "until" => SoundProposals.Of(place, row as RowLine, choices),
            TokenKind.EqualSign => SoundProposals.Of(place, row as RowLine, choices),
            TokenKind.Unreadable => [],
            _ => Marks(place, row, last.Value).Concat(Counts(place, null)),
        };
    }

    /// <summary>The bar that the cursor's row belongs to.</summary>
    internal static Bar? BarOf(Place place) => place.Lesson.RowOn(place.Line)?.Bar ?? place.Lesson.LastBarBefore(place.Line);

    // The strings that have a pitch, behind its @.
    private static IEnumerable<Proposal> Strings(Place place, int sign)
    {
        var from = place.Typed.LastIndexOf('+', sign) + 1;
        if (BarOf(place) is not { Settings.Neck: var neck } || !Pitch.TryParse(place.Typed.AsSpan(from, sign - from), out var pitch))
            yield break;
        var typed = Span.Between(place.Word.Start + sign + 1, place.Word.Start + place.Typed.Length);
        for (var s = 1; s <= neck.Tuning.Strings; s++)
            if (neck.FretOf(s, pitch.Midi) is { } fret)
                yield return new(ProposalKind.Part, $"{s}", typed, fret == 0 ? $"{pitch} on the open string {s}" : $"{pitch} on string {s}, fret {fret}");
    }

    private static IEnumerable<Proposal> Labels(Place place, bool first)
    {
        if (!first || BarOf(place) is not { } bar)
            return [];
        var here = bar.Rows.Where(r => r.Line != place.Line).Select(r => r.Voice).ToHashSet();
        return place.Lesson.Voices.Where(v => !here.Contains(v))
            .Select(v => place.Whole(ProposalKind.Voice, v + ":", "a voice of this piece"));
    }

    // Behind the last event before the cursor, and before the next one behind it.
    private static IEnumerable<Proposal> Counts(Place place, EventSyntax? run)
    {
        if (BarOf(place) is not { } bar)
            return [];
        var before = LineParser.Parse(place.Before) is RowLine { Events: [.., var last] } ? last.To?.Offset ?? last.Count.Offset : run?.Count.Offset ?? bar.From - 1;
        var start = place.Lesson.Text.Lines[place.Line].Start;
        var after = place.Lesson.Tree.Lines[place.Line] is RowLine all ? all.Events.Where(e => e.Span.Start + start > place.Word.Start).Select(e => e.Count.Offset).ToList() : [];
        return FreeCounts.Between(place, before, after.Append(bar.From + bar.Length / bar.Settings.Meter.Count).Min());
    }

    private static IEnumerable<Proposal> Marks(Place place, LineSyntax row, Token last)
    {
        if (place.Words[^1] == "ring")
        {
            yield return place.Whole(ProposalKind.Mark, "until", "until a count comes round", "until ${1:3}");
            yield return place.Whole(ProposalKind.Mark, "over", "over the bar line");
        }
        if (place.Words[^1] == "slide")
            yield return place.Whole(ProposalKind.Mark, "from", "from a place that is named", "from ${1|below,above|}");
        if (last.Kind == TokenKind.Name)
            yield return place.Whole(ProposalKind.Word, "at", "its lowest fretted note at this fret", "at ${1:5}");
        var told = row is RowLine { Events: [.., { Sounds: [.., var played] }] } ? played.Marks.Select(m => m.Kind).ToHashSet() : [];
        foreach (var (word, kind) in Vocabulary.Marks.OrderBy(m => m.Value))
            if (!told.Contains(kind))
                yield return place.Whole(ProposalKind.Mark, word, MarkHover.What(new(default, kind, default, null, kind == MarkKind.Loudness ? new WordOperand(default, word) : null)), Snippet(word));
        yield return place.Whole(ProposalKind.Word, "=", "the same sound, told otherwise");
    }

    private static string? Snippet(string mark) => mark switch
    {
        "grace" => "grace ${1:D#4}", "bend" => "bend ${1|half,full|}", "finger" => "finger ${1|1,2,3,4,T|}", "pluck" => "pluck ${1:p-i-m}", "is" => "is ${1:Cmaj7}", _ => null,
    };

    // What the sound before the word may be called.
    private static IEnumerable<Proposal> Names(Place place, LineSyntax row)
    {
        if (Sounding(place, row) is not { } e || e.Notes.Any(n => n.Dead))
            return [];
        var names = SoundNamer.Name([.. e.Notes.OrderBy(n => n.Midi).Select(n => n.Pitch)], new(BarOf(place)?.Settings.Key, Chart: place.Lesson.Piece.ChordAt(e.Onset)?.Chord));
        return names.Readings.Select(r => place.Whole(ProposalKind.Chord, r.Symbol, r.Why));
    }

    private static IEnumerable<Proposal> Fingers(Place place, LineSyntax row) =>
        Sounding(place, row) is { Voicing: { } voicing } && BarOf(place) is { } bar && FingeringSearch.Best(bar.Settings.Neck, bar.Settings.Hand, voicing).Best is { } best
            ? [place.Whole(ProposalKind.Value, $"{best}", "the easiest fingers")] : [];

    private static Event? Sounding(Place place, LineSyntax row) => row is RowLine { Events: [.., { Sounds: [.., var played] }] }
        ? place.Lesson.RowOn(place.Line)?.Row.Events.FirstOrDefault(e => e.SoundSpan == place.Lesson.Tree.Absolute(place.Line, played.Sound.Span)) : null;
}
