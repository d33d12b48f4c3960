// Writes down what the text leaves open: strings, pitches, octaves and fingers.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Reading;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Actions;

internal static class WritingActions
{
    // Up to here a piece is placed as a whole, as the command line does; a longer one by the bars around the selection.
    private const int MostEvents = 400, BarsAround = 4;

    public static IEnumerable<LessonAction> Of(Selection chosen)
    {
        var (piece, many) = (chosen.Piece, chosen.Events.Length > 1);
        if (chosen.Events.Any(e => e.Notes.Any(n => n is { String: null, PitchWritten: true, Dead: false })))
            yield return new("write strings", many ? "Write the strings of these notes" : "Write its strings", ActionKind.Rewrite, () => Strings(chosen)) { Costly = true };
        if (chosen.Events.Where(e => FretsOnly(piece, e)).ToList() is { Count: > 0 } frets)
            yield return new("write pitches", many ? "Write the pitches of these frets" : "Write its pitches", ActionKind.Rewrite, () => [.. frets.Select(Pitches)]);
        if (Octaves(chosen) is { IsEmpty: false } octaves)
            yield return new("write octaves", "Write the octaves", ActionKind.Rewrite, () => octaves);
        if (chosen.Events.Where(e => e.Voicing is not null && !e.Has(MarkKind.Finger) && !e.Has(MarkKind.Fingers) && e.Notes.Any(n => n.Fret > 0)).ToList() is { Count: > 0 } bare)
            yield return new("write fingers", many ? "Write the left-hand fingers of these" : "Write its left-hand fingers", ActionKind.Rewrite, () => [.. bare.Select(e => Fingers(piece, e)).OfType<TextEdit>()]);
    }

    private static ImmutableArray<TextEdit> Strings(Selection chosen)
    {
        var piece = chosen.Piece;
        if (piece.Events.Length > MostEvents)
        {
            var (first, last) = (chosen.Events.Min(e => e.Bar) - BarsAround, chosen.Events.Max(e => e.Bar) + BarsAround);
            piece = piece with { Events = [.. piece.Events.Where(e => e.Bar >= first && e.Bar <= last)] };
        }
        var extents = chosen.Events.Select(e => e.SoundSpan).ToList();
        return [.. PlacedPiece.Of(piece, piece.Settings.Hand).Edits().Where(e => extents.Any(x => x.Touches(e.Span.Start)))];
    }

    private static bool FretsOnly(Piece piece, Event e) => e.Syntax!.Sound is SlotsSound or NotesSound && e.Notes.Length > 0 && e.Notes.All(n => n is { PitchWritten: false, FretWritten: true, Dead: false } && n.Fret <= piece.Bars[e.Bar].Settings.Neck.HighestFret);

    private static TextEdit Pitches(Event e) => new(new(e.SoundSpan.Start, 0), string.Join('+', e.Notes.Select(n => n.Pitch)) + " = ");

    private static ImmutableArray<TextEdit> Octaves(Selection chosen)
    {
        var edits = ImmutableArray.CreateBuilder<TextEdit>();
        var starts = chosen.Events.Select(e => e.SoundSpan).ToList();
        for (var line = chosen.FirstLine; line <= chosen.LastLine; line++)
            if (chosen.Lesson.Tree.Lines[line] is RowLine row)
            {
                var octaves = OctaveReading.Of(row);
                foreach (var pitch in row.Events.SelectMany(e => e.Sounds).SelectMany(s => Sides(s.Sound)).OfType<NotesSound>().SelectMany(n => n.Notes).Select(n => n.Pitch))
                    if (pitch is { Octave: null } && chosen.Lesson.Tree.Absolute(line, pitch.Span) is var at && starts.Any(s => s.Start <= at.Start && at.End <= s.End))
                        edits.Add(new(new(at.End, 0), $"{octaves[pitch]}"));
            }
        return edits.ToImmutable();
    }

    private static IEnumerable<SoundSyntax> Sides(SoundSyntax sound) => sound is EqualSound equal ? [equal.Left, equal.Right] : [sound];

    private static TextEdit? Fingers(Piece piece, Event e)
    {
        var settings = piece.Bars[e.Bar].Settings;
        if (FingeringSearch.Best(settings.Neck, settings.Hand, e.Voicing!).Best is not { } best)
            return null;
        var at = new Span(piece.Tree.Absolute(e.Line, e.Syntax!.Sound.Span).End, 0);
        return e.Notes is [{ String: { } s }] ? best[s] is { } one ? new(at, $" finger {one.Written()}") : null : new(at, $" fingers {best.Text(e.Voicing!)}");
    }
}
