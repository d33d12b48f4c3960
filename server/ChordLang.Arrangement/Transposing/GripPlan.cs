// Plans the whole piece: every grip, and the shapes, positions and ornaments that hang on them; gathers what is lost.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Transposing;

/// <summary>A loss before its place in the new text is known.</summary>
/// <param name="Event">The event, or null for a setting.</param>
/// <param name="Line">Its line.</param>
/// <param name="Source">Where it was written.</param>
/// <param name="Loss">The loss, its new span still open.</param>
internal sealed record LossDraft(Event? Event, int Line, Span Source, Loss Loss);

/// <summary>The plan of a transposition.</summary>
internal sealed class GripPlan
{
    private const int HighestPosition = 24;
    private readonly Piece piece;
    private readonly Interval interval;
    private readonly Dictionary<int, Event> events = [];
    private readonly Dictionary<int, EventMove> moves = [];
    private readonly HashSet<string> movedShapes = new(StringComparer.Ordinal);
    private readonly List<LossDraft> losses = [];

    /// <summary>Plans a piece; with <paramref name="shapesStay"/>, no definition of a shape moves along.</summary>
    public GripPlan(Piece piece, Interval interval, bool shapesStay = false)
    {
        (this.piece, this.interval, Grips) = (piece, interval, new(piece, interval));
        foreach (var bar in piece.Bars)
            foreach (var e in bar.Rows.Where(r => !r.Borrowed).SelectMany(r => r.Events))
                events.TryAdd(e.SoundSpan.Start, e);
        var groups = piece.Events.Where(e => e is { Kind: EventKind.Struck, Repeated: false, Syntax: not null }).GroupBy(e => e.Onset)
            .Select(g => Grips.Move([.. g])).ToList();
        if (!shapesStay)
            Shapes(groups);
        foreach (var group in groups)
            Keep(group);
    }

    /// <summary>Moves single grips.</summary>
    public GripMoves Grips { get; }

    /// <summary>What was lost.</summary>
    public IReadOnlyList<LossDraft> Losses => losses;

    /// <summary>The move of the event whose sound begins at an offset of the text, or null where it does not move by itself.</summary>
    public EventMove? Of(int sound) => moves.GetValueOrDefault(sound);

    /// <summary>The event whose sound begins at an offset of the text.</summary>
    public Event? EventAt(int sound) => events.GetValueOrDefault(sound);

    /// <summary>The slots, and the fingers as text, of a shape whose definition moves; else null.</summary>
    public (ImmutableArray<int?> Slots, string? Fingers)? Shape(string name, int line)
    {
        if (!movedShapes.Contains(name) || !piece.Shapes.TryGetValue(name, out var shape) || shape.Line != line)
            return null;
        var voicing = new Voicing([.. shape.Slots.Select(f => f + interval.Semitones)]);
        return (voicing.Slots, Grips.Fingering(piece.Settings, voicing)?.Text(voicing));
    }

    /// <summary>The position that a setting says now; null where it stays.</summary>
    public int? Position(int line)
    {
        if (piece.Tree.Lines[line] is not SettingLine { Value: NumberValue { Number: var position } } setting)
            return null;
        var settings = piece.Bars.FirstOrDefault(b => b.Line > line)?.Settings ?? piece.Settings;
        var moved = position + interval.Semitones;
        if (moved >= 1 && moved <= Math.Min(HighestPosition, settings.Neck.HighestFret))
            return moved;
        var span = piece.Tree.Absolute(line, setting.ValueSpan);
        losses.Add(new(null, line, span, new(Obstacle.NeckEnd, LossWords.Position(position, interval.Semitones), span, span, true)));
        return null;
    }

    /// <summary>Notes that something of an event was lost.</summary>
    public void Lost(Event e, Obstacle obstacle, string message, bool samePitches, ImmutableArray<int> strings)
    {
        var bar = piece.Bars[e.Bar];
        losses.Add(new(e, e.Line, e.SoundSpan, new(obstacle, message, e.SoundSpan, e.SoundSpan, samePitches)
        {
            Bar = bar.Number, Count = CountSyntax.Write(e.Offset), Strings = strings,
        }));
    }

    // A shape with open strings is used where it lies and nowhere else: when it can move at all its uses, its definition moves, and they stay.
    private void Shapes(List<GripMove> groups)
    {
        if (interval.Semitones == 0)
            return;
        var uses = groups.SelectMany(g => g.Events.Select(e => (g.Stop, e.Event.Shape))).Where(u => u.Shape is { Path: null } s && s.Slots.Contains(0)).ToLookup(u => u.Shape!.Name);
        foreach (var use in uses)
            if (use.All(u => u.Stop is null))
                movedShapes.Add(use.Key);
    }

    private void Keep(GripMove group)
    {
        foreach (var e in group.Events)
        {
            var open = interval.Semitones != 0 && e.Event.Shape is { } shape && shape.Slots.Contains(0);
            var moves = open && e.Event.Shape!.Path is null && movedShapes.Contains(e.Event.Shape.Name);
            this.moves[e.Event.SoundSpan.Start] = e with { ShapeMoves = moves, WriteFrets = open && !moves };
            if (open && !moves && group.Stop is null)
                Lost(e.Event, Obstacle.OpenString, LossWords.Shape(e.Event.Shape!.Name), true, [.. e.Event.Notes.Where(n => n.Fret == 0).Select(n => n.String!.Value).Order()]);
            Single(e);
        }
        if (group.Stop is not { } stop)
            return;
        var blamed = group.Events.FirstOrDefault(e => !e.SameStrings) ?? group.Events.FirstOrDefault(e => e.Notes.Any(n => n.Pitch.Midi - n.Note.Midi != interval.Semitones)) ?? group.Events[0];
        var same = group.Events.All(e => e.Notes.All(n => !n.LeftOut && n.Pitch.Midi - n.Note.Midi == interval.Semitones));
        Lost(blamed.Event, stop.Obstacle, LossWords.Grip(stop, group, interval.Semitones, piece.Bars[blamed.Event.Bar].Settings), same && stop.Found, stop.Strings);
    }

    private void Single(EventMove e)
    {
        foreach (var n in e.Notes.Where(n => n.Note.String is null && n.Pitch.Midi - n.Note.Midi != interval.Semitones))
            Lost(e.Event, Obstacle.NeckEnd, LossWords.Octave(interval.From(n.Note.Pitch).ToString(), n.Pitch.ToString()), false, []);
        var natural = e.Notes.Where(n => n.Note is { Harmonic: true, Fret: { } was, String: not null } && interval.Semitones != 0 && Harmonics.IsNatural(was)).Select(n => n.Note.String!.Value).Order().ToImmutableArray();
        if (natural.Length > 0)
            Lost(e.Event, Obstacle.OpenString, LossWords.Harmonic(natural), true, natural);
    }
}
