// Says before anything is placed that notes have no place on the neck where a hand could hold them together.
using System.Collections.Concurrent;
using System.Globalization;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Placement;
using ChordLang.Grammar.Syntax;
using LeftHand = ChordLang.Fretboard.Hands.Hand;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class NoPlace : Check
{
    private const int MostKept = 8192;

    // The answer hangs on no piece; when full, all is forgotten and begun anew.
    private static readonly ConcurrentDictionary<(Neck, LeftHand, string), NoPlaceTogether?> Known = [];

    /// <inheritdoc/>
    public override string Code => "hand-no-place";

    /// <inheritdoc/>
    public override string Title => "Notes that no hand holds together, wherever they are put";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Error;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        foreach (var moment in piece.Moments)
        {
            if (moment.Events.All(e => e.Repeated))
                continue;
            var struck = Notes(moment.Struck);
            var ringing = Notes(moment.Sounding.Where(h => h.Note.Onset < moment.Time && Asked(h)).Concat(moment.Struck));
            if (ringing.Count < 2 || ringing.All(h => h.Note.String is not null))
                continue;
            var settings = piece.Bars[moment.Bar].Settings;
            var (neck, hand) = (settings.Neck, HeldGrips.HandOf(settings));
            // What is placed already is judged by the other checks of the hand and of ringing notes.
            if (Answer(neck, hand, [.. ringing.Where(h => h.Note.String is not null)]) is not null)
                continue;
            if (Answer(neck, hand, struck) is { } none)
                yield return Told(neck, moment, struck, none, ringing: false) with { Fixes = NoPlaceFixes.For(piece, neck, hand, moment, struck) };
            else if (ringing.Count > struck.Count && Answer(neck, hand, ringing) is { } cut)
                yield return Told(neck, moment, ringing, cut, ringing: true) with { Fixes = NoPlaceFixes.For(piece, neck, hand, moment, ringing) };
        }
    }

    private Finding Told(Neck neck, Moment moment, List<Heard> notes, NoPlaceTogether none, bool ringing)
    {
        var held = notes.Where(h => h.Note.Onset < moment.Time).ToList();
        var (clash, without) = (none.Clash.Select(i => Name(notes[i])).ToList(), none.Without.Select(i => Name(notes[i])).Take(3).ToList());
        var on = held.Count == 0 ? "" : $"{List([.. held.Select(Name)], "and")} {(held.Count == 1 ? "is" : "are")} to sound on here, and that cannot be. ";
        var why = none.Nearest is null
            ? clash.Count > neck.Tuning.Strings ? $"More notes sound together here than this neck has strings, {neck.Tuning.Strings}. "
            : $"{List(clash, "and")} cannot sound together: on this neck they have {Strings(neck, none.Clash.Select(i => notes[i]))} between them. "
            : $"Wherever these notes are put on the strings, no hand holds them together. Nearest comes {none.Nearest}: {Lower(none.None?.Message)} ";
        var what = (without.Count == 0 ? "" : $"Without {List(without, "or")} it can be played. ")
            + (ringing ? "Let the note end sooner, leave a note out, or move one by an octave." : "Leave a note out, move one by an octave, or strike them one after the other.");
        return new(Code, ringing ? Severity.Warning : Severity, on + why + what + (none.Nearest is null ? "" : " Do not force it: stop when it hurts."),
            moment.Events.MaxBy(e => e.Notes.Length)!.SoundSpan)
        {
            Related = [.. held.Select(h => h.Source).Distinct().Select(e => new Related("This is to sound on", e.SoundSpan, null))],
        };
    }

    private static NoPlaceTogether? Answer(Neck neck, LeftHand hand, List<Heard> notes)
    {
        if (notes.Count < 2)
            return null;
        var asked = (neck, hand, string.Join(' ', notes.Select(h => string.Create(CultureInfo.InvariantCulture, $"{h.Note.Midi}@{h.Note.String}"))));
        if (Known.TryGetValue(asked, out var answer))
            return answer;
        if (Known.Count >= MostKept)
            Known.Clear();
        return Known[asked] = Together.NoPlace(neck, hand, [.. notes.Select(h => new NoteToPlace(h.Note.Midi, 0, h.Note.String))]);
    }

    // Two voices that meet in one pitch need one string for it. A harmonic is touched, not held.
    private static List<Heard> Notes(IEnumerable<Heard> heard) => [.. heard.Where(h => h.Note is { Harmonic: false, Dead: false })
        .GroupBy(h => h.Note.Midi).SelectMany(g => g.DistinctBy(h => h.Note.String) is var own && own.Any(h => h.Note.String is not null) ? own.Where(h => h.Note.String is not null) : own)];

    // Told to ring or tied over: what merely lasts because nothing follows in its row, a player lets go.
    private static bool Asked(Heard heard) => heard.Source.Marks.Any(m => m.Kind is MarkKind.Ring or MarkKind.RingUntil or MarkKind.RingOver
        && (m.String is null || m.String == heard.Note.String)) || heard.Note.WantedEnd > heard.Source.End;

    private static string Strings(Neck neck, IEnumerable<Heard> notes)
    {
        var strings = Enumerable.Range(1, neck.Tuning.Strings).Where(s => notes.Any(h => (h.Note.String ?? s) == s && neck.FretOf(s, h.Note.Midi) is not null)).Select(s => $"{s}").ToList();
        return strings.Count == 1 ? $"only string {strings[0]}" : $"only strings {List(strings, "and")}";
    }

    private static string Name(Heard heard) => $"{heard.Note.Pitch}{(heard.Note.String is { } s ? $" on string {s}" : "")}";

    private static string List(List<string> words, string joined) => words.Count == 1 ? words[0] : $"{string.Join(", ", words.SkipLast(1))} {joined} {words[^1]}";

    private static string Lower(string? sentence) => sentence is null ? "" : char.ToLowerInvariant(sentence[0]) + sentence[1..];
}
