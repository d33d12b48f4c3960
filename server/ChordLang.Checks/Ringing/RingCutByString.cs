// Warns where a note is asked to sound on and its string is struck again before it is over.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Ringing;

/// <summary>See its page.</summary>
public sealed class RingCutByString : Check
{
    /// <inheritdoc/>
    public override string Code => "ring-cut-by-string";

    /// <inheritdoc/>
    public override string Title => "A ringing note cut by its own string";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        var holds = Holds.Of(piece);
        var cuts = holds.All.Where(h => !h.Source.Repeated && !h.Note.Dead).Select(h => (Hold: h, Cutter: holds.CutterOf(h)!)).Where(c => c.Cutter is not null && Matters(c.Hold, c.Cutter));
        // What one event cuts of another, all at once, is one slip and one finding.
        foreach (var slip in cuts.GroupBy(c => (c.Hold.Source, c.Hold.Kind, c.Hold.Note.WantedEnd, Cutter: c.Cutter.Source, c.Cutter.Note.Onset, c.Cutter.Grace)))
            yield return slip.ToList() is [var one] ? Told(piece, one.Hold, one.Cutter) : Together(piece, [.. slip]);
    }

    private Finding Told(Piece piece, Hold hold, Hold cutter)
    {
        var fixes = RingFixes.For(piece, hold, cutter.Grace ? [] : [cutter], cutter.Note.Onset);
        var moves = fixes.Any(f => f.Title.StartsWith("Play", StringComparison.Ordinal));
        return new(Code, hold.Asked ? Severity : Severity.Information,
            $"{hold.Note.Named()} {RingWords.Asks(piece, hold)}, but in {RingWords.At(piece, cutter.Note.Onset)}, {(cutter.Grace ? "the grace note " : "")}{cutter.Note.Pitch} strikes string {hold.String} again, "
            + "and a string sounds one note at a time. " + (moves ? "Put one of the two on another string" : "No other string is free for either: change the grip")
            + (hold.Asked ? ", or let the first end there." : "."), hold.Note.Span)
        {
            Strings = [hold.String], Fixes = fixes, Related = [new($"{cutter.Note.Pitch} strikes string {hold.String} here", cutter.Note.Span, null)],
        };
    }

    private Finding Together(Piece piece, ImmutableArray<(Hold Hold, Hold Cutter)> cuts)
    {
        var ((hold, cutter), strings) = (cuts[0], RingWords.Listed(cuts.Select(c => $"{c.Hold.String}")));
        var struck = (cutter.Grace ? "the grace notes " : "") + RingWords.Listed(cuts.Select(c => $"{c.Cutter.Note.Pitch}"));
        return new(Code, Severity,
            $"{RingWords.Listed(cuts.Select(c => $"{c.Hold.Note.Pitch}"))} {RingWords.Asks(piece, hold).Replace("is ", "are ", StringComparison.Ordinal)}, but in {RingWords.At(piece, cutter.Note.Onset)}, "
            + $"{struck} strike strings {strings} again, and a string sounds one note at a time. Change one of the grips, or let the first end there.", hold.Source.SoundSpan)
        {
            Strings = [.. cuts.Select(c => c.Hold.String).Order()], Fixes = RingFixes.ForAll(piece, [.. cuts.Select(c => c.Hold)], cutter.Note.Onset),
            Related = [new($"This strikes strings {strings}", cutter.Source.SoundSpan, null)],
        };
    }

    private static bool Matters(Hold hold, Hold cutter)
    {
        var ownVoice = cutter.Source.VoiceKey == hold.Source.VoiceKey;
        // A voicing under a moving top voice gives up one of its notes without loss, while a line of single notes that loses one is another line.
        if (!hold.Asked)
            return hold.Source.Notes.Length == 1 && !ownVoice && cutter.Note.Midi != hold.Note.Midi;
        // The same note struck again by its own voice goes on sounding.
        if (ownVoice && !cutter.Grace && !cutter.Note.Dead && cutter.Note.Midi == hold.Note.Midi)
            return false;
        // Where each note of a line rings, each rings as long as its string is left alone; only a ring with an end of its own asks for more.
        return !(ownVoice && hold.Kind == HoldKind.Ring && hold.RingsFreely && cutter.Kind == HoldKind.Ring);
    }
}
