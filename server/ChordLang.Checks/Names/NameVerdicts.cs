// Judges every sonority of a piece once, so that one voicing gives one finding, the best explanation, whichever check reports it.
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Theory.Chords;

namespace ChordLang.Checks.Names;

/// <summary>The findings of all checks of names against sound.</summary>
internal static class NameVerdicts
{
    public const string Contradiction = "name-contradiction", StringSetSlip = "name-string-set-slip", FretSlip = "name-fret-slip",
        SlashBass = "name-slash-bass", MissingTone = "name-missing-tone", UnnamedTension = "name-unnamed-tension";

    // A sound without any tone that fights its name is still a slip where it lacks and colours this much, and the moved grip does neither.
    private const int PlainlyOff = 2;

    // Semitones of the thirds; tones of a chord; notes of a grip that says its chord by itself.
    private const int Minor = 3, Major = 4, LeastChord = 3, WholeGrip = 4;

    // Six checks ask for the same work on the same piece; it is kept as long as the piece is.
    private static readonly ConditionalWeakTable<Piece, List<Finding>> Kept = [];

    /// <summary>The findings of one check.</summary>
    public static IEnumerable<Finding> Of(Piece piece, string code) => Kept.GetValue(piece, p => [.. Judge(p)]).Where(f => f.Code == code);

    private static IEnumerable<Finding> Judge(Piece piece)
    {
        var hinted = -1;
        foreach (var sonority in Sonorities.Of(piece))
        {
            if (Verdict(piece, sonority) is not { } finding)
                continue;
            if (finding.Severity == Severity.Hint)
            {
                if (hinted == sonority.Bar.Index)
                    continue;
                hinted = sonority.Bar.Index;
            }
            yield return finding;
        }
    }

    private static Finding? Verdict(Piece piece, Sonority sonority)
    {
        var chord = sonority.Chord;
        var fit = Fit.Of(chord, sonority.Strict, sonority.Tones.Where(t => t.Blamable).Select(t => t.Note.Midi),
            sonority.Tones.Aggregate(sonority.Heard, (set, t) => set | 1 << t.Note.Pitch.Name.PitchClass));
        var foreign = sonority.Tones.Where(t => t.Blamable && fit.Foreign.Contains(t.Note.Midi)).ToImmutableArray();
        var lowest = Math.Min(sonority.Tones[0].Note.Midi, sonority.Lowest);
        var overturned = chord.Bass is { } bass && (lowest % 12 + 12) % 12 != bass.PitchClass;
        var say = new Wording(piece, sonority, fit);
        if (foreign.IsEmpty && !overturned && Strange(sonority, fit))
            foreign = [.. sonority.Tones.Where(t => t.Blamable)];
        if (foreign.IsEmpty && !overturned && MinorThird(sonority, fit) is { } third)
            return say.Third(third);
        if (foreign.IsEmpty && !overturned && (fit.Missing.IsEmpty || !sonority.Strict))
            return (sonority.Strict ? DoubledSlip(sonority) : SilentSlip(sonority, fit)) is { } slip ? say.Slip(slip)
                : !fit.Missing.IsEmpty ? say.Missing(Severity.Hint, BesideDouble(sonority, fit))
                : say.Unnamed();
        var repairs = Repairs.Of(sonority, sonority.Bar.Settings.Neck, foreign.Length > 0);
        var best = repairs.FirstOrDefault(r => r.Missing == 0);
        if (foreign is [var stranger] && !overturned && !sonority.Strict && fit.Missing.IsEmpty && best is { Movement: Movement.OneNote, Changes: [var to] } && (!InChord(chord, to.Midi) || Math.Abs(best.By) > 1) && Renames.Fuller(sonority) is { } full)
            return say.Otherwise(stranger, full, best);
        if (best is { Movement: not Movement.Position } && (foreign.Length > 0 || overturned))
            return say.Slip(best);
        if (foreign.Length > 0)
            return say.Contradicts(foreign, best);
        return overturned ? say.Overturned() : say.Missing(Severity.Warning, best is { Movement: Movement.Position } ? null : best);
    }

