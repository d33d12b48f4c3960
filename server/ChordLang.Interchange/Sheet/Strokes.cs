// The rows of a bar as strands of note values: what has a stem of its own, cut so that the beats can be seen.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.MusicXml;

namespace ChordLang.Interchange.Sheet;

/// <summary>One note value of one strand.</summary>
/// <param name="Events">The events that share its stem, the strand's own first.</param>
/// <param name="Start">When, in whole notes of the piece.</param>
/// <param name="Value">Its value.</param>
/// <param name="First">True where its events start here, false where they go on.</param>
/// <param name="Last">True where its events end with it.</param>
internal sealed record Stroke(ImmutableArray<Event> Events, Rational Start, NoteValue Value, bool First, bool Last)
{
    /// <summary>A stroke is itself and no other, however alike.</summary>
    public bool Equals(Stroke? other) => ReferenceEquals(this, other);

    public override int GetHashCode() => System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(this);

    public bool Rest => Events.IsEmpty || Events[0].Kind is EventKind.Rest or EventKind.Unbound || Events[0].Notes.IsEmpty;

    /// <summary>True where notes are struck, not held over.</summary>
    public bool Struck => !Rest && First && Events[0].Kind == EventKind.Struck;

    public Rational End => Start + Value.Length;

    public int Flags => Value.Type switch { "eighth" => 1, "16th" => 2, "32nd" => 3, "64th" or "128th" or "256th" => 4, _ => 0 };

    public bool Half => Value.Type is "half";

    public bool Whole => Value.Type is "whole";
}

/// <summary>Strokes of one voice in one bar.</summary>
/// <param name="Up">True where its stems go up.</param>
/// <param name="Strokes">In order; gaps only where another strand took a stroke in.</param>
internal sealed record Strand(bool Up, ImmutableArray<Stroke> Strokes);

/// <summary>Makes strands of rows.</summary>
internal static class Strands
{
    /// <summary>The strands of a bar: the highest row with stems up, the others down; rows that move together share their stems.</summary>
    /// <param name="bar">The bar.</param>
    /// <param name="single">Direction of the stems where there is one row only.</param>
    public static ImmutableArray<Strand> Of(Bar bar, bool single)
    {
        var rows = bar.Rows.Where(r => r.Events.Any(e => e.End > e.Onset)).OrderByDescending(Height).ToList();
        if (rows.Count == 0)
            return [];
        var strands = new List<Strand> { new(rows.Count == 1 ? single : true, Cut(bar, rows[0])) };
        foreach (var row in rows.Skip(1).Reverse())
        {
            var own = Cut(bar, row);
            for (var i = 0; i < strands.Count; i++)
                if (strands.Count > 1 && (!strands[i].Up || own.All(o => strands[i].Strokes.Any(s => Together(s, o)))))
                    (strands[i], own) = Join(strands[i], own);
            if (own.Any(s => !s.Rest) || strands.Count == 1)
                strands.Add(new(false, own));
        }
        return [.. strands];
    }

    private static double Height(Row row)
    {
        var pitches = row.Events.SelectMany(e => e.Notes).Select(n => n.Midi).ToList();
        return pitches.Count > 0 ? pitches.Average() : 60 - row.Number;
    }

    private static bool Together(Stroke a, Stroke b) => a.Start == b.Start && a.Value.Length == b.Value.Length && a.Rest == b.Rest && a.First == b.First && (a.Rest || a.Events[0].Kind == b.Events[0].Kind);

    private static (Strand, ImmutableArray<Stroke>) Join(Strand into, ImmutableArray<Stroke> own)
    {
        var left = own.ToList();
        var strokes = into.Strokes.Select(s =>
        {
            if (left.Find(o => Together(s, o)) is not { } found)
                return s;
            left.Remove(found);
            return s with { Events = [.. s.Events, .. found.Events] };
        }).ToImmutableArray();
        return (into with { Strokes = strokes }, [.. left]);
    }

    private static ImmutableArray<Stroke> Cut(Bar bar, Row row)
    {
        var strokes = ImmutableArray.CreateBuilder<Stroke>();
        var at = bar.Start;
        foreach (var e in row.Events.Where(e => e.End > e.Onset && e.Onset >= bar.Start).OrderBy(e => e.Onset))
        {
            var (from, to) = (Rational.Max(e.Onset, at), Rational.Min(e.End, bar.End));
            if (from >= to)
                continue;
            Add(strokes, bar, [], at, from);
            Add(strokes, bar, [e], from, to);
            at = to;
        }
        Add(strokes, bar, [], at, bar.End);
        return strokes.ToImmutable();
    }

    private static void Add(ImmutableArray<Stroke>.Builder strokes, Bar bar, ImmutableArray<Event> events, Rational from, Rational to)
    {
        if (to <= from)
            return;
        var rest = events.IsEmpty || events[0].Kind is EventKind.Rest or EventKind.Unbound;
        var shift = bar.From * bar.Settings.Meter.Count - bar.Start;
        // A bar of silence is a whole rest whatever the meter (common practice).
        var values = rest && from == bar.Start && to == bar.End && bar.Length == bar.Settings.Meter.Length ? [new NoteValue(from + shift, to - from, "whole", 0, 1, 1)]
            : Beats.Cut(bar.Settings.Meter, from + shift, to + shift, rest);
        for (var i = 0; i < values.Length; i++)
            strokes.Add(new(events, values[i].Start - shift, values[i], i == 0, i == values.Length - 1));
    }
}
