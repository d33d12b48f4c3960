// Keeps what was bound last of a text, so that the next version binds only the rows that changed.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;

namespace ChordLang.Arrangement.Binding;

/// <summary>Goes along with a text from version to version. Holds one version, and nothing of those before it. Any thread may bind with it: what it holds is immutable.</summary>
public sealed class BindingMemory
{
    private volatile BoundPiece? kept;

    internal BoundPiece? Kept
    {
        get => kept;
        set => kept = value;
    }
}

/// <summary>What a version keeps for the next.</summary>
/// <param name="Bars">Its bars, finished.</param>
/// <param name="Rows">Its rows, bar by bar.</param>
/// <param name="Shelf">The shapes in force.</param>
internal sealed record BoundPiece(ImmutableArray<Bar> Bars, BoundRow[][] Rows, ShapeShelf Shelf)
{
    /// <summary>True where all that a row may ask of others than its own voice is as it was: where each bar stands in time, what is in force in it, the shapes.</summary>
    public bool Holds(ImmutableArray<Bar> bars, ShapeShelf shelf)
    {
        if (bars.Length != Bars.Length || !shelf.SameAs(Shelf))
            return false;
        for (var i = 0; i < bars.Length; i++)
            if (bars[i] is var now && Bars[i] is var then && (now.Start != then.Start || now.Length != then.Length || now.From != then.From
                || !(i > 0 && ReferenceEquals(now.Settings, bars[i - 1].Settings) && ReferenceEquals(then.Settings, Bars[i - 1].Settings)) && now.Settings != then.Settings))
                return false;
        return true;
    }

    /// <summary>The row at a home, if it is written in the same words under the same chords; else null.</summary>
    public BoundRow? Find(RowHome home, RowPlan plan, Bar bar)
    {
        if (home.Row >= Rows[home.Bar].Length)
            return null;
        var row = Rows[home.Bar][home.Row];
        return ReferenceEquals(row.Plan.Syntax, plan.Syntax) && row.Plan.Borrowed == plan.Borrowed && row.Plan.VoiceKey == plan.VoiceKey && SameChords(Bars[home.Bar], bar) ? row : null;
    }

    private static bool SameChords(Bar one, Bar other)
    {
        if (one.Chords.Length != other.Chords.Length)
            return false;
        for (var i = 0; i < one.Chords.Length; i++)
            if (!ReferenceEquals(one.Chords[i].Chord, other.Chords[i].Chord) || one.Chords[i].Start != other.Chords[i].Start)
                return false;
        return true;
    }
}

/// <summary>A row as it is bound. Only where it stands in the text differs from version to version; drafts and troubles speak in offsets of its line.</summary>
/// <param name="Plan">Which row.</param>
/// <param name="Start">Where its line begins in the text.</param>
/// <param name="Leans">True where it may go on from the row before it in its voice.</param>
/// <param name="Before">The row that it goes on from, or null.</param>
/// <param name="LeantOn">True where the next row of its voice goes on from it.</param>
/// <param name="Drafts">Its events.</param>
/// <param name="Troubles">What is to be told of it.</param>
/// <param name="Shapes">The names of shapes that it asks for.</param>
internal sealed record BoundRow(
    RowPlan Plan, int Start, bool Leans, RowHome? Before, bool LeantOn, ImmutableArray<EventDraft> Drafts, ImmutableArray<Trouble> Troubles, ImmutableArray<string> Shapes);