    // Three tones or more, and none of them is one of the chord's.
    private static bool Strange(Sonority sonority, Fit fit) => !fit.Missing.IsEmpty && sonority.Tones.All(t => !InChord(sonority.Chord, t.Note.Midi))
        && sonority.Tones.Select(t => t.Note.Pitch.Name.PitchClass).Distinct().Count() >= LeastChord;

    // A sharp ninth stands above a major third. Where a whole grip has its root and no major third, what stands a fret below that third is a minor one.
    private static Repair? MinorThird(Sonority sonority, Fit fit)
    {
        var chord = sonority.Chord;
        if (!fit.Missing.Any(t => t.Degree.Interval == Major) || chord.Tones.Any(t => t.Degree.Interval == Minor) || sonority.Tones.Length < WholeGrip
            || sonority.Tones.Any(t => !ReferenceEquals(t.Event, sonority.Event) || t.Note.Fret is null) || sonority.Tones.All(t => chord.IntervalOf(t.Note.Midi) != 0))
            return null;
        return Repairs.Of(sonority, sonority.Bar.Settings.Neck, false).FirstOrDefault(r => r is { Movement: Movement.OneNote, By: 1, Missing: 0, Changes: [var c] } && chord.IntervalOf(c.Tone.Note.Midi) == Minor);
    }

    // What is missing lies a fret from a tone that the grip has twice, above its bass.
    private static Repair? BesideDouble(Sonority sonority, Fit fit) =>
        Repairs.Of(sonority, sonority.Bar.Settings.Neck, false).FirstOrDefault(r => r is { Movement: Movement.OneNote, By: 1 or -1, Missing: 0, Lacking: 0, Changes: [var c] }
            && !ReferenceEquals(c.Tone, sonority.Tones[0]) && fit.Missing.Any(t => t.Name.PitchClass == (c.Midi % 12 + 12) % 12) && sonority.Tones.Count(t => (t.Note.Midi - c.Tone.Note.Midi) % 12 == 0) > 1);

    /// <summary>True for one of a chord's own tones; a bass behind its slash that is none of them does not count.</summary>
    internal static bool InChord(Chord chord, int midi) => chord.Tones.Any(t => t.Name.PitchClass == (midi % 12 + 12) % 12);

    // The neighbouring string set can sound a chord whose tones all pass as colours: Em7 under Am7 is an eleventh chord without root and third.
    private static Repair? SilentSlip(Sonority sonority, Fit fit)
    {
        var chord = sonority.Chord;
        var rootless = sonority.Tones.All(t => chord.IntervalOf(t.Note.Midi) != 0);
        var lacking = Fit.Of(chord, false, sonority.Tones.Select(t => t.Note.Midi), 0).Missing.Length;
        var strange = fit.Colours.Distinct().Count() + (rootless ? 1 : 0);
        // With its root and no colour it is a part of the chord, such as its plain triad on the upper strings.
        if (strange == 0 || 2 * lacking + strange < PlainlyOff)
            return null;
        return Repairs.Of(sonority, sonority.Bar.Settings.Neck, false)
            .FirstOrDefault(r => r is { Movement: Movement.StringSet, Lacking: 0, Colours: 0 });
    }

    // Strict naming: a tone is doubled, and a fret or two away on its string lies the root or fifth that the symbol names and nobody plays; a
    // ninth or eleventh is left out too often under a higher tension to be missed. Or a tension lies in the bass in the root's stead.
    private static Repair? DoubledSlip(Sonority sonority)
    {
        var chord = sonority.Chord;
        var heard = sonority.Tones.Select(t => chord.IntervalOf(t.Note.Midi)).ToArray();
        return Repairs.Of(sonority, sonority.Bar.Settings.Neck, false).FirstOrDefault(r => r is { Movement: Movement.OneNote, Missing: 0, Changes: [var change] }
            && chord.DegreeOf(change.Midi) is { Number: 1 or 5 } added && !heard.Contains(added.Interval)
            && (heard.Count(i => i == chord.IntervalOf(change.Tone.Note.Midi)) > 1
                || added.Number == 1 && ReferenceEquals(change.Tone, sonority.Tones[0]) && chord.DegreeOf(change.Tone.Note.Midi).Number >= 9));
    }
}
