// The heads of one stroke on the staff: which way its stem goes, which heads step aside, where the stem ends.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.Sheet;

/// <summary>A note head.</summary>
internal sealed class StaffHead(Event source, Note note)
{
    /// <summary>Its event.</summary>
    public Event Event { get; } = source;

    /// <summary>Its note.</summary>
    public Note Note { get; } = note;

    /// <summary>Steps above the bottom line of the staff; a treble clef an octave down.</summary>
    public int Step { get; } = Of(note.Pitch);

    /// <summary>Steps above the bottom line: the written E4, which sounds E3.</summary>
    public static int Of(Pitch pitch) => (int)pitch.Name.Letter + 7 * (pitch.Octave + 1) - 30;

    /// <summary>True where it stands on the other side of its stem.</summary>
    public bool Aside { get; set; }

    /// <summary>Its middle, once it is placed.</summary>
    public double X { get; set; }

    public double Y => StaffPart.Y(Step);
}

/// <summary>A stroke on the staff.</summary>
internal sealed class StaffChord
{
    public StaffChord(Stroke stroke, bool up)
    {
        Stroke = stroke;
        Heads = [.. stroke.Events.SelectMany(e => e.Notes.Select(n => new StaffHead(e, n))).OrderBy(h => h.Step)];
        Up = up;
    }

    public Stroke Stroke { get; }

    /// <summary>From the lowest.</summary>
    public ImmutableArray<StaffHead> Heads { get; }

    public bool Up { get; set; }

    /// <summary>The column it stands on, moved where another voice is in the way.</summary>
    public double X { get; set; }

    /// <summary>Where its stem ends; set by a beam, else by itself.</summary>
    public double Tip { get; set; }

    public int Low => Heads[0].Step;

    public int High => Heads[^1].Step;

    public double StemX => X + (Up ? Measure.Head - 0.35 : 0.35 - Measure.Head);

    /// <summary>The head at which the stem begins.</summary>
    public StaffHead Root => Up ? Heads[0] : Heads[^1];

    /// <summary>The direction that keeps a lone voice's stem near the middle of the staff (common practice).</summary>
    public static bool UpAlone(int low, int high) => Math.Abs(low - 4) > Math.Abs(high - 4) || low < 4 && high - 4 == 4 - low && low + high < 8;

    /// <summary>Seconds and unisons: from the stem's root on, every second one of a cluster steps aside.</summary>
    public void StepAside()
    {
        var order = Up ? Heads : [.. Heads.Reverse()];
        for (var i = 0; i < order.Length; i++)
        {
            order[i].Aside = i > 0 && Math.Abs(order[i].Step - order[i - 1].Step) <= 1 && !order[i - 1].Aside;
            order[i].X = X + (order[i].Aside ? (Up ? 1 : -1) * (2 * Measure.Head - 0.7) : 0);
        }
    }

    /// <summary>A stem by itself: an octave long, and at least to the middle line.</summary>
    public double OwnTip()
    {
        var end = Up ? StaffPart.Y(High) - 3.5 * StaffPart.Space : StaffPart.Y(Low) + 3.5 * StaffPart.Space;
        var middle = StaffPart.Y(4);
        return Up ? Math.Min(end, middle) : Math.Max(end, middle);
    }

    public string Glyph(StaffHead head)
    {
        if (head.Note.Dead)
            return "noteheadXBlack";
        if (head.Note.Harmonic)
            return Stroke.Half || Stroke.Whole ? "noteheadDiamondHalf" : "noteheadDiamondBlack";
        return Stroke.Whole ? "noteheadWhole" : Stroke.Half ? "noteheadHalf" : "noteheadBlack";
    }
}
