// One event of a piece on the neighbouring set of strings, with the edits that say so: the engine behind the editor's action.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Arrangement.Placing;

/// <summary>An event on other strings.</summary>
/// <param name="Title">What it does, as an order: <c>Play it on strings 5, 4, 3 and 2: x-15-14-12-13-x</c>.</param>
/// <param name="Voicing">Where its notes lie then; the same pitches.</param>
/// <param name="Fingers">The fingers, together with what other voices hold at that time.</param>
/// <param name="Edits">Edits in offsets of the text: the sound, and the marks that name strings or fingers.</param>
public sealed record OtherStringSet(string Title, Voicing Voicing, Fingers Fingers, ImmutableArray<TextEdit> Edits)
{
    /// <summary>
    /// The event on the next set of strings to one side, see <see cref="StringSets.Next"/>; null where there is none, where the sound is not
    /// written at the event (<c>again</c>, <c>%</c>), or where it is tied to its strings: harmonics, dead notes, written graces and slides.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="e">A struck event of it.</param>
    /// <param name="across">Which way.</param>
    /// <param name="placed">Where notes lie that have no string of their own; null to answer null for them.</param>
    public static OtherStringSet? Of(Piece piece, Event e, Across across, PlacedPiece? placed = null)
    {
        var settings = piece.Bars[e.Bar].Settings;
        var hand = settings.Reach is (var from, var to) ? settings.Hand.Calibrated(settings.Neck, from, to) : settings.Hand;
        if (e is not { Kind: EventKind.Struck, Repeated: false, Syntax: { } played } || e.Notes.IsEmpty || e.Notes.Any(n => n.Dead || n.Harmonic)
            || e.Marks.Any(m => m.Operand is NotesOperand { Notes.Notes: var o } && o.Any(n => n.String is not null)))
            return null;
        var places = placed?.Events.FirstOrDefault(p => ReferenceEquals(p.Event, e))?.Notes;
        var strings = settings.Neck.Tuning.Strings;
        var (slots, beside, at) = (new int?[strings], new int?[strings], new int[e.Notes.Length]);
        for (var i = 0; i < e.Notes.Length; i++)
        {
            if ((e.Notes[i].String ?? places?[i].String) is not { } s || s < 1 || s > strings || slots[^s] is not null
                || (e.Notes[i].Fret ?? settings.Neck.FretOf(s, e.Notes[i].Midi)) is not { } fret)
                return null;
            (slots[^s], at[i]) = (fret, s);
        }
        foreach (var (note, source) in piece.Moments.FirstOrDefault(m => m.Time == e.Onset)?.Sounding ?? [])
            if (!ReferenceEquals(source, e) && note is { String: { } s, Fret: { } fret } && s >= 1 && s <= strings)
                beside[^s] = fret;
        if (StringSets.Next(settings.Neck, hand, new([.. slots]), across, new([.. beside])) is not { } next)
            return null;
        var writer = new Writer(piece, e, next, [.. at.Select(s => next.Strings[s])]);
        var names = next.Voicing.Played.Select(s => $"{s}").ToList();
        var where = names.Count == 1 ? $"string {names[0]}" : $"strings {string.Join(", ", names[..^1])} and {names[^1]}";
        return new($"Play it on {where}: {next.Voicing}", next.Voicing, next.Fingers, [.. writer.Sound(played.Sound), .. writer.Marks(played.Marks)]);
    }

    private sealed record Writer(Piece Piece, Event Event, OtherSet Next, ImmutableArray<int> Strings)
    {
        public IEnumerable<TextEdit> Sound(SoundSyntax sound) => sound switch
        {
            NotesSound notes => notes.Notes.SelectMany(Note),
            EqualSound equal => Sound(equal.Left).Concat(Sound(equal.Right)),
            _ => [new(Absolute(sound.Span), Next.Voicing.ToString())],
        };

        public IEnumerable<TextEdit> Marks(ImmutableArray<MarkSyntax> marks)
        {
            foreach (var mark in marks)
            {
                var to = mark.String is { } s && Next.Strings.TryGetValue(s, out var moved) ? moved : mark.String;
                if (to != mark.String)
                    yield return new(Absolute(new(mark.Name.End + 1, $"{mark.String}".Length)), $"{to}");
                if (mark is { Kind: MarkKind.Fingers, Operand: FingersOperand whole })
                    yield return new(Absolute(whole.Span), Own().Text(Next.Voicing));
                else if (mark is { Kind: MarkKind.Finger, Operand: FingerOperand one } && (to ?? (Strings.Length == 1 ? Strings[0] : null)) is { } at)
                    yield return Next.Fingers[at] is { } finger ? new(Absolute(one.Span), finger.Written())
                        : new(Absolute(new(mark.Span.Start - 1, mark.Span.Length + 1)), "");
            }
        }

        private IEnumerable<TextEdit> Note(NoteSyntax syntax)
        {
            var span = Absolute(syntax.Span);
            for (var i = 0; i < Event.Notes.Length; i++)
                if (Event.Notes[i] is var note && (Within(span, note.Span) || note.PitchSpan is { } p && Within(span, p)))
                {
                    if (syntax.Fret is not null)
                        yield return new(span, $"{Next.Voicing[Strings[i]]}@{Strings[i]}");
                    else
                        yield return new(new(Absolute(syntax.Pitch!.Span).End, span.End - Absolute(syntax.Pitch.Span).End), $"@{Strings[i]}");
                    yield break;
                }
        }

        private Fingers Own() => new([.. Next.Fingers.Slots.Select((f, i) => Next.Voicing.Slots[i] > 0 ? f : null)]);

        private Span Absolute(Span span) => Piece.Tree.Absolute(Event.Line, span);

        private static bool Within(Span outer, Span inner) => inner.Start >= outer.Start && inner.End <= outer.End;
    }
}
